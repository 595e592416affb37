package tarnish.shared.kinetics;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.kinetics.ArrheniusFit.Soak;

class ArrheniusFitTest {
  private static final double R = 8.31446261815324;
  private static final double EA = 111e3;
  private static final double LOG_A = 12;

  private static double rate(double temperatureK) {
    return Math.exp(LOG_A - EA / (R * temperatureK));
  }

  private static List<Soak> soaks(double relative, double kelvin, double drawn, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    List<Soak> soaks = new ArrayList<>();
    for (double temperatureK = 773; temperatureK < 1000; temperatureK += 40) {
      double log = relative * drawn * random.nextGaussian();
      double actualK = temperatureK + kelvin * random.nextGaussian();
      double rate = rate(actualK) * Math.exp(log);
      soaks.add(new Soak(temperatureK, kelvin, new Estimate(rate, relative * rate)));
    }
    return soaks;
  }

  @Test
  void ratesOnOneLineGiveTheActivationEnergyBack() {
    ArrheniusFit fit = ArrheniusFit.of(soaks(0.05, 0, 0, 1));
    assertEquals(EA, fit.activationEnergyJPerMol().value(), 1e-6 * EA);
    assertEquals(LOG_A, fit.logPreFactor().value(), 1e-6);
    assertEquals(0, fit.chiSquare(), 1e-9);
    assertTrue(fit.parameters().correlation(0, 1) > 0.99);
    double expected = rate(1100);
    assertEquals(expected, fit.rateAt(1100).value(), 1e-6 * expected);
  }

  @Test
  void aRateInTheMiddleIsKnownBetterThanItsParametersAlone() {
    ArrheniusFit fit = ArrheniusFit.of(soaks(0.05, 0, 0, 1));
    Estimate middle = fit.rateAt(860);
    assertTrue(middle.standardUncertainty() < 0.03 * middle.value());
    Estimate far = fit.rateAt(500);
    assertTrue(far.standardUncertainty() > 0.15 * far.value());
  }

  @Test
  void theIntervalOfTheActivationEnergyHoldsTheTruthAsOftenAsItSays() {
    int inside = 0;
    int rateInside = 0;
    int seeds = 1000;
    for (int seed = 0; seed < seeds; seed++) {
      ArrheniusFit fit = ArrheniusFit.of(soaks(0.04, 1.5, 1, seed));
      Estimate energy = fit.activationEnergyJPerMol();
      inside += Math.abs(energy.value() - EA) <= 1.96 * energy.standardUncertainty() ? 1 : 0;
      Estimate at = fit.rateAt(1000);
      rateInside += Math.abs(at.value() - rate(1000)) <= 1.96 * at.standardUncertainty() ? 1 : 0;
    }
    // Widening by scatter only ever adds, so somewhat more than 95 % is right.
    assertTrue(inside >= 930 && inside <= 990, "Ea inside " + inside + " of 1000 times");
    assertTrue(rateInside >= 930 && rateInside <= 990, "k inside " + rateInside);
  }

  @Test
  void scatterBeyondTheStatedUncertaintyWidensTheResult() {
    ArrheniusFit quiet = ArrheniusFit.of(soaks(0.02, 0, 1, 4));
    ArrheniusFit wild = ArrheniusFit.of(soaks(0.02, 0, 10, 4));
    assertTrue(wild.probability() < 1e-6);
    assertTrue(
        wild.activationEnergyJPerMol().standardUncertainty()
            > 3 * quiet.activationEnergyJPerMol().standardUncertainty());
  }

  @Test
  void oneTemperatureGivesNoActivationEnergy() {
    Soak soak = new Soak(800, 0, new Estimate(1e-5, 1e-6));
    assertThrows(IllegalArgumentException.class, () -> ArrheniusFit.of(List.of(soak)));
    assertThrows(IllegalArgumentException.class, () -> ArrheniusFit.of(List.of(soak, soak)));
    assertThrows(IllegalArgumentException.class, () -> new Soak(Double.NaN, 0, new Estimate(1, 1)));
    assertThrows(IllegalArgumentException.class, () -> new Soak(800, 0, Estimate.exact(1)));
  }

  // 10 h at 800 °C as hours at 900 °C, computed independently.
  @ParameterizedTest
  @CsvSource({"111, 3.46313", "120, 3.17781", "158, 2.21039", "200, 1.47984"})
  void tenHoursAtALowerTemperatureAreWorthFewerAtAHigherOne(double kilojoule, double hours) {
    double seconds =
        EquivalentTime.seconds(
            List.of(
                new EquivalentTime.Span(4 * 3600, 1073.15),
                new EquivalentTime.Span(6 * 3600, 1073.15)),
            1173.15,
            kilojoule * 1000);
    assertEquals(hours, seconds / 3600, 1e-5);
  }

  // Rate ratio of 560 °C to 550 °C, computed independently.
  @ParameterizedTest
  @CsvSource({"111, 1.21490", "120, 1.23423", "158, 1.31928"})
  void tenKelvinMakeAFifthToAThirdOfDifference(double kilojoule, double ratio) {
    double seconds =
        EquivalentTime.seconds(
            List.of(new EquivalentTime.Span(1, 833.15)), 823.15, kilojoule * 1000);
    assertEquals(ratio, seconds, 1e-5);
  }
}
