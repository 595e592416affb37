package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tarnish.controller.control.GasAccount.Window;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.rig.GasSource;

/** The account against amounts worked out by hand; a tick is a quarter of a second. */
class GasAccountByHandTest {
  private static final double R = 8.31446261815324;
  private static final double PER_PA = (TestRig.HOT_M3 + TestRig.COLD_M3) / 295 / R;

  private final Plan plan =
      Plan.of(TestSteps.recipe(TestSteps.soak(295, 1e6, 5)), new TestRig().build());
  private GasByHand gas = new GasByHand(plan, 6e-3);

  private <E extends Event> List<E> events(Class<E> kind) {
    return gas.work.events().stream().filter(kind::isInstance).map(kind::cast).toList();
  }

  @Test
  void whatIsPumpedOffIsWhatLeftAndWhatCameInMeanwhile() {
    gas.rest(60, 0);
    for (int i = 0; i < 5; i++) {
      gas.tick(Window.EXCHANGING, -1e-3, 0, 0, true, false);
    }
    assertEquals(5e-3, gas.account.removedMol(), 1e-12);
    gas.tick(Window.EXCHANGING, 2e-3, 0, 8e-3, false, false);
    assertEquals(5e-3, gas.account.removedMol(), 1e-12, "a fill takes nothing off");
    gas.tick(Window.EXCHANGING, -0.5e-3, 0, 4e-3, true, false);
    assertEquals(6.5e-3, gas.account.removedMol(), 1e-12);
    gas.tick(Window.EXCHANGING, -0.5e-3, 4e-3, 0, false, true);
    assertEquals(8e-3, gas.account.removedMol(), 1e-12, "through the vent, too");
    gas.tick(Window.EXCHANGING, 0.1e-3, 0, 0, false, true);
    assertEquals(8e-3, gas.account.removedMol(), 1e-12, "what comes in is not taken off it");
    gas.rest(1, 0);
    Event.GasExchanged told = events(Event.GasExchanged.class).get(0);
    assertEquals(6e-3, told.fromMol().value(), 1e-12);
    assertEquals(2.1e-3, told.toMol().value(), 1e-12);
    // In proportion to the gas, for pressure and volume are off by a share of themselves, but for
    // the gauge's zero, which counts alike for both.
    double perMol = told.toMol().standardUncertainty() / 2.1e-3;
    assertTrue(told.fromMol().standardUncertainty() < perMol * 6e-3);
    assertTrue(told.fromMol().standardUncertainty() > told.toMol().standardUncertainty());
    assertEquals(2.1e-3, gas.account.gasMol(), 1e-12);
    assertEquals(1, events(Event.GasExchanged.class).size());
  }

  @Test
  void aPulseIsRecordedWithItsAmountAndWhatThatMayBeOff() {
    gas.rest(60, 0).pulse(2e-4, 2, 0).rest(14, 0);
    assertEquals(1, gas.account.pulses());
    assertEquals(0, events(Event.PulseGiven.class).size(), "its rate is not known yet");
    gas.rest(20, 0);
    Event.PulseGiven pulse = events(Event.PulseGiven.class).get(0);
    assertEquals(1, pulse.number());
    assertEquals(6e-3 / PER_PA, pulse.beforePa(), 1e-6);
    assertEquals(6.2e-3 / PER_PA, pulse.afterPa(), 1e-6);
    assertEquals(2e-4, pulse.admittedMol().value(), 1e-12);
    assertEquals(2e-4, gas.account.admittedMol(), 1e-12);
    double[] errors = gas.account.model().errors(6.2e-3 / PER_PA, gas.heat, 50);
    // Two tenths of a reading's variance; and of the errors the pulse's share of the gas.
    double sum = 0.2 * StrictMath.pow(10 * PER_PA, 2);
    for (double error : errors) {
      sum += StrictMath.pow(error * 2e-4 / 6.2e-3, 2);
    }
    assertEquals(StrictMath.sqrt(sum), pulse.admittedMol().standardUncertainty(), 1e-12);
    assertEquals(0.2 * StrictMath.pow(10 * PER_PA, 2), gas.account.stepVariance(), 1e-18);
  }

  /** 1.5 s and the baseline's 5 s pass before the gas is followed: 26 of 400 ticks. */
  @Test
  void aLeakOfTheTestsRateIsCountedWhileTheGasIsFollowed() {
    gas.leakMolPerS = 1e-8;
    gas.rest(100, 0);
    double leaked = 374 * 0.25 * 1e-8;
    assertEquals(leaked, gas.account.leakedMol(), 1e-15);
    assertEquals(leaked, gas.account.uptakeMol(), 1e-12, "what leaked in and is gone was taken up");
    assertEquals(leaked / 2, gas.account.total().errors()[GasModel.LEAK], 1e-15);
  }

  /** Before the pulse 1 µmol/s, after it 2; in its 4 s and the 4 s until the baseline unseen. */
  @Test
  void whatTheGaugeCannotShowIsFilledInAtTheRatesBeforeAndAfter() {
    gas.noisePa = 0;
    gas.rest(300, 1e-6);
    for (int i = 0; i < 16; i++) {
      gas.tick(Window.ADMITTING, 5e-5 - 1.5e-6 * 0.25, 0, 0, false, false);
    }
    gas.rest(300, 2e-6);
    double truth = 300e-6 + 4 * 1.5e-6 + 600e-6;
    assertEquals(truth, gas.account.uptakeMol(), 1e-8);
    assertEquals(16 * 5e-5, gas.account.admittedMol(), 1e-8);
    // A twentieth of what was filled in (4 s at 1, 4 s at 2 and 4 s at 1.5 µmol/s), and half of
    // what it would be if the rate had changed at once: 4 s from nothing, 8 s by 1 µmol/s.
    double filled = 0.05 * (4e-6 + 8e-6 + 6e-6) + 4 * 1e-6 / 2 + 8 * 1e-6 / 2;
    assertEquals(filled, gas.account.total().errors()[GasModel.UNSEEN], 1e-8);
  }

  @Test
  void aChangeOfTheRateWithinItsNoiseIsNone() {
    gas.noisePa = 100;
    gas.rest(300, 0);
    double noise = 1.5 * StrictMath.sqrt(gas.account.stepVariance()) / 15;
    double rate = noise + 1e-8;
    gas.tick(Window.ADMITTING, 5e-5, 0, 0, false, false).rest(300, rate);
    double filled = 0.05 * rate * (4 + 0.125) + 4.25 * 1e-8 / 2;
    assertEquals(filled, gas.account.total().errors()[GasModel.UNSEEN], 5e-10);
  }

  private void pumpedAt(double... pressuresPa) {
    GasModel.Heat heat = gas.heat;
    for (double pa : pressuresPa) {
      gas.account =
          gas.account.step(
              Window.EXCHANGING,
              new GasView(pa, heat, 10, 0, 0, 0, 0, true, false, 0.25),
              gas.work);
    }
    double last = pressuresPa[pressuresPa.length - 1];
    gas.account =
        gas.account.step(
            Window.RESTING, new GasView(last, heat, 10, 0, 0, 0, 0, false, false, 0.25), gas.work);
  }

  /** Falling at a rate for 40 s, to 70 Pa: a pump's ultimate of 30 Pa and 40 Pa of zero. */
  private static double[] falling(double paPerS, double toPa) {
    double[] pa = new double[160];
    for (int i = 0; i < pa.length; i++) {
      pa[i] = toPa + paPerS * 0.25 * (pa.length - 1 - i);
    }
    return pa;
  }

  @Test
  void theGaugesZeroIsLearntAtThePumpsUltimate() {
    gas.rest(60, 0);
    pumpedAt(falling(0, 70));
    assertEquals(40, gas.account.zeroPa().value(), 1e-9);
    // 30 % of 30 Pa and 5 Pa of settling; 0.4 of 10 Pa of noise.
    assertEquals(StrictMath.hypot(14, 4), gas.account.zeroPa().standardUncertainty(), 1e-9);
    assertEquals(30 * PER_PA, gas.account.gasMol(), 1e-12, "what is left by the pump");
  }

  /** The filters of 1 and 4 s are 3 s apart; they must agree within 5 Pa and 0.3 of the noise. */
  @Test
  void whileThePressureStillFallsNoZeroIsLearnt() {
    gas.rest(60, 0);
    pumpedAt(falling(2.5, 70));
    assertEquals(40 + 2.5, gas.account.zeroPa().value(), 0.1, "7.5 Pa apart");
    GasByHand other = new GasByHand(plan, 6e-3).rest(60, 0);
    gas.account = other.account;
    pumpedAt(falling(2.9, 70));
    assertEquals(0, gas.account.zeroPa().value(), "8.7 Pa apart");
    assertEquals(50, gas.account.zeroPa().standardUncertainty());
  }

  /** 330 cm³ at 11 cm³/s: 30 s. At 0.5 Pa/s the filters are 1.5 Pa apart and 15 Pa are to come. */
  @Test
  void aSlowPumpThatIsNotAtItsUltimateYetTellsNoZero() {
    TestRig rig = new TestRig();
    rig.pumpM3PerS = 11e-6;
    Plan slow = Plan.of(TestSteps.recipe(TestSteps.soak(295, 1e6, 5)), rig.build());
    gas = new GasByHand(slow, 6e-3).rest(60, 0);
    pumpedAt(falling(0.5, 70));
    assertEquals(0, gas.account.zeroPa().value(), "15 Pa to fall, 8 Pa are allowed");
    gas = new GasByHand(slow, 6e-3).rest(60, 0);
    pumpedAt(falling(0.25, 70));
    assertEquals(40, gas.account.zeroPa().value(), 0.5, "7.5 Pa to fall");
  }

  /** 50 Pa as delivered: four times that and the 14.6 Pa of the pump are credible. */
  @Test
  void aZeroThatCannotBeIsNotLearnt() {
    gas.rest(60, 0);
    GasAccount before = gas.account;
    pumpedAt(falling(0, 30 + 213));
    assertEquals(213, gas.account.zeroPa().value(), 1e-9);
    gas.account = before;
    pumpedAt(falling(0, 30 + 216));
    assertEquals(0, gas.account.zeroPa().value());
    gas.account = before;
    pumpedAt(falling(0, 30 - 213));
    assertEquals(-213, gas.account.zeroPa().value(), 1e-9);
  }

  @Test
  void whileGasIsLetInThePumpTellsNoZero() {
    gas.rest(60, 0);
    for (int i = 0; i < 100; i++) {
      GasView fed = new GasView(70, gas.heat, 10, 0, 0, 0, 1e-5, true, false, 0.25);
      gas.account = gas.account.step(Window.EXCHANGING, fed, gas.work);
    }
    GasView shut = new GasView(70, gas.heat, 10, 0, 0, 0, 0, false, false, 0.25);
    gas.account = gas.account.step(Window.RESTING, shut, gas.work);
    assertEquals(0, gas.account.zeroPa().value());
  }

  /** Pulses of 60 µmol, of which the rig file promises so much. */
  private GasByHand pulses(int count, double told, double sampleK) {
    GasByHand fed = GasByHand.filledWithOxygen(plan, 3e-3);
    fed.heat = new GasModel.Heat(sampleK, sampleK, 295);
    HeatBalance begun = HeatBalance.NONE.step(sampleK, sampleK, 295, 0.25, true, plan);
    fed.work.heat = new HeatWatch(sampleK, sampleK, sampleK, sampleK, begun);
    fed.rest(60, 0);
    for (int i = 0; i < count; i++) {
      fed.pulse(6e-5, 2, told).rest(30, 0);
    }
    return fed;
  }

  @Test
  void aValveThatPassesMoreThanItShouldIsLearntFromColdPulses() {
    GasByHand more = pulses(20, 1 / 1.08, 295);
    assertEquals(1.08, more.account.valveRatio(), 0.005);
    assertEquals(0, more.account.uptakeMol(), 5e-6, "nothing was taken up");
    assertEquals(1, pulses(20, 1 / 1.08, 356).account.valveRatio(), "61 K above the room");
    assertTrue(pulses(3, 1 / 1.08, 354).account.valveRatio() > 1.01, "59 K are cold");
  }

  @Test
  void aPulseThatHardlyPassedIsAFailingValveAndNoHiddenUptake() {
    assertEquals(1, pulses(3, 1 / 0.59, 295).account.valveRatio());
    assertTrue(pulses(3, 1 / 0.61, 295).account.valveRatio() < 0.999);
    assertEquals(1, pulses(3, 0, 295).account.valveRatio(), "no flow is known");
  }

  @Test
  void anotherSourceKeepsWhatTheOldValveHidAndLearnsAnew() {
    GasByHand old = pulses(20, 1 / 0.9, 295);
    double hidden = old.account.uptakeMol() - old.account.seenUptakeMol();
    double before = old.account.uptakeMol();
    double u = old.account.total().errors()[GasModel.VALVE];
    assertTrue(u > 1e-6);
    GasSource now = old.account.source();
    GasSource other =
        new GasSource("other", 0.93, 0.01, 140_000, now.sonicConductance(), now.criticalRatio());
    GasAccount changed = old.account.withSource(other, HeatBalance.NONE);
    assertEquals(before, changed.uptakeMol(), 1e-15);
    assertEquals(before, changed.seenUptakeMol(), 1e-15, "it is settled now");
    assertEquals(1, changed.valveRatio());
    assertEquals(other, changed.source());
    assertEquals(u, changed.total().errors()[GasModel.VALVE], 1e-12);
    assertEquals(0, changed.since(old.account).mol(), 1e-12);
    assertTrue(StrictMath.abs(hidden) < 1e-4);
    // Pulses of the new source are counted with its own valve only.
    GasByHand on = new GasByHand(plan, old.gasMol);
    on.account = changed;
    on.rest(60, 0).pulse(6e-5, 2, 1 / 0.9).rest(30, 0);
    GasAccount.Change since = on.account.since(old.account);
    assertEquals(on.account.uptakeMol() - before, since.mol(), 1e-12);
    assertTrue(since.errors()[GasModel.VALVE] > 0);
  }

  @Test
  void inAnotherVesselTheCountGoesOnFromWhatWasCounted() {
    gas.rest(120, 1e-6);
    double before = gas.account.uptakeMol();
    GasModel other = gas.account.model().withVolume(new TwoZoneVolume(2e-4, 1e-4), 1e-6, 1e-6);
    gas.account = gas.account.inVessel(other);
    assertEquals(before, gas.account.uptakeMol(), 1e-9);
    assertEquals(other, gas.account.model());
    assertFalse(gas.account.rateIsKnown());
    gas.rest(300, 1e-6);
    assertEquals(before + 300e-6, gas.account.uptakeMol(), 2e-8);
  }

  @Test
  void theRateIsKnownFifteenSecondsAfterTheGaugeCameToRest() {
    gas.rest(16.25, 1e-6);
    assertFalse(gas.account.rateIsKnown());
    gas.rest(0.25, 1e-6);
    assertTrue(gas.account.rateIsKnown());
    assertEquals(1e-6, gas.account.rateMolPerS(), 5e-9);
    gas.tick(Window.ADMITTING, 1e-5, 0, 0, false, false);
    assertFalse(gas.account.rateIsKnown());
    assertEquals(1e-6, gas.account.rateMolPerS(), 5e-9, "until then it is the rate before");
  }

  private double oxygen() {
    return gas.account.oxygenFraction().value();
  }

  @Test
  void theGasIsWhatWasLetIn() {
    gas.rest(1, 0);
    assertEquals(0.1, oxygen(), 1e-9, "nobody knows: mostly air or inert");
    GasByHand pure = GasByHand.filledWithOxygen(plan, 6e-3);
    double inert = (1e-7 * 0.9 + 0.005 * 6e-3) / (6e-3 + 1e-7);
    assertEquals(1 - inert, pure.account.oxygenFraction().value(), 2e-3);
    pure.tick(Window.EXCHANGING, 3e-3, 0, 12e-3, false, false);
    assertEquals(2 / 3.0 * (1 - inert), pure.account.oxygenFraction().value(), 2e-3);
    double before = pure.account.oxygenFraction().value();
    pure.tick(Window.EXCHANGING, -3e-3, 0, 0, false, true);
    assertEquals(before, pure.account.oxygenFraction().value(), 1e-9, "what leaves is mixed");
    pure.tick(Window.EXCHANGING, 6e-3, 0, 0, false, true);
    assertEquals(
        (before + GasMixture.AIR_OXYGEN) / 2,
        pure.account.oxygenFraction().value(),
        2e-3,
        "through an open vent comes air");
    double mixed = pure.account.oxygenFraction().value();
    pure.tick(Window.EXCHANGING, 0, 0, 12e-3 / 0.25, false, true);
    assertEquals(
        mixed * StrictMath.exp(-1), pure.account.oxygenFraction().value(), 2e-3, "a sweep");
  }

  @Test
  void aLeakBringsAirAndUptakeLeavesTheInertBehind() {
    GasByHand pure = GasByHand.filledWithOxygen(plan, 6e-3);
    double inert = (1 - pure.account.oxygenFraction().value()) * pure.gasMol;
    pure.leakMolPerS = 1e-6;
    pure.rest(100, 2e-5);
    double leaked = 100 * 1e-6 * (1 - GasMixture.AIR_OXYGEN);
    assertEquals(1 - (inert + leaked) / pure.gasMol, pure.account.oxygenFraction().value(), 1e-3);
  }

  /** In a pulse, what the solid takes up meanwhile came through the valve, too. */
  @Test
  void aPulseBringsItsInertShareEvenOfWhatIsTakenUpAtOnce() {
    GasByHand lean = GasByHand.filledWithOxygen(plan, 3e-3);
    lean.fromAir();
    lean.rest(60, 1e-5);
    double inert = (1 - lean.account.oxygenFraction().value()) * lean.gasMol;
    for (int i = 0; i < 8; i++) {
      lean.tick(Window.ADMITTING, 1e-4 - 1e-5 * 0.25, 4e-4, 0, false, false);
    }
    assertEquals(
        1 - (inert + 0.8 * 8e-4) / lean.gasMol, lean.account.oxygenFraction().value(), 1e-3);
  }

  @Test
  void uptakeInTheFirstSecondsCountsOnceTheRateIsKnown() {
    gas.noisePa = 0;
    gas.rest(20, 1e-6);
    assertEquals(20e-6, gas.account.uptakeMol(), 1e-8);
    Estimate total =
        new Estimate(gas.account.total().mol(), gas.account.total().standardUncertainty());
    assertEquals(gas.account.uptakeMol(), total.value(), 1e-12);
    assertTrue(total.standardUncertainty() > 0.05 * 4e-6);
  }

  /** A sample that stands 2 K above what its oven makes of it, counted for so long. */
  private HeatWatch heated(int seconds) {
    HeatBalance balance = HeatBalance.NONE;
    for (int i = 0; i < 1000 + seconds; i++) {
      balance = balance.step(i == 0 ? 300 : 302, 300, 300, 1, i < 1000, plan);
    }
    return new HeatWatch(302, 300, 300, 300, balance);
  }

  @Test
  void whatTheSolidTakesFromTheAirOfAnOpenVesselIsBookedByItsHeat() {
    gas.rest(60, 0);
    double before = gas.account.uptakeMol();
    HeatWatch opened = heated(0);
    HeatWatch closed = heated(40_000);
    gas.work.question =
        new OpenQuestion(1, OpenQuestion.Purpose.CLOSED_AGAIN, "closed?", List.of());
    gas.work.heat = opened;
    gas.tick(Window.EXCHANGING, 0, 0, 0, false, true);
    gas.work.heat = closed;
    gas.tick(Window.EXCHANGING, 0, 0, 0, false, true);
    HeatBalance from = opened.balance();
    HeatBalance to = closed.balance();
    Estimate a = to.molPerKelvinSecond(plan);
    OpenVessel vessel =
        OpenVessel.SHUT
            .step(true, from.integralKs(), from.integralUncertaintyKs(), a)
            .step(true, to.integralKs(), to.integralUncertaintyKs(), a);
    assertTrue(vessel.mol() > 1e-6, "there is something to book");
    assertEquals(before + vessel.mol(), gas.account.uptakeMol(), 1e-12);
    assertEquals(vessel.errorMol(), gas.account.total().errors()[GasModel.UNSEEN], 1e-9);
    assertEquals(List.of(), events(Event.Advisory.class), "not before it is shut");
    gas.work.question = null;
    gas.rest(1, 0);
    boolean clear = vessel.mol() > vessel.errorMol();
    assertEquals(
        clear ? List.of(new Event.Advisory(vessel.sentence())) : List.of(),
        events(Event.Advisory.class));
    assertEquals(before + vessel.mol(), gas.account.uptakeMol(), 1e-9, "it stays booked");
  }

  private GasView view(boolean pumping) {
    return new GasView(gas.pressurePa(), gas.heat, 10, 0, 0, 0, 0, pumping, false, 0.25);
  }

  @Test
  void whatWasCountedSinceTheLastSureMomentIsTakenBackInDoubt() {
    gas.rest(300, 1e-6);
    gas.pulse(2e-4, 2, 0);
    double sure = gas.account.uptakeMol();
    gas.account = gas.account.doubted(view(false), 1e-5, 0.03, gas.work);
    assertTrue(gas.account.isDoubted());
    assertEquals(300e-6, gas.account.uptakeMol(), 1e-7);
    assertEquals(300e-6, sure, 1e-7);
    assertEquals(2e-4, gas.account.admittedMol(), 1e-6, "the pulse was let in all the same");
    assertEquals(1, events(Event.Advisory.class).size());
    assertTrue(gas.account.total().errors()[GasModel.UNSEEN] > 0);
    double unseen = gas.account.total().errors()[GasModel.UNSEEN];
    for (int i = 0; i < 400; i++) {
      gas.account = gas.account.doubted(view(false), 1e-5, 0.03, gas.work);
    }
    assertEquals(1, events(Event.Advisory.class).size(), "told once");
    assertTrue(gas.account.total().errors()[GasModel.UNSEEN] > unseen, "the doubt grows");
    gas.rest(300, 1e-6);
    assertFalse(gas.account.isDoubted());
    assertEquals(600e-6, gas.account.uptakeMol(), 1e-6);
  }

  /** 8 of 28 pulses came after it; only their flow is as unsure as the valve. */
  @Test
  void sinceAnEarlierAccountOnlyTheFlowAfterItIsUnsure() {
    GasByHand fed = pulses(20, 1 / 1.08, 295);
    GasAccount then = fed.account;
    for (int i = 0; i < 8; i++) {
      fed.pulse(6e-5, 2, 1 / 1.08).rest(30, 0);
    }
    GasAccount.Change since = fed.account.since(then);
    double flow = 8 * 6e-5 / 1.08;
    double u = fed.account.valveFit().ratioUncertainty();
    assertEquals(u * flow, since.errors()[GasModel.VALVE], 0.05 * u * flow);
    double all = 28 * 6e-5 / 1.08;
    assertEquals(u * all, fed.account.total().errors()[GasModel.VALVE], 0.05 * u * all);
    assertEquals(0, since.mol(), 5e-6);
  }

  @Test
  void theZeroIsTakenOffEveryReadingAndPulsesAreToldAsTheGaugeShows() {
    gas.rest(60, 0);
    pumpedAt(falling(0, 70));
    GasView raw = new GasView(10_070, gas.heat, 10, 0, 0, 0, 0, false, false, 0.25);
    for (int i = 0; i < 200; i++) {
      gas.account = gas.account.step(Window.RESTING, raw, gas.work);
    }
    assertEquals(10_030 * PER_PA, gas.account.gasMol(), 1e-12);
    GasView after = new GasView(11_070, gas.heat, 10, 0, 0, 0, 0, false, false, 0.25);
    gas.account = gas.account.step(Window.ADMITTING, after, gas.work);
    for (int i = 0; i < 200; i++) {
      gas.account = gas.account.step(Window.RESTING, after, gas.work);
    }
    Event.PulseGiven pulse = events(Event.PulseGiven.class).get(0);
    assertEquals(10_070, pulse.beforePa(), 1e-6);
    assertEquals(11_070, pulse.afterPa(), 1e-6);
    assertEquals(1000 * PER_PA, pulse.admittedMol().value(), 1e-10);
  }

  /** Once the valve is known its own flow counts, of which 80 % stay as inert gas. */
  @Test
  void aKnownValvesPulsesBringTheInertShareOfTheirOwnFlow() {
    GasByHand lean = GasByHand.filledWithOxygen(plan, 3e-3);
    lean.fromAir();
    HeatBalance begun = HeatBalance.NONE.step(295, 295, 295, 0.25, true, plan);
    lean.work.heat = new HeatWatch(295, 295, 295, 295, begun);
    lean.rest(60, 0);
    double inert = (1 - lean.account.oxygenFraction().value()) * lean.gasMol;
    for (int i = 0; i < 40; i++) {
      lean.pulse(6e-5, 2, 1 / 1.05).rest(30, 0);
    }
    assertEquals(
        1 - (inert + 0.8 * 40 * 6e-5) / lean.gasMol, lean.account.oxygenFraction().value(), 0.01);
  }
}
