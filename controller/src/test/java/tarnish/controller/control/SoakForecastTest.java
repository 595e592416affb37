package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import tarnish.shared.kinetics.Forecast;
import tarnish.shared.kinetics.Forecaster;
import tarnish.shared.kinetics.RateLaw;
import tarnish.shared.kinetics.UptakePoint;
import tarnish.shared.recipe.OxideMember;
import tarnish.shared.recipe.RepeatUntil;
import tarnish.shared.recipe.Step;

/** A soak of 4 g of copper whose uptake was logged once a minute and follows a law exactly. */
class SoakForecastTest {
  private static final double NEEDED_MOL = 4e-3 / 0.063546 / 2;
  private static final Step.Soak SOAK = TestSteps.soak(500, 1e6, 3);

  private static TickWork soaking(int points, DoubleUnaryOperator conversion, Step... steps) {
    Plan plan = Plan.of(TestSteps.recipe(steps), new TestRig().build());
    GasByHand gas = new GasByHand(plan, 5e-3).rest(60, 0);
    TickWork work = gas.work;
    double[] soakS = new double[points];
    double[] mol = new double[points];
    for (int i = 0; i < points; i++) {
      soakS[i] = 60 * (i + 1);
      mol[i] = NEEDED_MOL * conversion.applyAsDouble(soakS[i]);
    }
    work.log = new UptakeLog(0, soakS, mol, 60, UptakeLog.Window.EMPTY, UptakeLog.Course.EMPTY);
    work.run = new SoakRun(SOAK, 1, 60 * points);
    return work;
  }

  private static SoakForecast of(TickWork work) {
    return SoakForecast.of(work.plan, work.state());
  }

  private static Step until(double conversion) {
    return TestSteps.repeat(3, new RepeatUntil.ConversionAtLeast(conversion), SOAK);
  }

  /** The law's own forecast from means of so many neighbours, with the spread that is stated. */
  private static Forecast.At byLaw(TickWork work, int points, int each, double wanted) {
    List<UptakePoint> means = new ArrayList<>();
    for (int from = 0; from + each <= points; from += each) {
      double t = 0;
      double c = 0;
      for (int i = from; i < from + each; i++) {
        t += work.log.soakS()[i] / each;
        c += work.log.uptakeMol()[i] / NEEDED_MOL / each;
      }
      means.add(new UptakePoint(t, c));
    }
    double gained = means.get(means.size() - 1).conversion() - means.get(0).conversion();
    double noise = 2 * StrictMath.sqrt(work.gas.stepVariance()) / NEEDED_MOL;
    return (Forecast.At)
        Forecaster.forecast(
            means, OptionalDouble.of(StrictMath.hypot(noise, 0.01 * gained)), wanted);
  }

  private static void assertDragged(
      Forecast.At law, double share, double reached, double wanted, SoakForecast got) {
    double ahead = (wanted - reached) / wanted;
    double drag = share * ahead * StrictMath.pow(wanted, 12);
    double spread = 0.3 * ahead;
    Forecast.At at = (Forecast.At) got.forecast();
    assertEquals(law.law(), at.law());
    assertEquals(law.timeS() * (1 + drag), at.timeS(), 1e-6 * law.timeS());
    assertEquals(law.fromS() * (1 - spread), at.fromS(), 1e-6 * law.timeS());
    assertEquals(law.toS() * (1 + 2 * StrictMath.max(drag, spread)), at.toS(), 1e-6 * law.timeS());
    assertEquals(wanted, got.wanted());
  }

  /** 2.5 % in 100 s: 0.9 after an hour by the law, and somewhat later for the last grains. */
  @Test
  void aLinearUptakeIsGoneOnWithAndDragsTowardsItsEnd() {
    TickWork work = soaking(12, t -> t / 4000, until(0.9));
    Forecast.At law = byLaw(work, 12, 1, 0.9);
    assertEquals(RateLaw.LINEAR, law.law());
    assertEquals(3600, law.timeS(), 1);
    SoakForecast got = of(work);
    assertDragged(law, 1.2, 0.18, 0.9, got);
    assertEquals(720, got.soakS());
  }

  @Test
  void aUptakeThatFadesOutByItselfDragsLess() {
    TickWork work = soaking(12, t -> 1 - StrictMath.exp(-t / 1000), until(0.9));
    Forecast.At law = byLaw(work, 12, 1, 0.9);
    assertEquals(RateLaw.FIRST_ORDER, law.law());
    assertDragged(law, 0.3, 1 - StrictMath.exp(-0.72), 0.9, of(work));
  }

  @Test
  void aParabolicUptakeEndsAllAtOnceToo() {
    TickWork work = soaking(12, t -> StrictMath.sqrt(t / 8000), until(0.95));
    Forecast.At law = byLaw(work, 12, 1, 0.95);
    assertEquals(RateLaw.PARABOLIC, law.law());
    assertDragged(law, 1.2, 0.3, 0.95, of(work));
  }

  @Test
  void manyPointsArePooledIntoADozenMeansOfNeighbours() {
    TickWork pairs = soaking(24, t -> t / 4000, until(0.9));
    assertDragged(byLaw(pairs, 24, 2, 0.9), 1.2, (1380 + 1440) / 8000.0, 0.9, of(pairs));
    TickWork threes = soaking(25, t -> t / 4000, until(0.9));
    assertDragged(byLaw(threes, 25, 3, 0.9), 1.2, 1380 / 4000.0, 0.9, of(threes));
  }

  /** Points from before a reset of the gauge, far outside of 0 to 1. */
  @Test
  void pointsThatCannotBeAreLeftOut() {
    TickWork work = soaking(14, t -> t < 90 ? -0.51 : t > 810 ? 1.51 : t / 4000, until(0.9));
    Forecast.At at = (Forecast.At) of(work).forecast();
    TickWork sane = soaking(14, t -> t / 4000, until(0.9));
    List<UptakePoint> means = new ArrayList<>();
    for (int i = 1; i < 13; i++) {
      means.add(new UptakePoint(60 * (i + 1), 60 * (i + 1) / 4000.0));
    }
    double noise = 2 * StrictMath.sqrt(sane.gas.stepVariance()) / NEEDED_MOL;
    Forecast.At law =
        (Forecast.At)
            Forecaster.forecast(
                means, OptionalDouble.of(StrictMath.hypot(noise, 0.01 * 11 * 60 / 4000.0)), 0.9);
    double ahead = (0.9 - 780 / 4000.0) / 0.9;
    assertEquals(
        law.timeS() * (1 + 1.2 * ahead * StrictMath.pow(0.9, 12)), at.timeS(), 1e-3 * law.timeS());
  }

  /** Half of the solid was lost: what it took up since counts twice, what it holds stays. */
  @Test
  void afterALossTheSameUptakeIsMoreConversion() {
    Plan plan = Plan.of(TestSteps.recipe(until(0.9)), new TestRig().build());
    GasByHand gas = new GasByHand(plan, 6e-3).rest(60, 0);
    gas.rest(200, 5e-6).rest(60, 0);
    TickWork work = gas.work;
    double held = work.composition.now(work.gas).value();
    assertEquals(1e-3 / NEEDED_MOL, held, 1e-3, "1 mmol of oxygen");
    work.composition = work.composition.rescaledTo(work.composition.massKg(work.gas) / 2, work.gas);
    double[] soakS = new double[12];
    double[] mol = new double[12];
    double nowMol = work.gas.uptakeMol();
    double eachMol = held / 12 * NEEDED_MOL / 2;
    for (int i = 0; i < 12; i++) {
      soakS[i] = 60 * (i + 1);
      // At the end what is held now, and until then at a steady rate from nothing.
      mol[i] = nowMol - (11 - i) * eachMol;
    }
    work.log = new UptakeLog(0, soakS, mol, 60, UptakeLog.Window.EMPTY, UptakeLog.Course.EMPTY);
    work.run = new SoakRun(SOAK, 1, 720);
    Forecast.At at = (Forecast.At) of(work).forecast();
    List<UptakePoint> means = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      means.add(new UptakePoint(soakS[i], held - (11 - i) * eachMol / (NEEDED_MOL / 2)));
    }
    double noise = 2 * StrictMath.sqrt(work.gas.stepVariance()) / (NEEDED_MOL / 2);
    double gained = 11 * eachMol / (NEEDED_MOL / 2);
    Forecast.At law =
        (Forecast.At)
            Forecaster.forecast(
                means, OptionalDouble.of(StrictMath.hypot(noise, 0.01 * gained)), 0.9);
    boolean abrupt = law.law() == RateLaw.LINEAR || law.law() == RateLaw.PARABOLIC;
    double drag = (abrupt ? 1.2 : 0.3) * (0.9 - held) / 0.9 * StrictMath.pow(0.9, 12);
    assertEquals(law.timeS() * (1 + drag), at.timeS(), 2e-3 * law.timeS());
  }

  @Test
  void theWantedConversionIsThatOfTheRecipesRepeatsElseNearlyAll() {
    assertEquals(0.99, of(soaking(0, t -> 0, SOAK)).wanted());
    assertEquals(0.8, of(soaking(0, t -> 0, SOAK, until(0.8))).wanted());
    Step inner = TestSteps.repeat(2, new RepeatUntil.CountOnly(), until(0.7));
    assertEquals(0.7, of(soaking(0, t -> 0, inner)).wanted());
    Step without = TestSteps.repeat(2, new RepeatUntil.CountOnly(), SOAK);
    assertEquals(0.6, of(soaking(0, t -> 0, without, until(0.6))).wanted());
  }

  @Test
  void outsideOfASoakOrBeforeItsLogBeginsThereIsNone() {
    TickWork work = soaking(12, t -> t / 4000, until(0.9));
    work.run = new RampRun(TestSteps.ramp(500, 1));
    assertTrue(of(work).words().startsWith("none for 90 %: a forecast needs a soak"));
    TickWork other = soaking(12, t -> t / 4000, until(0.9));
    other.cursor = other.cursor.at(1);
    assertTrue(of(other).forecast() instanceof Forecast.None);
    assertTrue(of(soaking(0, t -> 0, until(0.9))).forecast() instanceof Forecast.None);
    assertTrue(of(soaking(1, t -> 0.01, until(0.9))).forecast() instanceof Forecast.None);
  }

  @Test
  void itIsToldInStepsThatAForecastDeserves() {
    Forecast.At soon =
        new Forecast.At(RateLaw.LINEAR, 5000, 4000, 13_000, 0.9, List.of(RateLaw.LINEAR));
    // From 2000 s on: 50 min, 33 min and over three hours.
    assertEquals(
        "90 % in about 50 min at this temperature (35 min to 3 h, linear)",
        new SoakForecast(0.9, 2000, soon).words());
    // 12 h, 17.5 h and, past already, nothing.
    Forecast.At late =
        new Forecast.At(RateLaw.JANDER, 45_000, 1000, 65_500, 0.9, List.of(RateLaw.JANDER));
    assertEquals(
        "99 % in about 12 h at this temperature ("
            + Words.duration(0)
            + " to "
            + Words.duration(63_000)
            + ", Jander (D3))",
        new SoakForecast(0.99, 2000, late).words());
    assertEquals(
        "none for 90 %: too early",
        new SoakForecast(0.9, 0, Forecast.noForecast("too early")).words());
  }

  /** The gauge's noise of 2000 Pa is 1.5 % of an uptake towards Cu2O: it widens the interval. */
  @Test
  void aNoisyGaugeWidensTheForecastTowardsAnyTarget() {
    Plan plan =
        Plan.of(
            TestSteps.recipeTo(new OxideMember("Cu2O", 0.5), until(0.9)), new TestRig().build());
    GasByHand gas = new GasByHand(plan, 5e-3);
    gas.noisePa = 2000;
    gas.rest(60, 0).rest(200, 1e-6).rest(60, 0);
    TickWork work = gas.work;
    double nowMol = work.gas.uptakeMol();
    double needed = NEEDED_MOL / 2;
    double[] soakS = new double[12];
    double[] mol = new double[12];
    List<UptakePoint> points = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      soakS[i] = 60 * (i + 1);
      mol[i] = needed * soakS[i] / 4000;
      points.add(
          new UptakePoint(
              soakS[i], work.composition.now(work.gas).value() / 0.5 - (nowMol - mol[i]) / needed));
    }
    work.log = new UptakeLog(0, soakS, mol, 60, UptakeLog.Window.EMPTY, UptakeLog.Course.EMPTY);
    work.run = new SoakRun(SOAK, 1, 720);
    double noise = 2 * StrictMath.sqrt(work.gas.stepVariance()) / needed;
    assertTrue(noise > 3 * 0.01 * 11 * 60 / 4000.0, "the gauge decides: " + noise);
    Forecast.At law =
        (Forecast.At)
            Forecaster.forecast(
                points, OptionalDouble.of(StrictMath.hypot(noise, 0.01 * 11 * 60 / 4000.0)), 0.9);
    boolean abrupt = law.law() == RateLaw.LINEAR || law.law() == RateLaw.PARABOLIC;
    assertDragged(law, abrupt ? 1.2 : 0.3, 0.18, 0.9, of(work));
  }

  /** Without any noise a hundredth of what was gained is still no law's fault. */
  @Test
  void aLawIsOnlyALawEvenForAPerfectGauge() {
    TickWork work = soaking(12, t -> t / 4000, until(0.9));
    GasByHand quiet = new GasByHand(work.plan, 5e-3);
    quiet.noisePa = 0;
    work.gas = quiet.rest(60, 0).account;
    assertEquals(0, work.gas.stepVariance());
    assertDragged(byLaw(work, 12, 1, 0.9), 1.2, 0.18, 0.9, of(work));
  }
}
