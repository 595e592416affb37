package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.reading.Channel;

/** Gas that comes past the valves is no uptake, and says nothing about uptake. */
class GasDoubtTest {
  /** One mbar in the test vessel, cold, in mol. */
  private static final double MOL_PER_PA =
      1 / new TwoZoneVolume(TestRig.HOT_M3, TestRig.COLD_M3).pressurePa(1, 295, 295);

  private final ControlBench bench =
      ControlBench.seeing(new TestRig().build(), TestSteps.soak(295, 1e5, 3));
  private double pressurePa = 50_000;

  @BeforeEach
  void atRest() {
    bench.pressurePa(pressurePa).start();
    change(120, -1);
  }

  private void change(double seconds, double paPerS) {
    for (int i = 0; i < StrictMath.round(seconds / ControlBench.TICK_S); i++) {
      pressurePa += paPerS * ControlBench.TICK_S;
      bench.set(Channel.VESSEL_PRESSURE_PAIR, pressurePa).pressurePa(pressurePa).tick();
    }
  }

  private double uptakeMol() {
    return bench.state.gas().uptakeMol();
  }

  private double uncertaintyMol() {
    return bench.state.gas().total().standardUncertainty();
  }

  @Test
  void uptakeAtRestIsCountedAndSure() {
    assertEquals(120 * MOL_PER_PA, uptakeMol(), 5 * MOL_PER_PA);
    assertFalse(bench.state.gas().isDoubted());
  }

  @Test
  void gasThatComesInIsNotBookedAsOxygenGivenBack() {
    double before = uptakeMol();
    change(30, 500);
    assertTrue(bench.state.gas().isDoubted());
    // From the last sure moment on nothing counts, which is at most half a minute of uptake.
    assertEquals(before, uptakeMol(), 40 * MOL_PER_PA);
  }

  @Test
  void untilTheTripIsResetNothingIsCountedAndTheUncertaintyGrows() {
    change(30, 500);
    double uptake = uptakeMol();
    double early = uncertaintyMol();
    change(600, -3);
    assertEquals(uptake, uptakeMol());
    double late = uncertaintyMol();
    // The solid took 1 Pa/s; it may have taken three times that unseen, which is u = 3/√3 Pa/s.
    assertTrue(late - early > 600 * MOL_PER_PA, "u grew by " + (late - early) / MOL_PER_PA + " Pa");
    assertTrue(late - early < 3000 * MOL_PER_PA);
  }

  @Test
  void whatIsNotKnownIsNeverMoreThanTheChargeCanTakeUp() {
    change(30, 500);
    change(200_000, 0);
    double capacityMol = 4e-3 / 0.063546 / 2;
    assertTrue(uncertaintyMol() <= capacityMol * 1.01);
  }

  @Test
  void afterTheResetItIsCountedAgainFromWhereItStood() {
    change(30, 500);
    double before = uptakeMol();
    change(400, 0);
    bench.tick(new Request.Acknowledge(ControlBench.PERSON, "gas comes in"));
    bench.tick(new Request.Reset(ControlBench.PERSON, "gas comes in", "valve changed"));
    assertEquals(AlarmState.NORMAL, bench.alarm("gas comes in"));
    double u = uncertaintyMol();
    change(300, -2);
    assertEquals(before + 600 * MOL_PER_PA, uptakeMol(), 20 * MOL_PER_PA);
    assertTrue(uncertaintyMol() >= u - 1e-9, "what was lost to doubt does not come back");
  }

  @Test
  void theTakingBackIsOneEntryThatSaysSo() {
    change(30, 500);
    long told =
        bench.events(Event.Advisory.class).stream()
            .filter(each -> each.sentence().contains("Gas comes or goes past the valves"))
            .count();
    assertEquals(1, told);
  }

  @Test
  void gasOfUnknownSourceMakesTheMixtureUnsure() {
    double before = bench.state.gas().oxygenFraction().standardUncertainty();
    change(60, 500);
    double after = bench.state.gas().oxygenFraction().standardUncertainty();
    assertTrue(after >= before && after > 0.05, "u of the oxygen fraction is " + after);
  }

  @Test
  void anEmptyVesselMayHaveTakenAllThatAnOpenValvePasses() {
    ControlBench empty = ControlBench.seeing(new TestRig().build(), TestSteps.soak(295, 1e5, 3));
    empty.set(Channel.VESSEL_PRESSURE_PAIR, 100).pressurePa(100).start();
    empty.forSeconds(60);
    double pressure = 100;
    for (int i = 0; i < 400; i++) {
      pressure += 50;
      empty.set(Channel.VESSEL_PRESSURE_PAIR, pressure).pressurePa(pressure).tick();
    }
    // C p of the oxygen valve is 2.2e-11 m³/(s Pa) x 150 kPa x density: some 0.13 mmol/s.
    double u = empty.state.gas().total().standardUncertainty();
    assertTrue(u > 60 * 1e-4 / StrictMath.sqrt(3), "u is " + u);
  }

  @Test
  void aLostReadingEndsNoDoubt() {
    change(30, 500);
    bench.bad(Channel.VESSEL_PRESSURE);
    bench.forSeconds(60);
    bench.pressurePa(pressurePa).forSeconds(5);
    assertTrue(bench.state.gas().isDoubted());
  }

  /** Noise of 1 mol, three of which in a minute are 0.05 mol/s. */
  @Test
  void aMomentIsSureAfterHalfAMinuteUnlessMoreGasComesInThanNoiseExplains() {
    assertFalse(GasDoubt.isSure(29.9, 0, 1));
    assertTrue(GasDoubt.isSure(30, 0, 1));
    assertTrue(GasDoubt.isSure(30, -0.0499, 1));
    assertFalse(GasDoubt.isSure(30, -0.05, 1));
    assertTrue(GasDoubt.isSure(30, -0.0999, 4), "twice the noise");
    assertFalse(GasDoubt.isSure(30, -0.1001, 4));
  }

  private static GasDoubt sureAt(double molPerS, double pressurePa) {
    double[] errors = new double[GasModel.ERRORS];
    return new GasDoubt(0, errors, molPerS, pressurePa, true, 0, GasMixture.UNKNOWN, 0);
  }

  /** Uniform between nothing and the bound, about nothing: bound/√3 (JCGM 100:2008, 4.3.7). */
  @Test
  void aMeasuredRateBoundsWhatTheSolidMayTakeUpUnseen() {
    double root = StrictMath.sqrt(3);
    GasDoubt sure = sureAt(2e-6, 10_000);
    assertEquals(3 * 2e-6 * 100 / root, sure.longer(100, 1, 5_000, 1).errorMol(), 1e-15);
    assertEquals(
        2 * 3 * 2e-6 * 100 / root,
        sure.longer(100, 1, 20_000, 1).errorMol(),
        1e-15,
        "twice the pressure, twice the rate");
    assertEquals(
        1e-6 * 100 / root, sure.longer(100, 1e-6, 20_000, 1).errorMol(), 1e-15, "no more gas");
    assertEquals(1e-5, sure.longer(100, 1, 20_000, 1e-5).errorMol(), "no more than the charge");
  }

  @Test
  void aRateThatWasMeasuredAtTenMillibarOrLessBoundsNothing() {
    double root = StrictMath.sqrt(3);
    assertEquals(1e-3 / root, sureAt(2e-6, 1000).longer(1, 1e-3, 1000, 1).errorMol(), 1e-15);
    assertEquals(6e-6 / root, sureAt(2e-6, 1001).longer(1, 1e-3, 1000, 1).errorMol(), 1e-15);
  }

  @Test
  void aRateTooSmallToSeeCountsAsWhatNoiseMayHide() {
    double[] errors = new double[GasModel.ERRORS];
    assertEquals(0.05, GasDoubt.NONE.sure(0, errors, 0.01, 1000, 1).sureMolPerS(), 1e-15);
    assertEquals(0.2, GasDoubt.NONE.sure(0, errors, -0.2, 1000, 1).sureMolPerS(), 1e-15);
  }

  @Test
  void whenItIsOverWhatWasLostToDoubtStaysAndWhatIsOverCannotEndAgain() {
    GasDoubt over = sureAt(2e-6, 10_000).longer(100, 1, 5_000, 1).over();
    assertFalse(over.holds());
    assertTrue(over.errorMol() > 0);
    assertSame(over, over.over());
  }

  @Test
  void onlyWhatCameInSinceItBeganIsTakenForAir() {
    GasDoubt from = GasDoubt.NONE.begun(0.01, new GasMixture(0.001, 0, 0));
    GasMixture more = from.mixture(0.012, 1e-6);
    assertEquals(0.001 + 0.002 * (1 - GasMixture.AIR_OXYGEN), more.inertMol(), 1e-12);
    assertEquals(0.002 * (1 - GasMixture.AIR_OXYGEN), StrictMath.sqrt(more.variance()), 1e-12);
    assertEquals(0.0005, from.mixture(0.005, 1e-6).inertMol(), 1e-12, "half of it went");
  }

  @Test
  void theEntrySaysWhatIsTakenBackAndForHowLongAndNothingWhereNothingIs() {
    String taken = GasDoubt.sentence(-2e-3, 20);
    assertTrue(taken.contains("in the last 20 s is taken back: (2.00 ± 0.20) mmol"), taken);
    assertFalse(GasDoubt.sentence(0, 20).contains("taken back"));
  }
}
