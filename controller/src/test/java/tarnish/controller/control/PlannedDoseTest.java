package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Limits;

class PlannedDoseTest {
  private static final long SEED = 4711;
  private static final double RISE_K = 6;
  private static final double LARGEST_PA = 1500;

  private static Step.Dose dose() {
    return new Step.Dose(
            TestSteps.unattended("Dose"), LARGEST_PA, 90_000, 10_000, 0.5, 0.5, 20, 3600)
        .planned(LARGEST_PA, RISE_K);
  }

  /** A charge whose oxygen reacts at a rate and warms the sample, which cools at another. */
  private static final class Charge {
    final DosedVessel vessel;
    final double warmingKPerPa;
    final double reactsPerS;
    final double coolsS;
    double unreactedPa;
    double excessK;
    double peakK;
    int pulses;
    double largestPa;
    double soonestS = Double.MAX_VALUE;
    private boolean wasOpen;
    private double fromPa;
    private double shutS;

    Charge(TestRig rig, double warmingKPerPa, double reactsPerS, double coolsS) {
      vessel = new DosedVessel(rig, dose());
      vessel.flowPaPerS = 300;
      this.warmingKPerPa = warmingKPerPa;
      this.reactsPerS = reactsPerS;
      this.coolsS = coolsS;
    }

    void forSeconds(double seconds) {
      for (double s = 0; s < seconds; s += ControlBench.TICK_S) {
        boolean open = vessel.open();
        if (open && !wasOpen) {
          pulses++;
          fromPa = vessel.pressurePa;
          soonestS = pulses > 1 ? Math.min(soonestS, vessel.timeS - shutS) : soonestS;
        }
        if (!open && wasOpen) {
          largestPa = Math.max(largestPa, vessel.pressurePa - fromPa);
          shutS = vessel.timeS;
        }
        wasOpen = open;
        double uptake = reactsPerS * unreactedPa;
        unreactedPa += ControlBench.TICK_S * ((open ? vessel.flowPaPerS : 0) - uptake);
        excessK += ControlBench.TICK_S * (warmingKPerPa * uptake - excessK / coolsS);
        peakK = StrictMath.max(peakK, excessK);
        vessel.uptakePaPerS = uptake;
        vessel.excessK = excessK;
        vessel.tick();
      }
    }
  }

  /** Whatever the charge does: its heat is learnt, and neither the rise nor a pulse is exceeded. */
  @Test
  void theAllowedRiseHoldsForChargesOfAnyHeatAndRate() {
    SplittableRandom random = new SplittableRandom(SEED);
    for (int i = 0; i < 40; i++) {
      double warming = Math.exp(random.nextDouble(Math.log(2e-4), Math.log(1e-2)));
      double reacts = Math.exp(random.nextDouble(Math.log(0.02), Math.log(1)));
      Charge charge = new Charge(new TestRig(), warming, reacts, random.nextDouble(60, 300));
      charge.forSeconds(6 * 3600);
      String which =
          "seed "
              + SEED
              + " charge "
              + i
              + " warming "
              + warming
              + " peak "
              + charge.peakK
              + ", "
              + charge.vessel.bench.phase()
              + " "
              + charge.vessel.bench.state.phaseWhy()
              + charge.vessel.bench.state.run();
      assertTrue(charge.peakK <= RISE_K, which);
      assertTrue(charge.pulses > 20, which + " pulses " + charge.pulses);
      assertTrue(charge.largestPa <= LARGEST_PA + 300 * ControlBench.TICK_S + 1, which);
      assertTrue(charge.soonestS >= 20, which + " soonest " + charge.soonestS);
    }
  }

  @Test
  void theAllowedRiseIsUsed() {
    Charge charge = new Charge(new TestRig(), 3e-3, 0.2, 150);
    charge.forSeconds(3 * 3600);
    assertTrue(charge.peakK > 0.6 * RISE_K, "peak " + charge.peakK);
  }

  /** Near the sample's limit the cap on the heat of a pulse is smaller than any plan. */
  @Test
  void theCapOnTheHeatOfAPulseHoldsForPlannedPulses() {
    TestRig rig = new TestRig();
    Limits l = rig.unattended;
    rig.unattended =
        new Limits(295 + 10.5, l.ovenMaxK(), l.sealMaxK(), l.pressureMaxPa(), 0.1, LARGEST_PA);
    Charge charge = new Charge(rig, 1e-5, 0.5, 100);
    charge.forSeconds(2 * 3600);
    // 0.5 K of the solid alone, or the least that the alarm for a missing step needs, and one tick.
    assertTrue(charge.pulses > 3);
    assertTrue(charge.largestPa <= HeatCap.LEAST_PA + 300 * ControlBench.TICK_S + 1);
  }

  @Test
  void aHotSampleWaitsAndSaysWhy() {
    Charge charge = new Charge(new TestRig(), 3e-3, 0.2, 150);
    charge.forSeconds(600);
    charge.excessK = 2 * RISE_K;
    int before = charge.pulses;
    charge.forSeconds(60);
    DoseRun run = (DoseRun) charge.vessel.bench.state.run();
    assertEquals(before, charge.pulses);
    assertTrue(run.waitingFor().contains("warm") || run.waitingFor().contains("heat"));
    assertTrue(run.doing().startsWith("planned oxygen pulse"), run.doing());
  }
}
