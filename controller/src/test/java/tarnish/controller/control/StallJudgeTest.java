package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tarnish.controller.control.StallJudge.Cause;
import tarnish.controller.control.StallJudge.Verdict;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Charge;
import tarnish.shared.recipe.OxideMember;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.Step;

class StallJudgeTest {
  private final Plan plan =
      Plan.of(TestSteps.recipe(TestSteps.soak(500, 1e6, 5)), new TestRig().build());
  private final ControlBench bench = ControlBench.with(TestSteps.soak(500, 1e6, 5));

  private List<Verdict> judged(UptakeLog.Course course, String... rows) {
    TickWork work = new TickWork(plan, ControlState.initial(plan));
    work.log = new UptakeLog(-1, new double[0], new double[0], 60, UptakeLog.Window.EMPTY, course);
    for (String row : rows) {
      work.alarms = work.alarms.report(row, "as the test says", plan.interlocks(), work);
    }
    return StallJudge.judge(plan, work.state(), bench.readings);
  }

  private static UptakeLog.Course lastTakingAtK(double takingK) {
    return new UptakeLog.Course(0, 1e-6, takingK, takingK, 0, 0, 0, 0, 30, takingK);
  }

  @Test
  void beforeAnythingWasSeenNothingIsSaid() {
    assertEquals(List.of(), judged(UptakeLog.Course.EMPTY));
  }

  @ParameterizedTest
  @CsvSource({
    "no pressure step, SOURCE",
    "oxygen supply empty, SOURCE",
    "gas comes in, LEAK",
    "vessel leaks, LEAK",
    "pump fails, LEAK",
    "leak test failed, LEAK",
  })
  void theInterlockThatHeldTheBatchIsEvidence(String row, Cause cause) {
    List<Verdict> verdicts = judged(UptakeLog.Course.EMPTY, row);
    assertEquals(cause, verdicts.get(0).cause());
    assertTrue(verdicts.get(0).weight() > 0.5, verdicts.toString());
    assertTrue(
        verdicts.get(0).evidence().contains("the interlock '" + row + "' has come"),
        verdicts.get(0).evidence());
  }

  @Test
  void weightsAddUpToOneAndFall() {
    List<Verdict> verdicts = judged(UptakeLog.Course.EMPTY, "gas comes in");
    assertEquals(1, verdicts.stream().mapToDouble(Verdict::weight).sum(), 1e-12);
    for (int i = 1; i < verdicts.size(); i++) {
      assertTrue(verdicts.get(i - 1).weight() >= verdicts.get(i).weight());
    }
    assertEquals(Cause.values().length, verdicts.size());
  }

  /** What was taken up at 450 K and comes back at 500 K is oxygen, and no leak. */
  @Test
  void gasThatComesAfterHeatingIsGivenBackBySolid() {
    bench.allAtK(500);
    assertEquals(Cause.EQUILIBRIUM, judged(lastTakingAtK(450), "gas comes in").get(0).cause());
    assertEquals(Cause.LEAK, judged(lastTakingAtK(495), "gas comes in").get(0).cause());
  }

  // From here on: 0.2 g of copper, which 1.57 mmol of oxygen make CuO, in a soak at 500 K that
  // keeps 500 mbar, with 500 mbar in the vessel.
  private static final double NEEDED_MOL = 0.2e-3 / 0.063546 / 2;
  private static final double HOLD_PA = 50_000;

  /** What the judge sees; change a field, then {@link #verdicts}. */
  private static final class Stall {
    final Plan plan;
    final ControlBench bench =
        ControlBench.with(TestSteps.soak(500, 1e6, 5)).pressurePa(HOLD_PA).allAtK(500);
    GasByHand gas;
    double rateMolPerS;
    int pulses;
    LeakRate leak = LeakRate.UNKNOWN;
    UptakeLog.Course course = seen(500, 0, 0, 0);
    StepRun run = new SoakRun(TestSteps.soak(500, 1e6, 5), 1, 0);
    int points = 31;
    String[] rows = {};

    Stall() {
      this(Plan.of(small(), new TestRig().build()));
    }

    Stall(Plan plan) {
      this.plan = plan;
      gas = GasByHand.filledWithOxygen(plan, 6e-3).rest(60, 0);
    }

    private static Recipe small() {
      Step soak = new Step.Soak(TestSteps.holding("Soak", HOLD_PA), 500, 1e6, 5);
      Recipe r = TestSteps.recipe(soak);
      return new Recipe(
          r.title(),
          true,
          new Charge("Cu", 0.2e-3, 1e-7),
          r.chargeMolarMassKgPerMol(),
          r.series(),
          r.target(),
          r.activationEnergyJPerMol(),
          r.reactionEnthalpyJPerMolO2(),
          r.vesselName(),
          r.oxygenSourceName(),
          r.steps(),
          List.of());
    }

    List<Verdict> verdicts() {
      TickWork work = gas.work;
      work.run = run;
      work.leak = leak;
      UptakeLog.Window window = UptakeLog.Window.EMPTY;
      for (int i = 0; i < points; i++) {
        window = window.with(60 * i, rateMolPerS * 60 * i, i == 0 ? 0 : pulses);
      }
      work.log = new UptakeLog(0, new double[0], new double[0], 60, window, course);
      for (String row : rows) {
        work.alarms = work.alarms.report(row, "as the test says", plan.interlocks(), work);
      }
      return StallJudge.judge(plan, work.state(), bench.readings);
    }

    boolean stalled() {
      return !verdicts().isEmpty();
    }

    double belief(Cause cause) {
      return verdicts().stream().filter(v -> v.cause() == cause).findFirst().get().weight();
    }

    String evidence(Cause cause) {
      return verdicts().stream().filter(v -> v.cause() == cause).findFirst().get().evidence();
    }

    Cause likeliest() {
      return verdicts().get(0).cause();
    }

    /** Against a cause that nothing speaks for. */
    double against(Cause cause, Cause nothing) {
      return belief(cause) / belief(nothing);
    }
  }

  /** Oxygen last taken at a temperature; gas that came back in calm from a temperature on. */
  private static UptakeLog.Course seen(double takingK, double backMol, double backK, double fall) {
    return new UptakeLog.Course(0, 0, 0, takingK, backMol, backK, 0, fall, 30, 500);
  }

  private static UptakeLog.Course grown(double share, double peakMolPerS) {
    return new UptakeLog.Course(-share * NEEDED_MOL, peakMolPerS, 480, 500, 0, 0, 0, 0, 30, 500);
  }

  @Test
  void onlyASoakWithHalfAnHourBehindItIsJudged() {
    Stall stall = new Stall();
    assertTrue(stall.stalled(), "nothing was taken up for half an hour");
    stall.points = 30;
    assertFalse(stall.stalled());
    stall.points = 31;
    stall.run = new RampRun(TestSteps.ramp(500, 0.1));
    assertFalse(stall.stalled());
  }

  /** What is missing is 1.57 mmol, which must not need more than 200 h: 2.19 nmol/s. */
  @Test
  void anUptakeThatWouldNeedMoreThanTwoHundredHoursCountsAsNone() {
    Stall stall = noisy(0);
    double hopeless = NEEDED_MOL / (200 * 3600);
    stall.rateMolPerS = 0.98 * hopeless;
    assertTrue(stall.stalled());
    stall.rateMolPerS = 1.02 * hopeless;
    assertFalse(stall.stalled());
  }

  /** 30 Pa of noise: steps of 1.83 µmol, so both ends of 1800 s are known to 1.44 nmol/s. */
  @Test
  void anUptakeWithinThreeOfItsUncertaintiesCountsAsNone() {
    Stall stall = noisy(30);
    double step = StrictMath.sqrt(stall.gas.account.stepVariance());
    double u = StrictMath.sqrt(2) * step / 1800;
    assertTrue(3 * u > NEEDED_MOL / (200 * 3600), "noise decides here");
    stall.rateMolPerS = 2.95 * u;
    assertTrue(stall.stalled());
    stall.rateMolPerS = 3.05 * u;
    assertFalse(stall.stalled());
    // Seven pulses meanwhile are seven more steps: 3 instead of the root of 2.
    stall.pulses = 7;
    stall.rateMolPerS = 2.95 * 3 * step / 1800;
    assertTrue(stall.stalled());
    stall.rateMolPerS = 3.05 * 3 * step / 1800;
    assertFalse(stall.stalled());
    // So is a leak's own uncertainty; at half an atmosphere about half of it.
    stall.leak = new LeakRate(0, 2e-8, true);
    assertTrue(stall.stalled());
  }

  private static Stall noisy(double noisePa) {
    Stall stall = new Stall();
    stall.gas = GasByHand.filledWithOxygen(stall.plan, 6e-3);
    stall.gas.noisePa = noisePa;
    stall.gas.rest(60, 0);
    return stall;
  }

  /** Taken up so much of what the charge can hold, quickly; the judge is told that it stopped. */
  private static Stall converted(double share) {
    Stall stall = new Stall();
    double ticks = StrictMath.rint(share * NEEDED_MOL / 5e-6 / 0.25);
    stall.gas.rest(ticks * 0.25, share * NEEDED_MOL / (ticks * 0.25));
    stall.gas.rest(300, 0);
    return stall;
  }

  private static double uncertainty(Stall stall) {
    return stall.gas.work.composition.now(stall.gas.account).standardUncertainty();
  }

  @Test
  void aChargeWithinTwoUncertaintiesOfItsTargetIsFinished() {
    double u = uncertainty(converted(1));
    assertEquals(Cause.FINISHED, converted(1).likeliest());
    assertEquals(Cause.FINISHED, converted(1 - 1.9 * u).likeliest());
    double sure = converted(1 - 1.8 * u).against(Cause.FINISHED, Cause.SOURCE);
    double maybe = converted(1 - 2.5 * u).against(Cause.FINISHED, Cause.SOURCE);
    double hardly = converted(1 - 3.25 * u).against(Cause.FINISHED, Cause.SOURCE);
    double not = converted(1 - 4 * u).against(Cause.FINISHED, Cause.SOURCE);
    assertTrue(sure > 2 * maybe && maybe > 2 * hardly && hardly > 20 * not);
    assertEquals(1, not, 1e-9, "no more likely than what nothing speaks for");
    assertTrue(converted(0.5).evidence(Cause.FINISHED).startsWith("conversion 0.5"));
  }

  /** The bottle is at 1500 mbar by the recipe; 60 % of it, or the vessel's pressure, are low. */
  @Test
  void aSourceThatIsLowAndDoesNotKeepThePressureIsEmpty() {
    Stall stall = new Stall();
    assertEquals(1, stall.against(Cause.SOURCE, Cause.BLANKET), 1e-9, "nothing speaks for it");
    stall.bench.set(Channel.SUPPLY_PRESSURE, 90_000);
    assertEquals(1, stall.against(Cause.SOURCE, Cause.BLANKET), 1e-9, "60 % are enough");
    stall.bench.set(Channel.SUPPLY_PRESSURE, 89_990);
    double low = stall.against(Cause.SOURCE, Cause.BLANKET);
    assertTrue(low > 50);
    stall.bench.pressurePa(0.93 * HOLD_PA);
    assertEquals(low, stall.against(Cause.SOURCE, Cause.BLANKET), 1e-9, "93 % are kept");
    stall.bench.pressurePa(0.93 * HOLD_PA - 10);
    assertEquals(Cause.SOURCE, stall.likeliest());
    assertTrue(stall.against(Cause.SOURCE, Cause.BLANKET) > 5 * low);
    assertEquals(
        "supply at "
            + Words.pressure(89_990)
            + ", vessel at "
            + Words.pressure(46_490)
            + " of "
            + Words.pressure(HOLD_PA)
            + " wanted",
        stall.evidence(Cause.SOURCE));
    stall.bench.set(Channel.SUPPLY_PRESSURE, 150_000);
    assertEquals(low, stall.against(Cause.SOURCE, Cause.BLANKET), 1e-9, "one sign of two");
  }

  @Test
  void aSupplyNotFiftyMillibarAboveTheVesselPassesNothing() {
    Stall stall = new Stall();
    stall.bench.pressurePa(100_000).set(Channel.SUPPLY_PRESSURE, 105_000);
    assertEquals(1, stall.against(Cause.SOURCE, Cause.BLANKET), 1e-9);
    stall.bench.set(Channel.SUPPLY_PRESSURE, 104_990);
    assertTrue(stall.against(Cause.SOURCE, Cause.BLANKET) > 50);
  }

  /** Ten times the noise of a span: 10 Pa are 3 times 0.6 µmol, so 18 µmol. */
  @Test
  void gasThatAppearsInCalmIsALeakUnlessItWasHeatedBefore() {
    Stall stall = new Stall();
    double clearMol = 30 * StrictMath.sqrt(stall.gas.account.stepVariance());
    stall.course = seen(500, 0.99 * clearMol, 500, 0);
    assertEquals(1, stall.against(Cause.LEAK, Cause.BLANKET), 1e-9);
    stall.course = seen(500, 1.01 * clearMol, 500, 0);
    assertEquals(Cause.LEAK, stall.likeliest());
    double atHold = stall.against(Cause.LEAK, Cause.BLANKET);
    stall.bench.pressurePa(1.012 * HOLD_PA + 10);
    assertTrue(stall.against(Cause.LEAK, Cause.BLANKET) > 1.5 * atHold, "above what is kept");
    stall.bench.pressurePa(1.012 * HOLD_PA);
    assertEquals(atHold, stall.against(Cause.LEAK, Cause.BLANKET), 1e-9);
    // Last taken up at 484 K, came back from 500 K on: it was heated in between.
    stall.course = seen(484, 1.01 * clearMol, 500, 0);
    assertEquals(Cause.EQUILIBRIUM, stall.likeliest());
    stall.course = seen(485, 1.01 * clearMol, 500, 0);
    assertEquals(Cause.LEAK, stall.likeliest(), "15 K are not yet heating");
    stall.course = seen(0, 1.01 * clearMol, 500, 0);
    assertEquals(Cause.LEAK, stall.likeliest(), "nothing was ever taken up");
  }

  @Test
  void aVesselAtTheRoomsPressureAboveWhatIsKeptMayLeak() {
    Stall stall = new Stall();
    stall.bench.pressurePa(TestRig.ROOM_PA);
    double atRoom = stall.against(Cause.LEAK, Cause.BLANKET);
    assertTrue(atRoom > 100);
    stall.bench.pressurePa(TestRig.ROOM_PA - 1510);
    assertEquals(atRoom, stall.against(Cause.LEAK, Cause.BLANKET), 1e-9, "within 1.5 %");
    stall.bench.pressurePa(TestRig.ROOM_PA - 1530);
    assertEquals(1, stall.against(Cause.LEAK, Cause.BLANKET), 1e-9);
    stall.bench.pressurePa(TestRig.ROOM_PA);
    stall.course = seen(480, 0, 0, 0);
    assertEquals(1, stall.against(Cause.LEAK, Cause.BLANKET), 1e-9, "it was heated");
  }

  @Test
  void aRateThatFellByFourFifthsAtOnceIsAFaintSignOfALeak() {
    Stall stall = new Stall();
    stall.course = seen(500, 0, 0, 0.8);
    assertEquals(1, stall.against(Cause.LEAK, Cause.BLANKET), 1e-9);
    stall.course = seen(500, 0, 0, 0.81);
    assertTrue(stall.against(Cause.LEAK, Cause.BLANKET) > 20);
    assertTrue(stall.evidence(Cause.LEAK).contains("rate fell by 81.0 %"));
    stall.course = seen(500, 0, 0, 3);
    assertTrue(stall.evidence(Cause.LEAK).contains("rate fell by 100.0 %"), "and no more");
  }

  /** Filled with inert gas and so much oxygen of the source's 99.5 %. */
  private static Stall blanketed(double share) {
    Stall stall = new Stall();
    stall.gas = GasByHand.filledWithOxygen(stall.plan, share * 6e-3);
    stall.gas.tick(
        GasAccount.Window.EXCHANGING, (1 - share) * 6e-3, 0, (1 - share) * 24e-3, false, false);
    stall.gas.rest(60, 0);
    return stall;
  }

  @Test
  void gasThatHoldsLittleOxygenBlanketsTheCharge() {
    assertEquals(Cause.BLANKET, blanketed(0.13).likeliest());
    double tenth = blanketed(0.13).against(Cause.BLANKET, Cause.SOURCE);
    double third = blanketed(0.33).against(Cause.BLANKET, Cause.SOURCE);
    double half = blanketed(0.48).against(Cause.BLANKET, Cause.SOURCE);
    assertEquals(tenth, blanketed(0.14).against(Cause.BLANKET, Cause.SOURCE), 1e-9);
    assertEquals(third, blanketed(0.17).against(Cause.BLANKET, Cause.SOURCE), 1e-9);
    assertEquals(half, blanketed(0.37).against(Cause.BLANKET, Cause.SOURCE), 1e-9);
    assertTrue(tenth > 2 * third && third > 2 * half && half > 2);
    assertEquals(1, blanketed(0.52).against(Cause.BLANKET, Cause.SOURCE), 1e-9);
    String words = blanketed(0.25).evidence(Cause.BLANKET);
    assertTrue(words.contains("the source has 99.5 %"), words);
    double oxygenPa = blanketed(0.25).gas.account.oxygenFraction().value() * HOLD_PA;
    assertTrue(words.contains(Words.pressure(oxygenPa) + " of it"), words);
  }

  /** 3 % of the gas is what a model of its temperature may be wrong by while it is heated. */
  @Test
  void oxygenThatComesBackOnHeatingIsNearItsEquilibrium() {
    Stall stall = new Stall();
    double gasMol = stall.gas.account.gasMol();
    stall.course = heatedBack(480, 0.031 * gasMol);
    assertEquals(Cause.EQUILIBRIUM, stall.likeliest());
    double both = stall.against(Cause.EQUILIBRIUM, Cause.BLANKET);
    stall.course = heatedBack(480, 0.029 * gasMol);
    double stopped = stall.against(Cause.EQUILIBRIUM, Cause.BLANKET);
    assertTrue(both > 4 * stopped && stopped > 50);
    stall.course = heatedBack(485, 0.031 * gasMol);
    assertEquals(1, stall.against(Cause.EQUILIBRIUM, Cause.BLANKET), 1e-9, "not heated since");
    stall.course = heatedBack(0, 0.031 * gasMol);
    assertEquals(1, stall.against(Cause.EQUILIBRIUM, Cause.BLANKET), 1e-9, "never taken up");
    assertTrue(stall.evidence(Cause.EQUILIBRIUM).startsWith("no uptake was clearly seen"));
    stall.course = heatedBack(480, 0);
    assertTrue(
        stall
            .evidence(Cause.EQUILIBRIUM)
            .startsWith("oxygen was last clearly taken up at " + Words.temperature(480)));
  }

  private static UptakeLog.Course heatedBack(double takingK, double mol) {
    return new UptakeLog.Course(0, 0, 0, takingK, 0, 0, mol, 0, 30, 500);
  }

  /** Came back after it was heated from 470 K to 490 K; now it is no hotter than then. */
  @Test
  void gasThatCameAfterHeatingIsOxygenEvenIfItHasCooledSince() {
    Stall stall = new Stall();
    double clearMol = 31 * StrictMath.sqrt(stall.gas.account.stepVariance());
    stall.bench.allAtK(480);
    stall.course = seen(470, clearMol, 490, 0);
    assertEquals(Cause.EQUILIBRIUM, stall.likeliest());
    stall.bench.allAtK(500);
    double stoppedToo = stall.against(Cause.EQUILIBRIUM, Cause.BLANKET);
    stall.bench.allAtK(480);
    assertTrue(stoppedToo > 2 * stall.against(Cause.EQUILIBRIUM, Cause.BLANKET));
  }

  /** A crust lets a little through; what stands still is held by its pressure. */
  @Test
  void afterHeatingAStandstillSpeaksForEquilibriumMoreThanATrickle() {
    Stall stall = noisy(10);
    stall.course = heatedBack(480, 0);
    double u = StrictMath.sqrt(2 * stall.gas.account.stepVariance()) / 1800;
    stall.rateMolPerS = 1.9 * u;
    double standing = stall.against(Cause.EQUILIBRIUM, Cause.BLANKET);
    stall.rateMolPerS = 2.1 * u;
    assertTrue(standing > 2 * stall.against(Cause.EQUILIBRIUM, Cause.BLANKET));
  }

  @Test
  void aChargeThatGrewAndSlowedDownIsCrusted() {
    Stall stall = new Stall();
    double u = StrictMath.sqrt(2 * stall.gas.account.stepVariance()) / 1800;
    stall.course = grown(0.041, 5 * u);
    assertEquals(Cause.CRUSTED, stall.likeliest());
    double much = stall.against(Cause.CRUSTED, Cause.BLANKET);
    stall.course = grown(0.039, 5 * u);
    double little = stall.against(Cause.CRUSTED, Cause.BLANKET);
    stall.course = grown(0.019, 5 * u);
    double hardly = stall.against(Cause.CRUSTED, Cause.BLANKET);
    assertTrue(much > 2 * little && little > 2 * hardly);
    stall.course = grown(0.3, 3.9 * u);
    assertEquals(hardly, stall.against(Cause.CRUSTED, Cause.BLANKET), 1e-9, "it never was fast");
    stall.course = grown(0.03, 3.9 * u);
    assertEquals(hardly, stall.against(Cause.CRUSTED, Cause.BLANKET), 1e-9);
    stall.rateMolPerS = 1.5 * u;
    stall.course = grown(0.041, 6 * u);
    assertEquals(hardly, stall.against(Cause.CRUSTED, Cause.BLANKET), 1e-9, "a quarter still goes");
    assertTrue(
        stall.evidence(Cause.CRUSTED).startsWith("4.1 % of the charge reacted"),
        stall.evidence(Cause.CRUSTED));
    assertTrue(stall.evidence(Cause.CRUSTED).endsWith("the rate is now 25.0 % of that"));
  }

  @Test
  void aChargeThatHardlyReactedIsTooColdTheMoreSoWhileAHotterSoakIsToCome() {
    Stall stall = new Stall();
    stall.course = grown(0.009, 0);
    assertEquals(Cause.COLD, stall.likeliest());
    double never = stall.against(Cause.COLD, Cause.BLANKET);
    stall.course = grown(0.011, 0);
    double little = stall.against(Cause.COLD, Cause.BLANKET);
    stall.course = grown(0.031, 0);
    double some = stall.against(Cause.COLD, Cause.BLANKET);
    assertTrue(never > 2 * little && little > 2 * some);
    stall.course = grown(0.009, 0);
    stall.bench.allAtK(479);
    assertEquals(2 * never, stall.against(Cause.COLD, Cause.BLANKET), 1e-9, "500 K are to come");
    stall.bench.allAtK(481);
    assertEquals(never, stall.against(Cause.COLD, Cause.BLANKET), 1e-9, "20 K do not help");
    stall.course = grown(-0.5, 0);
    assertEquals(never, stall.against(Cause.COLD, Cause.BLANKET), 1e-9);
    assertTrue(stall.evidence(Cause.COLD).startsWith("only 0.0 % of the charge"));
  }

  @Test
  void aStepThatKeepsNoPressureIsNotFoundWanting() {
    Stall stall = new Stall();
    stall.gas.work.cursor = stall.gas.work.cursor.at(1);
    stall.bench.pressurePa(40_000);
    assertTrue(stall.against(Cause.SOURCE, Cause.BLANKET) > 50, "the last step's still holds");
    StallJudgeTest without = this;
    assertTrue(
        without.judged(UptakeLog.Course.EMPTY, "gas comes in").stream()
            .noneMatch(v -> v.evidence().contains("wanted")));
  }

  @Test
  void everyCauseHasItsWordsAndSaysWhatToDo() {
    for (Cause cause : Cause.values()) {
      assertFalse(cause.words().isBlank());
      assertTrue(cause.act().endsWith("."), cause.act());
    }
  }

  /** Half of it is Cu2O's already: 0.39 mmol are missing of 0.79 mmol. */
  @Test
  void whatIsMissingIsThatOfTheRecipesTarget() {
    Stall half = towardsCu2O(0.5);
    double hopeless = 0.5 * NEEDED_MOL / 2 / (200 * 3600);
    half.rateMolPerS = 0.95 * hopeless;
    assertTrue(half.stalled());
    half.rateMolPerS = 1.05 * hopeless;
    assertFalse(half.stalled());
    // A twentieth counts as missing at least.
    Stall full = towardsCu2O(1);
    full.rateMolPerS = 0.95 * 0.05 * NEEDED_MOL / 2 / (200 * 3600);
    assertTrue(full.stalled());
    assertEquals(Cause.FINISHED, full.likeliest());
    full.rateMolPerS *= 1.1;
    assertFalse(full.stalled());
    assertTrue(towardsCu2O(0.5).evidence(Cause.FINISHED).startsWith("conversion 0.5"));
  }

  private static Stall towardsCu2O(double share) {
    Recipe r = Stall.small();
    Recipe cu2O =
        new Recipe(
            r.title(),
            true,
            r.charge(),
            r.chargeMolarMassKgPerMol(),
            r.series(),
            new OxideMember("Cu2O", 0.5),
            r.activationEnergyJPerMol(),
            r.reactionEnthalpyJPerMolO2(),
            r.vesselName(),
            r.oxygenSourceName(),
            r.steps(),
            List.of());
    Stall stall = new Stall(Plan.of(cu2O, new TestRig().build()));
    stall.gas = GasByHand.filledWithOxygen(stall.plan, 6e-3);
    stall.gas.noisePa = 0;
    double mol = share * NEEDED_MOL / 2;
    stall.gas.rest(60, 0).rest(200, mol / 200).rest(300, 0);
    return stall;
  }

  @Test
  void theInterlockOfGasThatCameSpeaksForEquilibriumOnlyWhereItWasHeated() {
    bench.allAtK(500);
    assertTrue(equilibrium(450).contains("has come"));
    assertFalse(equilibrium(495).contains("has come"));
  }

  private String equilibrium(double takingK) {
    return judged(lastTakingAtK(takingK), "gas comes in").stream()
        .filter(v -> v.cause() == Cause.EQUILIBRIUM)
        .findFirst()
        .orElseThrow()
        .evidence();
  }
}
