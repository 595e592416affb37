package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tarnish.shared.reading.Channel;

/**
 * The bound that a batch's own heat sets to a pulse, against two heat capacities in a row: the
 * sample C_s, coupled by G_s to its vessel C_v, which is coupled by G_v to an oven that stands
 * still.
 */
class HeatCapTest {
  private static final double HEAT_J_PER_MOL = 480e3;
  private static final double SAMPLE_J_PER_K = 6;
  private static final double ROOM_K = 8;

  /** Couplings of sample and vessel in W/K, capacity of the vessel in J/K. */
  private record Vessel(double sampleW, double vesselW, double vesselJ) {
    /** Oxygen with 1 K s: a steady power P warms the sample by P (1/G_s + 1/G_v). */
    double molPerKelvinSecond() {
      return 1 / (1 / sampleW + 1 / vesselW) / HEAT_J_PER_MOL;
    }

    /** The shorter root of tau^2 - (tau_1 + tau_2) tau + tau_1 tau_2 = 0, by hand. */
    double shorterLagS() {
      double product = SAMPLE_J_PER_K / sampleW * vesselJ / vesselW;
      double sum = SAMPLE_J_PER_K / sampleW + (vesselJ + SAMPLE_J_PER_K) / vesselW;
      return (sum - StrictMath.sqrt(sum * sum - 4 * product)) / 2;
    }

    /** Peak of the sample when an amount of oxygen reacts evenly within a time, step by step. */
    double peakK(double oxygenMol, double withinS) {
      double sampleK = 0;
      double vesselK = 0;
      double peakK = 0;
      double stepS = 0.01;
      long reacting = StrictMath.round(withinS / stepS);
      for (int i = 0; i < 300_000; i++) {
        double powerW = i < reacting ? oxygenMol * HEAT_J_PER_MOL / withinS : 0;
        double passesW = sampleW * (sampleK - vesselK);
        sampleK += stepS * (powerW - passesW) / SAMPLE_J_PER_K;
        vesselK += stepS * (passesW - vesselW * vesselK) / vesselJ;
        peakK = StrictMath.max(peakK, sampleK);
      }
      return peakK;
    }

    double cappedMol(double uncertainty) {
      double a = molPerKelvinSecond();
      return HeatCap.fittedMol(ROOM_K, new ValveFit(1, 0.01, a, uncertainty * a, 0), shorterLagS());
    }
  }

  /** A vessel that does not give way: all heat at once warms C_s by n dH / C_s. */
  @Test
  void beforeAStiffVesselTheBoundIsTheHeatThatTheSampleCanHold() {
    Vessel stiff = new Vessel(0.03, 300, 1e6);
    double byHand = SAMPLE_J_PER_K * ROOM_K / HEAT_J_PER_MOL;
    assertEquals(byHand, stiff.cappedMol(0), 2e-3 * byHand);
    assertEquals(ROOM_K, stiff.peakK(stiff.cappedMol(0), 0.1), 0.01 * ROOM_K);
  }

  @Test
  void aVesselThatGivesWayMakesTheBoundOnlySafer() {
    for (double vesselW : new double[] {0.03, 0.1, 0.3, 3}) {
      for (double vesselJ : new double[] {3, 30, 300}) {
        Vessel soft = new Vessel(0.05, vesselW, vesselJ);
        double peakK = soft.peakK(soft.cappedMol(0), 0.1);
        String what = "G " + vesselW + " W/K, C " + vesselJ + " J/K: " + peakK + " K";
        assertTrue(peakK <= ROOM_K * 1.002, what);
        // A vessel quicker than its sample lends the bound its own, shorter lag.
        boolean slower = vesselJ / vesselW >= SAMPLE_J_PER_K / 0.05;
        assertTrue(!slower || peakK >= 0.05 * ROOM_K, "but not by shutting the valve: " + what);
      }
    }
  }

  @Test
  void aPulseThatReactsSlowlyStaysFurtherBelow() {
    Vessel vessel = new Vessel(0.05, 0.3, 30);
    double mol = vessel.cappedMol(0);
    assertTrue(vessel.peakK(mol, 60) < vessel.peakK(mol, 0.1));
  }

  @Test
  void whatIsUncertainIsTakenTwiceOffTheBound() {
    Vessel vessel = new Vessel(0.05, 0.3, 30);
    assertEquals(0.6 * vessel.cappedMol(0), vessel.cappedMol(0.2), 1e-12);
  }

  @Test
  void aPoorFitBoundsNothingAndNoRoomAllowsNothing() {
    Vessel vessel = new Vessel(0.05, 0.3, 30);
    assertTrue(vessel.cappedMol(0.29) < 1);
    assertEquals(Double.MAX_VALUE, vessel.cappedMol(0.3));
    assertEquals(Double.MAX_VALUE, HeatCap.fittedMol(ROOM_K, ValveFit.BEFOREHAND, 100));
    ValveFit good = new ValveFit(1, 0.01, 7e-8, 1e-9, 0);
    assertEquals(0, HeatCap.fittedMol(0, good, 100));
    assertEquals(
        2 * HeatCap.fittedMol(3, good, 100), HeatCap.fittedMol(6, good, 100), 1e-15, "linear");
  }

  /** 3 R of 0.063 mol of copper: 1.57 J/K, so 312 kJ/mol warm it by 0.199 K per micromole. */
  @Test
  void withoutAFitTheAdiabaticBoundHoldsAndLeavesTheSmallestPulse() {
    ControlBench bench = ControlBench.with(TestSteps.soak(295, 1e6, 5)).start();
    bench.set(Channel.SAMPLE_TEMPERATURE, 295).set(Channel.OVEN_TEMPERATURE, 295);
    TickWork work = new TickWork(bench.plan, bench.state);
    work.readings = bench.readings;
    double perMol = 312e3 / (3 * 8.314462618 * 4e-3 / 0.063546);
    assertEquals(perMol, HeatCap.warmingKPerMol(work), 1e-4 * perMol);
    double roomK = work.limits().sampleMaxK() - 10 - 295;
    double gasMol = roomK / perMol / work.gas.source().oxygenFraction();
    double byHandPa = gasMol * 8.314462618 / work.volumeOverTemperature();
    assertEquals(byHandPa, HeatCap.capped(1e9, work), 1e-3 * byHandPa);
    assertEquals(50, HeatCap.capped(50, work), "what is wanted is little enough");

    bench.set(Channel.SAMPLE_TEMPERATURE, work.limits().sampleMaxK() + 5);
    assertEquals(HeatCap.LEAST_PA, HeatCap.capped(1e9, work), "no room at all");
  }

  /** Nothing is known of its heat, so nothing can be said of a bound. */
  @Test
  void aRecipeWithoutAHeatOfReactionHasNoBound() {
    ControlBench bench =
        new ControlBench(new TestRig().build(), TestSteps.withoutHeat(TestSteps.soak(295, 1e6, 5)));
    TickWork work = new TickWork(bench.plan, bench.state);
    work.readings = bench.readings;
    assertEquals(1e9, HeatCap.capped(1e9, work));
  }
}
