package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringReader;
import java.io.StringWriter;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.devices.Calibrations;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.RigDescription;
import tarnish.sim.Fault;
import tarnish.sim.SimulatedRig;

class BenchCheckTest {
  @TempDir Path folder;

  private final RigDescription rig = LoadedFiles.rig("rig", LoadedFiles.text(Demo.RIG));
  private final SimulatedBench bench =
      new SimulatedBench(new SimulatedRig(rig, NoBatch.recipe(rig), 1));

  private static BenchTalk talk(String typed, boolean yes) {
    return new BenchTalk(
        new BufferedReader(new StringReader(typed)), new PrintWriter(new StringWriter()), yes);
  }

  private String check(String typed, boolean yes) throws IOException {
    BenchTalk talk = talk(typed, yes);
    new BenchCheck(rig, bench, new BenchLook(rig, bench, 10), talk).run();
    return talk.text();
  }

  @Test
  void everySensorIsShownAndEveryOutputMovesWhatItShould() throws IOException {
    String report = check("", true);
    for (var sensor : rig.sensors()) {
      assertTrue(report.contains(sensor.channel().words()), report);
    }
    assertTrue(report.contains("Pulse the heater for 1.25 s (1000 J)?"), report);
    String oxygen = report.substring(report.indexOf("Pulse the oxygen valve"));
    assertTrue(oxygen.substring(0, 200).contains("vessel pressure rose by"), report);
    assertFalse(report.contains("swapped"), report);
    assertTrue(report.endsWith("Everything is off.\n"), report);
  }

  @Test
  void withoutATypedYesNothingIsPulsed() throws IOException {
    double before = bench.rig().truth().elementK();
    String report = check("y\nJa\n\nno\nYES\nnot yes\n", false);
    assertEquals(6, report.split("left out", -1).length - 1, report);
    assertEquals(before, bench.rig().truth().elementK(), 0.5);
    assertFalse(report.contains("rose by"), report);
  }

  @Test
  void aPressedStopKeepsEveryOutputOff() throws IOException {
    bench.rig().pressEmergencyStop(true);
    String report = check("", true);
    assertEquals(6, report.split("is not pulsed: the emergency stop", -1).length - 1, report);
  }

  @Test
  void anUnknownOvenIsNotHeated() throws IOException {
    bench.rig().inject(Fault.SAMPLE_THERMOCOUPLE_OPEN, 1);
    String report = check("", true);
    assertTrue(report.contains("the heater is not pulsed: sample and oven must be known"), report);
    assertTrue(report.contains("! sample temperature: "), report);
  }

  @Test
  void aCalibrationIsKeptWithItsDateAndRead() throws IOException {
    BenchTalk talk = talk("20 bar\n500 mbar ± 1 mbar\n1500 mbar ± 1 mbar\nyes\n", false);
    SensorCalibration calibration = new SensorCalibration(rig, new BenchLook(rig, bench, 5), talk);
    // Both looks see the same room pressure, so no straight line goes through both references.
    assertThrows(CommandFailure.class, () -> calibration.run("vessel pressure", folder));
    assertTrue(talk.text().contains("expected a value with '±'"), talk.text());
    assertEquals(0, CalibrationFile.in(folder).read().all().size());
  }

  @Test
  void aKeptCalibrationIsReadAgainAndADoubtfulLineStopsTheStart() throws IOException {
    CalibrationFile file = CalibrationFile.in(folder);
    file.add(
        new tarnish.controller.devices.Calibration(
            Channel.VESSEL_PRESSURE,
            "2026-11-25T10:00:00Z",
            new tarnish.controller.devices.Calibration.Mark(120, 1, 0, 2),
            new tarnish.controller.devices.Calibration.Mark(101_120, 1, 101_000, 30)));
    Calibrations read = file.read();
    assertEquals(50_000, read.correct(Channel.VESSEL_PRESSURE, 50_120), 1e-6);
    Path csv = folder.resolve("calibrations.csv");
    java.nio.file.Files.writeString(
        csv, java.nio.file.Files.readString(csv).replace("101000.0", "NaN"));
    CommandFailure failure = assertThrows(CommandFailure.class, file::read);
    assertEquals(
        csv
            + ":2: 'NaN' is no number. Mend or take out this line: a bench is not run on a"
            + " calibration in doubt.",
        failure.getMessage());
  }

  /** Steam tables: 99.97 °C at 1013.25 hPa, 98.18 °C at 950 hPa (IAPWS-IF97; from memory). */
  @Test
  void waterBoilsWhereSteamTablesSay() {
    assertEquals(373.124, SensorCalibration.boilingK(101_325), 1e-9);
    assertEquals(98.18 + 273.15, SensorCalibration.boilingK(95_000), 0.05);
  }

  @Test
  void yesForAllIsForASimulatedBenchOnly() {
    StringWriter errors = new StringWriter();
    int status =
        Main.run(
            new PrintWriter(new StringWriter()),
            new PrintWriter(errors),
            "bench",
            "--yes",
            "--rig",
            "../sim/demo/instruments.rig.yaml",
            "--data",
            folder.toString());
    assertEquals(Main.FAILED, status);
    assertTrue(errors.toString().startsWith("--yes is for a simulated bench."), errors.toString());
  }
}
