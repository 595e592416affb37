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

/**
 * What the account falls back on when a doubt begins right after a valve, a vessel or a source was
 * changed, what pulses hours apart say of each other, and when a recount is told.
 *
 * <p>A vessel at rest is sure every half minute, so that after 315 s of 1 umol/s the last sure
 * moment is 300 s old: whoever falls back on that has lost 15 umol.
 */
class GasAccountEntriesTest {
  private static final double CAPACITY_MOL = 0.03;

  /** What the filters of the gauge lag behind and noise makes of it. */
  private static final double NEAR_MOL = 1e-6;

  private final Plan plan =
      Plan.of(TestSteps.recipe(TestSteps.soak(295, 1e6, 5)), new TestRig().build());
  private final GasByHand gas = new GasByHand(plan, 6e-3);

  private List<String> advisories(GasByHand of) {
    return of.work.events().stream()
        .filter(Event.Advisory.class::isInstance)
        .map(event -> ((Event.Advisory) event).sentence())
        .toList();
  }

  private GasView view(boolean pumping) {
    return new GasView(gas.pressurePa(), gas.heat, 10, 0, 0, 0, 0, pumping, false, 0.25);
  }

  private void doubted(int ticks) {
    for (int i = 0; i < ticks; i++) {
      gas.account = gas.account.doubted(view(false), 1e-3, CAPACITY_MOL, gas.work);
    }
  }

  @Test
  void atRestUpToHalfAMinuteIsTakenBackInDoubt() {
    gas.rest(315, 1e-6);
    assertEquals(315e-6, gas.account.uptakeMol(), NEAR_MOL);
    doubted(1);
    assertEquals(300e-6, gas.account.uptakeMol(), NEAR_MOL);
    assertTrue(advisories(gas).get(0).contains("What was counted in the last 15 s is taken back"));
  }

  @Test
  void whatWasCountedUntilAnotherValveOpenedIsSure() {
    gas.rest(315, 1e-6);
    gas.tick(Window.EXCHANGING, -1e-3, 0, 0, true, false);
    doubted(1);
    assertEquals(315e-6, gas.account.uptakeMol(), NEAR_MOL);
    assertFalse(advisories(gas).get(0).contains("is taken back"), advisories(gas)::toString);
  }

  @Test
  void whatWasCountedUntilAPulseBeganIsSure() {
    gas.rest(315, 1e-6);
    gas.tick(Window.ADMITTING, 1e-4, 0, 0, false, false);
    doubted(1);
    assertEquals(315e-6, gas.account.uptakeMol(), NEAR_MOL);
  }

  @Test
  void whatWasCountedInTheVesselBeforeIsSure() {
    gas.rest(315, 1e-6);
    GasModel other = gas.account.model().withVolume(new TwoZoneVolume(2e-4, 1e-4), 1e-6, 1e-6);
    gas.account = gas.account.inVessel(other);
    doubted(1);
    assertEquals(315e-6, gas.account.uptakeMol(), NEAR_MOL);
  }

  @Test
  void whatWasCountedFromTheSourceBeforeIsSureWithWhatItsValveHid() {
    GasByHand fed = cold();
    for (int i = 0; i < 17; i++) {
      fed.pulse(6e-5, 2, i < 16 ? 1 : 1 / 0.8).rest(30, 0);
    }
    double before = fed.account.uptakeMol();
    assertTrue(before - fed.account.seenUptakeMol() > 1e-5, "the valve hid something");
    GasSource now = fed.account.source();
    GasSource other =
        new GasSource("other", 0.93, 0.01, 140_000, now.sonicConductance(), now.criticalRatio());
    fed.account = fed.account.withSource(other, HeatBalance.NONE);
    GasView view = new GasView(fed.pressurePa(), fed.heat, 10, 0, 0, 0, 0, false, false, 0.25);
    fed.account = fed.account.doubted(view, 1e-3, CAPACITY_MOL, fed.work);
    assertEquals(before, fed.account.uptakeMol(), 1e-9);
  }

  /** Three times 1 umol/s at the pressure then, a uniform distribution: 3/√3 umol a second. */
  private double growth(double pressureTimes) {
    return 3e-6 * pressureTimes / StrictMath.sqrt(3) * 100;
  }

  private double grownIn100S() {
    double from = gas.account.total().errors()[GasModel.UNSEEN];
    doubted(400);
    return gas.account.total().errors()[GasModel.UNSEEN] - from;
  }

  @Test
  void howMuchMayGoUnseenComesFromTheRateAtTheLastSureMoment() {
    gas.rest(300, 1e-6);
    doubted(1);
    assertEquals(growth(1), grownIn100S(), 0.02 * growth(1));
    gas.gasMol *= 2;
    assertEquals(growth(2), grownIn100S(), 0.02 * growth(2), "twice the gas on the same solid");
  }

  @Test
  void aDoubtThatIsOverLeavesASureMomentAtItsOwnPressure() {
    gas.rest(300, 1e-6);
    doubted(1);
    gas.gasMol *= 2;
    doubted(4);
    gas.rest(0.25, 0);
    assertFalse(gas.account.isDoubted());
    doubted(1);
    assertEquals(growth(1), grownIn100S(), 0.02 * growth(1), "its rate was that of before");
  }

  @Test
  void inAnotherVesselOrFromAnotherSourceTheRateBeforeStillBounds() {
    gas.rest(300, 1e-6);
    GasAccount before = gas.account;
    gas.account = before.inVessel(before.model());
    doubted(1);
    assertEquals(growth(1), grownIn100S(), 0.02 * growth(1));
    gas.account = before.withSource(before.source(), HeatBalance.NONE);
    doubted(1);
    assertEquals(growth(1), grownIn100S(), 0.02 * growth(1));
  }

  /** In doubt 3 mmol come into 3 mmol of oxygen, with a flow by the rig file and a vent or none. */
  private Estimate mixedInDoubt(double inertMolPerS, boolean venting) {
    GasByHand fed = GasByHand.filledWithOxygen(plan, 3e-3).rest(60, 0);
    for (int i = 0; i < 2; i++) {
      GasView view =
          new GasView(
              fed.pressurePa(),
              fed.heat,
              10,
              0,
              0,
              0,
              i * inertMolPerS,
              false,
              i > 0 && venting,
              0.25);
      fed.account = fed.account.doubted(view, 1e-3, CAPACITY_MOL, fed.work);
      fed.gasMol = 6e-3;
    }
    return fed.account.oxygenFraction();
  }

  @Test
  void whatComesThroughAnotherValveInDoubtIsKnown() {
    assertEquals(0.5, mixedInDoubt(12e-3, false).value(), 0.01, "inert gas");
    double air = mixedInDoubt(0, true).value();
    assertEquals((1 + GasMixture.AIR_OXYGEN) / 2, air, 0.01, "air, by the vent");
    double known = mixedInDoubt(0, true).standardUncertainty();
    assertTrue(known < 0.05, "u is " + known);
    assertTrue(mixedInDoubt(0, false).standardUncertainty() > 0.1, "nobody knows what it is");
  }

  /** Oxygen, and a heat balance that has begun and shows nothing. */
  private GasByHand cold() {
    GasByHand fed = GasByHand.filledWithOxygen(plan, 3e-3);
    HeatBalance begun = HeatBalance.NONE.step(295, 295, 295, 0.25, true, plan);
    fed.work.heat = new HeatWatch(295, 295, 295, 295, begun);
    return fed.rest(60, 0);
  }

  /** Four good pulses, a rest in which 14 umol go without heat, and one pulse more. */
  private static GasByHand apart(GasByHand fed, double seconds) {
    for (int i = 0; i < 4; i++) {
      fed.pulse(6e-5, 2, 1).rest(30, 0);
    }
    return fed.rest(seconds - 30, 2e-9).pulse(6e-5, 2, 1).rest(30, 0);
  }

  /** The time at rest counts from 1.5 s after the valve shut. */
  @Test
  void pulsesMoreThanTwoHoursApartSayNothingOfEachOther() {
    GasByHand near = apart(cold(), 7201.5);
    assertTrue(near.account.valveRatio() < 0.99, "14 umol that are not in the heat");
    GasByHand far = apart(cold(), 7201.75);
    assertEquals(1, far.account.valveRatio(), 0.005);
    assertEquals(14e-6, far.account.seenUptakeMol(), 1e-6, "they are counted all the same");
  }

  private static double hidden(GasByHand of) {
    return of.account.uptakeMol() - of.account.seenUptakeMol();
  }

  private GasByHand good(int pulses, double mol) {
    GasByHand fed = cold();
    for (int i = 0; i < pulses; i++) {
      fed.pulse(mol, 2, 1).rest(30, 0);
    }
    return fed;
  }

  /** 75 umol were to come and 60 did: some 15 umol went unseen, less what the valve now is. */
  @Test
  void aRecountIsToldOnceTheValveIsKnown() {
    GasByHand known = good(16, 6e-5);
    double before = hidden(known);
    known.pulse(6e-5, 2, 1 / 0.8).rest(30, 0);
    double more = hidden(known) - before;
    assertEquals(13.7e-6, more, 0.1e-6);
    double u = known.account.total().errors()[GasModel.VALVE];
    assertEquals(
        List.of(
            "What the oxygen valve passes is known better now: uptake that earlier pulses hid is"
                + " counted anew, a change of "
                + Words.amount(new Estimate(more, u))
                + "."),
        advisories(known));
  }

  /** One pulse in a block of its own, hours after the others. */
  @Test
  void beforeTheSixteenthPulseARecountIsNotTold() {
    GasByHand unknown = good(8, 6e-5).rest(7202, 0);
    double before = hidden(unknown);
    unknown.pulse(6e-5, 2, 1 / 0.8).rest(30, 0);
    assertTrue(hidden(unknown) - before > 5e-6, hidden(unknown) - before + " mol");
    assertEquals(List.of(), advisories(unknown));
  }

  @Test
  void aRecountThatTakesUptakeBackIsToldToo() {
    GasByHand other = good(16, 6e-5);
    double before = hidden(other);
    other.pulse(6e-5, 2, 1 / 1.3).rest(30, 0);
    assertTrue(hidden(other) - before < -5e-6);
    assertEquals(1, advisories(other).size());
  }

  @Test
  void aRecountWithinFiveMicromolOrItsUncertaintyIsNotWorthAWord() {
    GasByHand little = good(16, 6e-5);
    double before = hidden(little);
    little.pulse(6e-5, 2, 1 / 0.93).rest(30, 0);
    double more = hidden(little) - before;
    double u = little.account.total().errors()[GasModel.VALVE];
    assertTrue(more > u && more < 5e-6, more + " mol");
    assertEquals(List.of(), advisories(little));
    GasByHand unsure = good(16, 6e-4);
    before = hidden(unsure);
    unsure.pulse(6e-4, 2, 1 / 0.975).rest(30, 0);
    more = hidden(unsure) - before;
    u = unsure.account.total().errors()[GasModel.VALVE];
    assertTrue(more < u && more > 5e-6, more + " mol of " + u);
    assertEquals(List.of(), advisories(unsure));
  }
}
