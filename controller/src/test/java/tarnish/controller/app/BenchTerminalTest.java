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
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.devices.Calibration;
import tarnish.controller.devices.Calibration.Mark;
import tarnish.controller.devices.Calibrations;
import tarnish.controller.journal.BenchNote;
import tarnish.controller.journal.SqliteJournal;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.RigDescription;
import tarnish.sim.Fault;
import tarnish.sim.SimulatedRig;

/** The bench check of a live bench in equations, as a person types through it. */
class BenchTerminalTest {
  private static final double SPEED = 400;

  @TempDir Path folder;

  private final String rigText = LoadedFiles.text(Demo.RIG);
  private final RigDescription rig = LoadedFiles.rig("rig", rigText);
  private final SimulatedRig plant = new SimulatedRig(rig, NoBatch.recipe(rig), 1);
  private SqliteJournal journal;
  private LiveBench bench;
  private BenchTalk talk;

  @BeforeEach
  void open() {
    journal = SqliteJournal.open(folder);
    LiveBench.Settings settings =
        new LiveBench.Settings(
            rig,
            rigText,
            Map.of(),
            1,
            SPEED,
            false,
            (description, recipe, seed, before) -> new SimulatedBench(plant));
    bench = LiveBench.start(settings, journal, "test");
  }

  @AfterEach
  void shut() {
    bench.close();
    journal.close();
  }

  private BenchTerminal terminal(String typed, boolean yes) throws IOException {
    talk =
        new BenchTalk(
            new BufferedReader(new StringReader(typed)), new PrintWriter(new StringWriter()), yes);
    BenchTerminal terminal = new BenchTerminal(bench, talk, "Ann Example", 60_000);
    terminal.arrive();
    awaitWindow();
    return terminal;
  }

  /** Until a look of ten seconds is behind; ticks, not time, are waited for. */
  private void awaitWindow() {
    long until = bench.status().loop().ticks() + 45;
    while (bench.status().loop().ticks() < until) {
      Thread.onSpinWait();
    }
  }

  @Test
  void everySensorIsShownAndEveryOutputMovesWhatItShould() throws IOException {
    BenchTerminal terminal = terminal("", true);
    terminal.showChannels();
    terminal.runGroup("pulse", false);
    String report = talk.text();
    for (var sensor : rig.sensors()) {
      assertTrue(report.contains(sensor.channel().words()), report);
    }
    assertTrue(report.contains("Pulse the heater for 1.25 s (1000 J)?"), report);
    String oxygen = report.substring(report.indexOf("Pulse the oxygen valve"));
    assertTrue(oxygen.substring(0, 200).contains("vessel pressure rose by"), report);
    assertFalse(report.contains("swapped"), report);
  }

  @Test
  void theRecordOfAllThisIsInTheJournal() throws IOException {
    BenchTerminal terminal = terminal("", true);
    terminal.showChannels();
    terminal.run("pulse oxygen valve");
    List<BenchNote> notes = journal.benchNotes(100);
    assertTrue(
        notes.stream()
            .anyMatch(
                note ->
                    note.kind().equals("reading")
                        && note.sentence().startsWith("vessel pressure: ")
                        && note.sentence().contains("100 % good, noise ")));
    List<String> trial =
        notes.stream().filter(n -> n.kind().equals("trial")).map(BenchNote::sentence).toList();
    assertEquals("Pulse of the oxygen valve: begun.", trial.get(0));
    assertEquals("Yes to: Pulse the oxygen valve for 0.50 s?", trial.get(1));
    assertTrue(trial.get(2).contains("vessel pressure rose by"), trial.toString());
    assertEquals("Ann Example", notes.get(0).person());
  }

  @Test
  void withoutATypedYesNothingIsPulsed() throws IOException {
    double before = plant.truth().elementK();
    terminal("y\nJa\n\nno\nYES\nnot yes\n", false).runGroup("pulse", false);
    String report = talk.text();
    assertEquals(6, report.split("left out", -1).length - 1, report);
    assertEquals(before, plant.truth().elementK(), 0.5);
    assertFalse(report.contains("rose by"), report);
  }

  @Test
  void aPressedStopKeepsEveryOutputOff() throws IOException {
    BenchTerminal terminal = terminal("", true);
    plant.inject(Fault.EMERGENCY_STOP_PRESSED, 1);
    awaitWindow();
    terminal.runGroup("pulse", false);
    String report = talk.text();
    assertEquals(6, report.split("The emergency stop was pressed", -1).length - 1, report);
  }

  @Test
  void anUnknownOvenIsNotHeated() throws IOException {
    BenchTerminal terminal = terminal("", true);
    plant.inject(Fault.SAMPLE_THERMOCOUPLE_OPEN, 1);
    awaitWindow();
    terminal.showChannels();
    terminal.run("pulse heater");
    String report = talk.text();
    assertTrue(report.contains("An interlock withholds the heater"), report);
    assertTrue(report.contains("sensor or cable open"), report);
  }

  @Test
  void aReferenceThatCannotBeReadIsSaidAndTwoEqualPointsMakeNoCalibration() throws IOException {
    BenchTerminal terminal =
        terminal("20 bar\n500 mbar ± 1 mbar\n1500 mbar ± 1 mbar\nyes\n", false);
    // Both points see the same room pressure, so no straight line goes through both references.
    assertThrows(CommandFailure.class, () -> terminal.calibrate("vessel pressure"));
    assertTrue(talk.text().contains("expected a value with '±'"), talk.text());
    assertEquals(0, CalibrationFile.in(folder).read().all().size());
  }

  @Test
  void aKeptCalibrationIsReadAgainAndADoubtfulLineStopsTheStart() throws IOException {
    CalibrationFile file = CalibrationFile.in(folder);
    file.add(
        new Calibration(
            Channel.VESSEL_PRESSURE,
            "2026-11-25T10:00:00Z",
            new Mark(120, 1, 0, 2),
            new Mark(101_120, 1, 101_000, 30)));
    Calibrations read = file.read();
    assertEquals(50_000, read.correct(Channel.VESSEL_PRESSURE, 50_120), 1e-6);
    Path csv = folder.resolve("calibrations.csv");
    Files.writeString(csv, Files.readString(csv).replace("101000.0", "NaN"));
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
    assertEquals(373.124, ReferencePoints.boilingK(101_325), 1e-9);
    assertEquals(98.18 + 273.15, ReferencePoints.boilingK(95_000), 0.05);
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
