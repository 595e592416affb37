package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.function.Function;
import org.junit.jupiter.api.Test;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.RigDescription;

/** Limits of rows that follow from the rig file, and which rows a rig has. */
class SignRowsTest {
  private static ControlBench soaking() {
    return ControlBench.seeing(new TestRig().build(), TestSteps.soak(295, 1e5, 3)).start();
  }

  private static AlarmState afterFiveSeconds(String row, Channel channel, double value) {
    ControlBench bench = soaking();
    bench.set(channel, value).forSeconds(5);
    return bench.alarm(row);
  }

  /**
   * Four standard uncertainties of the difference, four of its noise and a step of each gauge: 4 x
   * (50 √2 + 10 √2) + 20 = 359 Pa, and 4 x 0.001 √2 of 50 kPa = 283 Pa.
   */
  @Test
  void twoGaugesMayBeApartByWhatTheirUncertaintiesNoiseAndStepsExplain() {
    String row = "gauges disagree";
    for (int sign : new int[] {-1, 1}) {
      double explainedPa = 50_000 + 640 * sign;
      double morePa = 50_000 + 650 * sign;
      assertEquals(
          AlarmState.NORMAL, afterFiveSeconds(row, Channel.VESSEL_PRESSURE_PAIR, explainedPa));
      assertEquals(
          AlarmState.UNACKNOWLEDGED, afterFiveSeconds(row, Channel.VESSEL_PRESSURE_PAIR, morePa));
    }
  }

  /** 15 K of place, 4 x (1.5 √2 + 0.05 √2) + 0.02 = 8.79 K, and 4 x 0.002 √2 of 295 K = 3.34 K. */
  @Test
  void twoOvenSensorsMayBeFifteenKelvinFartherApartBecauseTheySitInDifferentPlaces() {
    String row = "oven sensors disagree";
    assertEquals(AlarmState.NORMAL, afterFiveSeconds(row, Channel.OVEN_TEMPERATURE_PAIR, 322.11));
    assertEquals(
        AlarmState.UNACKNOWLEDGED, afterFiveSeconds(row, Channel.OVEN_TEMPERATURE_PAIR, 322.14));
  }

  @Test
  void anEmptySupplyIsGoodAgainOnlyAboveItsLimitByATwentieth() {
    ControlBench bench = soaking();
    bench.set(Channel.SUPPLY_PRESSURE, 80_000).forSeconds(6);
    bench.set(Channel.SUPPLY_PRESSURE, 94_400).forSeconds(5);
    assertEquals(AlarmState.UNACKNOWLEDGED, bench.alarm("oxygen supply empty"));
    bench.set(Channel.SUPPLY_PRESSURE, 94_600).forSeconds(5);
    assertEquals(AlarmState.LATCHED_UNACKNOWLEDGED, bench.alarm("oxygen supply empty"));
  }

  @Test
  void whoDoesNotComeBackIsAnAlarmUntilSomebodyChecksIn() {
    ControlBench bench = soaking();
    bench.tick(new Request.CheckIn("Bo", 0.01));
    bench.forSeconds(35);
    assertEquals(AlarmState.NORMAL, bench.alarm("operator overdue"));
    bench.forSeconds(2);
    assertEquals(AlarmState.UNACKNOWLEDGED, bench.alarm("operator overdue"));
    assertEquals(BatchState.RUNNING, bench.phase());
    bench.tick(new Request.CheckIn("Cy", 1));
    bench.forSeconds(2);
    assertEquals(AlarmState.RETURNED_UNACKNOWLEDGED, bench.alarm("operator overdue"));
  }

  @Test
  void aStepThatWaitsForAPersonCallsForOne() {
    Step attended = new Step.Ramp(TestSteps.attended("Ramp"), 500, 0.1);
    ControlBench bench = ControlBench.seeing(new TestRig().build(), attended).deserted().start();
    bench.forSeconds(2);
    assertEquals(AlarmState.UNACKNOWLEDGED, bench.alarm(InterlockTable.PERSON_NEEDED));
    bench.tick(new Request.CheckIn("Bo", 1));
    bench.forSeconds(3);
    assertEquals(AlarmState.RETURNED_UNACKNOWLEDGED, bench.alarm(InterlockTable.PERSON_NEEDED));
  }

  @Test
  void onlyABenchReachedThroughDevicesHasARowForWhatADeviceDoesNotConfirm() {
    Function<RigDescription.Connection, List<String>> names =
        connection -> {
          TestRig rig = new TestRig();
          rig.connection = connection;
          return InterlockTable.names(rig.build());
        };
    List<String> simulated = names.apply(RigDescription.Connection.SIMULATED);
    List<String> devices = names.apply(RigDescription.Connection.DEVICES);
    assertFalse(simulated.contains(InterlockTable.OUTPUTS_NOT_CONFIRMED));
    assertTrue(devices.contains(InterlockTable.OUTPUTS_NOT_CONFIRMED));
    assertEquals(simulated.size() + 1, devices.size());
  }

  @Test
  void aRowThatLacksItsSensorIsNamedWithWhatRemains() {
    TestRig rig = new TestRig();
    rig.notFitted.addAll(List.of(Channel.OVEN_TEMPERATURE_PAIR, Channel.SUPPLY_PRESSURE));
    List<String> rows = InterlockTable.names(rig.build());
    List<MissingRow> missing = InterlockTable.missing(rig.build());
    for (String row : List.of("oven sensors disagree", "oxygen supply empty")) {
      assertFalse(rows.contains(row), row);
      MissingRow named =
          missing.stream().filter(each -> each.id().equals(row)).findFirst().orElseThrow();
      assertTrue(named.why().startsWith("no sensor for the "), named.why());
      assertFalse(named.remains().isBlank());
    }
    assertTrue(rows.contains("gauges disagree"));
  }
}
