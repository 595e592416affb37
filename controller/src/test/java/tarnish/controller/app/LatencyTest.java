package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tarnish.shared.rig.RigDescription;

/** A few of the measurements that the command prints for every row. */
class LatencyTest {
  private static final RigDescription RIG =
      LoadedFiles.rig("bench.rig.yaml", DemoCommand.resource("bench.rig.yaml"));
  private static final List<String> LIMITS = List.of("sample too hot", "oven too hot");

  private static ProofTrial trial(String row) {
    return ProofTrial.all().stream().filter(t -> t.row().equals(row)).findFirst().orElseThrow();
  }

  private static LatencyTrial.Measured measure(String row, String without, List<String> anyOf) {
    return new LatencyTrial(trial(row), RIG, without, 3).run(anyOf);
  }

  /** A thermocouple that reads 2 K too little sees a ramp of 3 K/min 40 s late. */
  @ParameterizedTest
  @CsvSource({
    "emergency stop, 0.25",
    "sample temperature lost, 1.25",
    "journal not writable, 0.5",
    "loop overrun, 2",
    "sample too hot, 120"
  })
  void outputsAreOffSoonAfterTheBreach(String row, double withinS) {
    LatencyTrial.Measured measured = measure(row, "", List.of(row));
    assertTrue(measured.acted(), row);
    assertTrue(measured.latencyS() <= withinS, row + " took " + measured.latencyS() + " s");
  }

  @ParameterizedTest
  @ValueSource(strings = {"runaway", "heater stuck on"})
  void theSignTripsBeforeTheTemperatureLimitDoes(String row) {
    LatencyTrial.Measured with = measure(row, "", List.of(row));
    LatencyTrial.Measured alone = measure(row, row, LIMITS);
    assertTrue(with.acted(), row);
    assertTrue(with.ovenLeftK() > 0 && with.sampleLeftK() > 0, "before any limit: " + with);
    boolean cooler =
        with.peakSampleK() <= alone.peakSampleK() && with.peakOvenK() <= alone.peakOvenK();
    assertTrue(cooler, "with the row " + with + ", by the limits alone " + alone);
  }

  @Test
  void oneSeedGivesOneMeasurement() {
    assertTrue(
        measure("emergency stop", "", List.of("emergency stop"))
            .equals(measure("emergency stop", "", List.of("emergency stop"))));
  }
}
