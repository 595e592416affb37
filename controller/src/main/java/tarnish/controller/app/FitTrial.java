package tarnish.controller.app;

import java.util.Random;
import java.util.SplittableRandom;
import tarnish.shared.oven.Experiment;
import tarnish.shared.oven.OvenFit;
import tarnish.shared.oven.OvenFitter;
import tarnish.shared.oven.OvenModel;
import tarnish.shared.oven.OvenSimulation;
import tarnish.shared.oven.OvenTrace;

/**
 * Identification of ovens that are exactly what the model says, seen through white noise: how many
 * of the 95 % intervals hold the true parameter.
 */
final class FitTrial {
  private static final double NOISE_K = 0.05;
  private static final double ROOM_K = 295;
  private static final double COVERAGE = 1.96;

  /** Parameters that are shares of a path of heat; their interval is one of the logit. */
  private static final boolean[] SHARE = {
    false, false, false, false, true, false, true, false, true, false, false
  };

  private FitTrial() {}

  /** Number of intervals and how many of them hold the truth. */
  record Count(int inside, int all) {
    Count and(Count other) {
      return new Count(inside + other.inside, all + other.all);
    }

    double share() {
      return (double) inside / all;
    }
  }

  static Count of(long seed) {
    OvenModel truth = drawn(new SplittableRandom(seed));
    OvenFit fit =
        OvenFitter.fit(trace(truth, seed), Experiment.guess(), NOISE_K, (int) Experiment.REST_S);
    double[] wanted = free(truth);
    double[] got = free(fit.model());
    int inside = 0;
    for (int i = 0; i < wanted.length; i++) {
      inside += Math.abs(got[i] - wanted[i]) <= COVERAGE * fit.freeUncertainty(i) ? 1 : 0;
    }
    return new Count(inside, wanted.length);
  }

  private static OvenModel drawn(SplittableRandom random) {
    return new OvenModel(
        0.7 * factor(random),
        25 * factor(random),
        8 * factor(random),
        1700 * factor(random),
        0.05 + 0.3 * random.nextDouble(),
        130 * factor(random),
        0.5 + 0.3 * random.nextDouble(),
        60 * factor(random),
        0.4 + 0.3 * random.nextDouble(),
        8000 * factor(random),
        0.07 * factor(random));
  }

  private static double factor(SplittableRandom random) {
    return 0.5 + random.nextDouble();
  }

  private static OvenTrace trace(OvenModel model, long seed) {
    Experiment experiment = new Experiment(1, 330, 1200, 1200);
    Random noise = new Random(seed);
    OvenSimulation oven = new OvenSimulation(model, ROOM_K);
    OvenTrace trace = new OvenTrace(1, 1);
    Experiment.State state = Experiment.State.BEGIN;
    int whole = (int) model.deadTimeS();
    double part = model.deadTimeS() - whole;
    double[] told = new double[whole + 2];
    for (int i = 0; !state.stage().isFinal(); i++) {
      double duty = state.duty(experiment);
      told[i % told.length] = duty;
      double late = i < whole ? 0 : told[(i - whole) % told.length];
      double later = i < whole + 1 ? 0 : told[(i - whole - 1) % told.length];
      oven.step((1 - part) * late + part * later, ROOM_K, 1);
      double ovenK = oven.ovenK() + NOISE_K * noise.nextGaussian();
      double sampleK = oven.sampleK() + NOISE_K * noise.nextGaussian();
      trace.add(duty, ovenK, sampleK, ROOM_K);
      state = experiment.step(state, ovenK, sampleK, 1);
    }
    if (state.stage() != Experiment.Stage.DONE) {
      throw new CommandFailure("Oven " + seed + " was not identified: " + state.why());
    }
    return trace;
  }

  private static double[] free(OvenModel m) {
    double[] p = {
      m.heatingKPerS(),
      m.elementS(),
      m.deadTimeS(),
      m.lossS(),
      m.lossRadiation(),
      m.vesselS(),
      m.vesselRadiation(),
      m.sampleS(),
      m.sampleRadiation(),
      m.neckS(),
      m.vesselLoad()
    };
    for (int i = 0; i < p.length; i++) {
      p[i] = StrictMath.log(SHARE[i] ? p[i] / (1 - p[i]) : p[i]);
    }
    return p;
  }
}
