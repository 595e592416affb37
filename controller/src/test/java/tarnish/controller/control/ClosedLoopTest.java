package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Switch;
import tarnish.sim.Fault;

/** Control against the bench in equations, which knows nothing of it. */
class ClosedLoopTest {
  private static final Step.Dose DOSE =
      new Step.Dose(TestSteps.unattended("Dose"), 1500, 60_000, 200, 0.5, 0.5, 60, 1800);

  @Test
  void aRampAndASoakStayNearTheSetpoint() {
    SimulatedLoop loop =
        new SimulatedLoop(
            1,
            TestSteps.evacuate(300),
            TestSteps.ramp(473.15, 3 / 60.0),
            TestSteps.soak(473.15, 3600, 3));
    loop.until(BatchState.COMPLETE, 4 * 3600);
    double peakK = loop.state.tally().peaks().sampleK();
    assertTrue(peakK < 473.15 + 8, "peak " + peakK);
    assertEquals(3600, loop.state.soaks().get(0).inBandS(), 0.5);
    double spentS = loop.millis / 1000.0;
    assertTrue(spentS < 60 * 60 + 3600 + 1800, "took " + spentS + " s");
    assertTrue(loop.events.stream().noneMatch(e -> e instanceof Event.AlarmRaised));
  }

  @Test
  void theGasAccountAgreesWithTheBench() {
    int within = 0;
    for (long seed = 1; seed <= 4; seed++) {
      Step.Soak soak = new Step.Soak(TestSteps.holding("Soak", 80_000), 523.15, 4 * 3600, 5);
      SimulatedLoop loop =
          new SimulatedLoop(
              seed,
              TestSteps.evacuate(200),
              TestSteps.leakTest(120, 600, 0.5),
              DOSE,
              TestSteps.ramp(523.15, 4 / 60.0),
              soak);
      double beforeMol = loop.bench.truth().uptakeMol();
      loop.until(BatchState.COMPLETE, 16 * 3600);
      Estimate uptake = new Report(loop.plan, loop.state).uptakeMol();
      double truthMol = loop.bench.truth().uptakeMol() - beforeMol;
      assertTrue(truthMol > 1e-3, "there was something to see: " + truthMol);
      double score = (uptake.value() - truthMol) / uptake.standardUncertainty();
      within += StrictMath.abs(score) <= 2 ? 1 : 0;
      assertTrue(StrictMath.abs(score) < 4, "seed " + seed + " off by " + score + " u");
    }
    assertTrue(within >= 3, within + " of 4 within 2 u");
  }

  @Test
  void anEmptyBottleIsNoticedWithTheValveShut() {
    SimulatedLoop loop = new SimulatedLoop(2, TestSteps.evacuate(300), DOSE);
    while (loop.state.gas().pulses() < 3) {
      loop.tick();
    }
    loop.bench.inject(Fault.OXYGEN_SUPPLY_EMPTY, 1);
    loop.until(BatchState.HELD, 3600);
    assertTrue(
        loop.events.stream()
            .anyMatch(
                e ->
                    e instanceof Event.AlarmRaised raised
                        && List.of(InterlockTable.NO_PRESSURE_STEP, "oxygen supply empty")
                            .contains(raised.alarm())));
    for (int i = 0; i < 400; i++) {
      loop.tick();
      assertTrue(!loop.outputs.isOn(Switch.OXYGEN));
    }
  }

  @Test
  void aBrokenThermocoupleCutsTheHeaterAtOnce() {
    SimulatedLoop loop =
        new SimulatedLoop(3, TestSteps.evacuate(300), TestSteps.ramp(573.15, 4 / 60.0));
    for (int i = 0; i < 4 * 1800; i++) {
      loop.tick();
    }
    loop.bench.inject(Fault.SAMPLE_THERMOCOUPLE_OPEN, 1);
    loop.tick();
    loop.tick();
    for (int i = 0; i < 100; i++) {
      assertEquals(0, loop.outputs.heaterPerMille());
      assertTrue(!loop.outputs.isOn(Switch.HEATER));
      loop.tick();
    }
    assertEquals(BatchState.HELD, loop.state.phase());
  }
}
