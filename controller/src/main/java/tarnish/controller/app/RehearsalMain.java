package tarnish.controller.app;

import java.nio.file.*;
import java.util.*;
import tarnish.controller.control.*;
import tarnish.controller.files.*;
import tarnish.shared.reading.*;
import tarnish.sim.*;

public final class RehearsalMain {
  public static void main(String[] a) throws Exception {
    var rig = RigReader.read(a[1], Files.readString(Path.of(a[1]))).value();
    var recipe = RecipeReader.read(a[0], Files.readString(Path.of(a[0])), Optional.of(rig)).value();
    long seed = Long.parseLong(a[2]);
    boolean quiet = a.length > 3;
    var plan = Plan.of(recipe, rig);
    var sim = new SimulatedRig(rig, recipe, seed);
    var op = new StandInOperator(recipe, sim);
    var state = ControlState.initial(plan);
    var readings = new Readings(rig.resolutions());
    long t0 = System.nanoTime();
    long now = 0;
    while (now < 20L * 86400 * 1000) {
      sim.advance(0.25);
      now += 250;
      sim.read(readings);
      Turn turn = Control.tick(plan, state, readings, op.requests(state, now / 1000.0), now);
      state = turn.state();
      sim.write(turn.outputs());
      if (!quiet)
        for (Event e : turn.events())
          if (!(e instanceof Event.PulseGiven))
            System.out.printf(
                "%8.2f h  %s   [T %.1f p %.1f truth %.4f est %.4f]%n",
                now / 3.6e6,
                e.sentence(),
                readings.valueOr(Channel.SAMPLE_TEMPERATURE, 0) - 273.15,
                readings.valueOr(Channel.VESSEL_PRESSURE, 0) / 100,
                sim.truth().oxygenPerUnit(),
                state.gas().uptakeMol() * 2 / recipe.chargeMol());
      if (state.phase().isFinal() || state.phase() == BatchState.HELD) break;
    }
    double wall = (System.nanoTime() - t0) / 1e9;
    System.out.printf(
        "seed %d %s sim %.1f h wall %.2f s ratio %.0f pulses %d truth %.4f ref %s peak %.1f%n",
        seed,
        state.phase(),
        now / 3.6e6,
        wall,
        now / 1000.0 / wall,
        state.gas().pulses(),
        sim.truth().oxygenPerUnit(),
        state.composition().reference(),
        state.tally().peakSampleK() - 273.15);
  }
}
