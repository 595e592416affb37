package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.reading.Readings;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Heater;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Switch;
import tarnish.sim.Fault;
import tarnish.sim.SimulatedRig;

/** Control against the bench in equations, which knows nothing of it. */
class ClosedLoopTest {
  private static final Step.Dose DOSE =
      new Step.Dose(TestSteps.unattended("Dose"), 1500, 60_000, 200, 0.5, 0.5, 60, 1800);

  private static final class Loop {
    final SimulatedRig bench;
    final Plan plan;
    final Readings readings;
    final List<Event> events = new ArrayList<>();
    ControlState state;
    Outputs outputs = Outputs.OFF;
    long millis;

    Loop(long seed, Step... steps) {
      TestRig rig = new TestRig();
      rig.heater = new Heater(Heater.Actuator.RELAY, 800, 2, 0.25, 1);
      RigDescription description = rig.build();
      Recipe recipe = TestSteps.recipe(steps);
      bench = new SimulatedRig(description, recipe, seed);
      plan = Plan.of(recipe, description);
      readings = new Readings(description.resolutions());
      state = ControlState.initial(plan);
      for (int i = 0; i < 40; i++) {
        tick();
      }
      tick(new Request.Start("Ada"));
    }

    void tick(Request... requests) {
      bench.advance(0.25);
      millis += 250;
      bench.read(readings);
      Turn turn = Control.tick(plan, state, readings, List.of(requests), millis);
      state = turn.state();
      outputs = turn.outputs();
      events.addAll(turn.events());
      bench.write(outputs);
    }

    void until(BatchState phase, double atMostS) {
      long lastMillis = millis + (long) (atMostS * 1000);
      while (state.phase() != phase && millis < lastMillis) {
        tick();
      }
      assertEquals(phase, state.phase(), "after " + millis / 1000 + " s: " + events);
    }
  }

  @Test
  void aRampAndASoakStayNearTheSetpoint() {
    Loop loop =
        new Loop(
            1,
            TestSteps.evacuate(300),
            TestSteps.ramp(473.15, 3 / 60.0),
            TestSteps.soak(473.15, 3600, 3));
    loop.until(BatchState.COMPLETE, 4 * 3600);
    double peakK = loop.state.tally().peakSampleK();
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
      Loop loop =
          new Loop(
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
    Loop loop = new Loop(2, TestSteps.evacuate(300), DOSE);
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
    Loop loop = new Loop(3, TestSteps.evacuate(300), TestSteps.ramp(573.15, 4 / 60.0));
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
