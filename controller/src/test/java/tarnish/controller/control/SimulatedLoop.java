package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import tarnish.shared.reading.Readings;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Heater;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.RigDescription;
import tarnish.sim.SimulatedRig;

/** A batch of a test's steps on the bench in equations, started and ticked by hand. */
final class SimulatedLoop {
  final SimulatedRig bench;
  final Plan plan;
  final Readings readings;
  final List<Event> events = new ArrayList<>();
  ControlState state;
  Outputs outputs = Outputs.OFF;
  long millis;

  SimulatedLoop(long seed, Step... steps) {
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
