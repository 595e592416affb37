package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.reading.Channel;

class HeatWatchTest {
  private final ControlBench bench = ControlBench.with(TestSteps.ask());

  private TickWork at(double sampleK, double ovenK, double tickS) {
    bench.set(Channel.SAMPLE_TEMPERATURE, sampleK).set(Channel.OVEN_TEMPERATURE, ovenK);
    TickWork work = new TickWork(bench.plan, bench.state);
    work.readings = bench.readings;
    work.tickS = tickS;
    return work;
  }

  /** Filter 10 s: half of the way in a step of 10 s. */
  @Test
  void theHeatIsWhatTheSampleRoseAboveItselfAndAboveTheOven() {
    HeatWatch watch = HeatWatch.NONE.step(at(300, 298, 0.25));
    assertEquals(0, watch.excessK());
    HeatWatch heated = watch.step(at(310, 298, 10));
    assertEquals(5, heated.excessK(), 1e-12);
    assertEquals(0, heated.marked().excessK());
    assertEquals(305, heated.marked().sampleK(), 1e-12);

    HeatWatch warmed = watch.step(at(310, 306, 10));
    assertEquals(1, warmed.excessK(), 1e-12, "a warming oven is no reaction");
    HeatWatch cooled = watch.step(at(300, 290, 10));
    assertEquals(0, cooled.excessK(), 1e-12, "an oven whose lead dies away is none either");
    HeatWatch both = watch.step(at(304, 290, 10));
    assertEquals(2, both.excessK(), 1e-12);
  }

  /** An oven that moves, a vessel and a sample behind it by 300 s and 130 s, and a heat of 1 W. */
  @Test
  void theBalanceLearnsTheLagsWithoutOxygenAndThenSeesTheHeatAndNothingElse() {
    double vesselK = 295;
    double sampleK = 295;
    HeatBalance balance = HeatBalance.NONE;
    double addedKs = 0;
    for (int i = 0; i < 4 * 20_000; i++) {
      double t = i * 0.25;
      double ovenK = 295 + 8 * StrictMath.min(1, t / 600) + 0.5 * StrictMath.sin(t / 250);
      double excess = t > 10_000 && t < 14_000 ? 0.4 : 0;
      vesselK += (295 + 0.96 * (ovenK - 295) - vesselK) * 0.25 / 300;
      sampleK += (vesselK + excess - sampleK) * 0.25 / 130;
      addedKs += excess * 0.25;
      balance = balance.step(sampleK, ovenK, 295, 0.25, t < 8000, bench.plan);
      if (t > 12_000 && t < 13_900 && i % 4000 == 0) {
        Estimate seen = balance.excessK();
        assertEquals(0.4, seen.value(), 0.05, "at " + t + " s");
      }
    }
    assertEquals(addedKs, balance.integralKs(), 0.03 * addedKs);
    assertTrue(balance.integralUncertaintyKs() < 0.25 * addedKs);
    assertTrue(StrictMath.abs(balance.excessK().value()) < 0.02, "it is over");
  }
}
