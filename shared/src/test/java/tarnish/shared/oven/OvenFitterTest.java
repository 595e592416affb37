package tarnish.shared.oven;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class OvenFitterTest {
  private static final double NOISE_K = 0.05;
  private static final int REST = (int) Experiment.REST_S;

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

  /** An identification of an oven that is exactly such a model, seen through white noise. */
  static OvenTrace trace(OvenModel model, long seed) {
    Experiment experiment = new Experiment(1, 330, 1200, 1200);
    Random noise = new Random(seed);
    OvenSimulation oven = new OvenSimulation(model, 295);
    OvenTrace trace = new OvenTrace(1, 1);
    Experiment.State state = Experiment.State.BEGIN;
    double dead = model.deadTimeS();
    while (!state.stage().isFinal()) {
      trace.add(state.duty(experiment), 0, 0, 295);
      oven.step(trace.arriving(trace.size() - 1, dead), 295, 1);
      double ovenK = oven.ovenK() + NOISE_K * noise.nextGaussian();
      double sampleK = oven.sampleK() + NOISE_K * noise.nextGaussian();
      trace.seen(ovenK, sampleK);
      state = experiment.step(state, ovenK, sampleK, 1);
    }
    assertEquals(Experiment.Stage.DONE, state.stage(), state.why());
    return trace;
  }

  /**
   * 40 ovens of 11 parameters: of 440 intervals of 1.96 standard uncertainties 95 % hold the truth
   * if the uncertainties are right.
   */
  @Test
  void theStatedUncertaintiesAreRight() {
    int inside = 0;
    int all = 0;
    for (long seed = 1; seed <= 40; seed++) {
      OvenModel truth = drawn(new SplittableRandom(seed));
      OvenFit fit = OvenFitter.fit(trace(truth, seed), Experiment.guess(), NOISE_K, REST);
      double[] wanted = OvenParameters.toFree(truth);
      double[] got = OvenParameters.toFree(fit.model());
      for (int i = 0; i < OvenParameters.COUNT; i++) {
        all++;
        inside += StrictMath.abs(got[i] - wanted[i]) <= 1.96 * fit.freeUncertainty(i) ? 1 : 0;
      }
      assertTrue(fit.isGood(), "seed " + seed);
      assertEquals(NOISE_K, fit.ovenRmsK(), 0.005, "seed " + seed);
    }
    double share = (double) inside / all;
    System.out.printf("Identification: %d of %d intervals hold the truth%n", inside, all);
    assertTrue(share > 0.93 && share < 0.97, inside + " of " + all);
  }

  @Test
  void theMainParametersAreFoundWithinAPerCent() {
    OvenFit fit = OvenFitter.fit(trace(OvenModelTest.SOME, 7), Experiment.guess(), NOISE_K, REST);
    assertEquals(OvenModelTest.SOME.heatingKPerS(), fit.model().heatingKPerS(), 0.007);
    assertEquals(OvenModelTest.SOME.lossS(), fit.model().lossS(), 17);
    assertEquals(OvenModelTest.SOME.deadTimeS(), fit.model().deadTimeS(), 0.3);
  }

  @Test
  void whatIsNoOvenIsSaidToFitBadly() {
    OvenTrace good = trace(OvenModelTest.SOME, 9);
    OvenTrace odd = new OvenTrace(1, 1);
    for (int i = 0; i < good.size(); i++) {
      double swing = 8 * StrictMath.sin(i / 300.0);
      odd.add(good.duty(i), good.ovenK(i) + swing, good.sampleK(i) - swing, 295);
    }
    OvenFit fit = OvenFitter.fit(odd, Experiment.guess(), NOISE_K, REST);
    assertFalse(fit.isGood());
    assertTrue(fit.inflation() > 1000, "the uncertainties say so too");
  }
}
