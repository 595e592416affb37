package tarnish.shared.magnetism;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.magnetism.MagneticResult.SpinOnly;
import tarnish.shared.magnetism.MagneticWeighing.Filling;
import tarnish.shared.magnetism.MagneticWeighing.Reading;

class MagneticWeighingTest {
  private static final double CGS = Susceptibility.MOLAR_SI_PER_CGS;
  private static final Estimate ROOM = new Estimate(293.15, 0.5);

  /** A reading that the magnet raises by {@code pullMg}; invented. */
  private static Reading reading(double pullMg) {
    return new Reading(new Estimate(10e-3, 5e-8), new Estimate(10e-3 + pullMg * 1e-6, 5e-8));
  }

  private static Filling filling(double pullMg, double grams) {
    return new Filling(reading(pullMg), new Estimate(grams * 1e-3, 1e-7));
  }

  private static MagneticWeighing weighing(double samplePullMg, double sampleGrams) {
    // The empty holder is pushed out by 0.4 mg; the reference alone is drawn in by 20 mg.
    return new MagneticWeighing(
        filling(samplePullMg - 0.4, sampleGrams),
        filling(20 - 0.4, 0.5),
        reading(-0.4),
        ReferenceSubstance.MERCURY_COBALT_THIOCYANATE,
        0,
        0,
        ROOM);
  }

  @ParameterizedTest
  @CsvSource({
    "1, 1.7321",
    "2, 2.8284",
    "3, 3.8730",
    "4, 4.8990",
    "5, 5.9161",
    "6, 6.9282",
    "7, 7.9373"
  })
  void spinOnlyMomentsAreThoseOfTheTextbooks(int electrons, double moment) {
    assertEquals(moment, Susceptibility.spinOnly(electrons), 5e-5);
  }

  // CODATA constants give 2.82787 in cgs.
  @Test
  void momentIsTheTextbookFormula() {
    assertEquals(2.82787, Susceptibility.moment(CGS, 1), 5e-6);
    // O₂ gas, 3449E-6 cm³/mol at 293 K (CRC Handbook, from memory).
    assertEquals(2.843, Susceptibility.moment(3449e-6 * CGS, 293), 5e-4);
  }

  @Test
  void theReferenceWeighedAsSampleGivesItsOwnMoment() {
    // Molar mass 491.835 g/mol; diamagnetic correction 190E-6 cm³/mol (from memory).
    MagneticResult result =
        weighing(20, 0.5).evaluate(Estimate.exact(491.835e-3), Estimate.exact(-190e-6 * CGS));
    assertEquals(16.44, Susceptibility.massCgsMillionths(result.massM3PerKg()).value(), 1e-9);
    assertEquals(8085.77, Susceptibility.molarCgsMillionths(result.molarM3PerMol()).value(), 0.01);
    assertEquals(
        8275.77, Susceptibility.molarCgsMillionths(result.paramagneticM3PerMol()).value(), 0.01);
    // 4.4035 at 293 K; at 293.15 K 4.4046.
    assertEquals(4.4035 * Math.sqrt(293.15 / 293), result.moment().orElseThrow().value(), 1e-4);
    // Cobalt(II) keeps part of its orbital moment and lies well above three spins alone.
    SpinOnly nearest = result.nearestSpinOnly().orElseThrow();
    assertEquals(4, nearest.electrons());
    assertTrue(nearest.standardUncertaintiesAway() < -5);
  }

  @Test
  void oneUnpairedElectronIsRecognised() {
    // Invented: χ_M 1280E-6 + 23E-6 at 293.15 K is μ = 2.82787 √(1303E-6 × 293.15) = 1.7477.
    // Of a compound of 100 g/mol: χ_g 12.80E-6; with 0.4 g the pull is 20 × 12.80 × 0.4/(16.44 ×
    // 0.5).
    double pull = 20 * 12.80 * 0.4 / (16.44 * 0.5);
    MagneticResult result =
        weighing(pull, 0.4)
            .evaluate(Estimate.exact(0.1), DiamagneticIncrements.sum(Map.of("Cu2+", 1, "O2-", 1)));
    Estimate moment = result.moment().orElseThrow();
    assertEquals(1.7477, moment.value(), 5e-5);
    SpinOnly nearest = result.nearestSpinOnly().orElseThrow();
    assertEquals(1, nearest.electrons());
    // In % of μ²: reference 0.5, pulls 0.0707 mg of 12.46 mg 0.567, of 20 mg 0.354, of the holder
    // in
    // both 0.214, increments 10.2/1303 0.783; temperature all but cancels. √Σ² = 1.164, halved.
    assertEquals(0.01017, moment.standardUncertainty(), 0.0001);
    assertEquals(
        (1.7477 - 1.7321) / moment.standardUncertainty(),
        nearest.standardUncertaintiesAway(),
        0.02);
  }

  @Test
  void aDiamagneticProductHasNoMoment() {
    MagneticResult result =
        weighing(-0.5, 0.4).evaluate(Estimate.exact(0.1), Estimate.exact(-60e-6 * CGS));
    assertTrue(result.massM3PerKg().value() < 0);
    assertTrue(result.moment().isEmpty());
    assertTrue(result.nearestSpinOnly().isEmpty());
  }

  @Test
  void airAroundTheSampleIsCorrectedFor() {
    MagneticWeighing inAir =
        new MagneticWeighing(
            filling(2, 0.4),
            filling(20, 0.5),
            reading(0),
            ReferenceSubstance.MERCURY_COBALT_THIOCYANATE,
            0.3e-6,
            3.8e-7,
            ROOM);
    double chi = inAir.evaluate(Estimate.exact(0.1), Estimate.exact(0)).massM3PerKg().value();
    // By hand: χ_ref m_ref = 16.44E-6 × 4πE-3 × 0.5E-3 = 1.03295E-10 m³; κ V = 1.14E-13 m³.
    double gas = 3.8e-7 * 0.3e-6;
    double reference = 16.44e-6 * 4e-3 * Math.PI * 0.5e-3;
    assertEquals(((reference - gas) / 20 * 2 + gas) / 0.4e-3, chi, 1e-9 * chi);
    assertTrue(chi > reference / 20 * 2 / 0.4e-3);
  }

  @Test
  void theReferenceFollowsTheTemperature() {
    double warmer =
        Susceptibility.massCgsMillionths(ReferenceSubstance.MERCURY_COBALT_THIOCYANATE.at(294.15))
            .value();
    assertEquals(-0.05, warmer - 16.44, 0.005);
  }

  @Test
  void incrementsAddUpAndOxidesAreUncertainByTenUnits() {
    Estimate bariumOxide = DiamagneticIncrements.sum(Map.of("Ba2+", 1, "O2-", 1));
    Estimate cgs = Susceptibility.molarCgsMillionths(bariumOxide);
    assertEquals(-38.5, cgs.value(), 1e-9);
    assertEquals(10.2, cgs.standardUncertainty(), 0.05);
    // BaO measured -29.1 and BaO₂ -40.6 (CRC Handbook, from memory): within that uncertainty.
    assertEquals(-29.1, cgs.value(), 10.2);
    Estimate peroxide = DiamagneticIncrements.sum(Map.of("Ba2+", 1, "O2 2-", 1));
    assertEquals(-40.6, Susceptibility.molarCgsMillionths(peroxide).value(), 0.2);
    assertThrows(IllegalArgumentException.class, () -> DiamagneticIncrements.sum(Map.of("Xx+", 1)));
  }

  @Test
  void aReferenceThatTheMagnetDoesNotMoveIsRefused() {
    assertThrows(
        IllegalArgumentException.class,
        () ->
            new MagneticWeighing(
                filling(2, 0.4),
                filling(0.1, 0.5),
                reading(0),
                ReferenceSubstance.MERCURY_COBALT_THIOCYANATE,
                0,
                0,
                ROOM));
    assertThrows(IllegalArgumentException.class, () -> Susceptibility.moment(Double.NaN, 300));
  }
}
