package tarnish.shared.kinetics;

import java.util.List;
import java.util.OptionalDouble;
import tarnish.shared.estimate.Distributions;

/**
 * Forecasts the time to a conversion from the rate laws that the points allow.
 *
 * <pre>
 *   t = (g(α) - g(α₀)) / k
 *   ∂ln t/∂k = -1/k     ∂ln t/∂α₀ = -1 / (f(α₀) (g(α) - g(α₀)))
 * </pre>
 *
 * The interval of one law is t exp(± k_p u(ln t)), with Student's t for the degrees of freedom of
 * the fit: a time is positive and its error is one of ratio. The interval given spans those of all
 * laws that the points cannot rule out, so that not knowing the law counts too.
 */
public final class Forecaster {
  public static final double CONFIDENCE = 0.90;

  /**
   * Level for each law by itself. The same points choose the laws and set their constants, which
   * costs up to 5 % of coverage where laws are hard to tell apart (found by trials with invented
   * soaks); this makes up for it.
   */
  private static final double CONFIDENCE_OF_ONE_LAW = 0.95;

  /** Above this relative uncertainty of a time an interval would only feign knowledge. */
  private static final double VAGUE_FROM = 0.7;

  private Forecaster() {}

  /**
   * Forecasts from the points of one soak.
   *
   * @param points see {@link KineticFit#of}
   * @param noise standard uncertainty of one conversion, if known
   * @param wanted conversion, above 0 and at most 1
   */
  public static Forecast forecast(List<UptakePoint> points, OptionalDouble noise, double wanted) {
    if (!(wanted > 0 && wanted <= 1)) {
      throw new IllegalArgumentException(
          "a wanted conversion lies above 0 and at most at 1, got " + wanted);
    }
    if (points.size() < KineticFit.FEWEST_POINTS) {
      return Forecast.noForecast(
          "only %d points so far; at least %d are needed"
              .formatted(points.size(), KineticFit.FEWEST_POINTS));
    }
    LawChoice choice = LawChoice.of(points, noise);
    if (choice.ranked().isEmpty()) {
      return Forecast.noForecast("the points determine no rate law");
    }
    if (choice.best().isEmpty()) {
      return Forecast.noForecast(
          "no rate law describes the points; with %s, the closest, %s"
              .formatted(
                  choice.ranked().get(0).law().words(), choice.ranked().get(0).goodness().words()));
    }
    return forecast(choice, points.get(points.size() - 1).timeS(), wanted);
  }

  private static Forecast forecast(LawChoice choice, double nowS, double wanted) {
    KineticFit best = choice.best().get();
    if (!(best.rate().value() > 0)) {
      return Forecast.noForecast("nothing is taken up");
    }
    if (best.conversionAt(nowS) >= wanted) {
      return Forecast.noForecast("the wanted conversion is reached already");
    }
    if (Double.isInfinite(best.law().integral(wanted))) {
      return Forecast.noForecast(
          "by the law that fits, %s, conversion never becomes quite complete; ask for less than all"
              .formatted(best.law().words()));
    }
    double fromS = Double.POSITIVE_INFINITY;
    double toS = 0;
    for (KineticFit fit : choice.plausible()) {
      double deviation = relativeDeviation(fit, wanted);
      if (!(deviation < VAGUE_FROM)) {
        return Forecast.noForecast(
            "the points do not tell the rate well enough yet; wait for more uptake");
      }
      double time = timeS(fit, wanted);
      double factor =
          StrictMath.exp(
              Distributions.coverageFactor(CONFIDENCE_OF_ONE_LAW, fit.degreesOfFreedom())
                  * deviation);
      fromS = StrictMath.min(fromS, time / factor);
      toS = StrictMath.max(toS, time * factor);
    }
    if (Double.isInfinite(toS)) {
      return Forecast.noForecast(
          "a law that cannot be ruled out never reaches this conversion; ask for a little less");
    }
    List<RateLaw> laws = choice.plausible().stream().map(KineticFit::law).distinct().toList();
    return new Forecast.At(
        best.law(), timeS(best, wanted), StrictMath.max(nowS, fromS), toS, CONFIDENCE, laws);
  }

  private static double timeS(KineticFit fit, double wanted) {
    double start = fit.law().integral(fit.startConversion().value());
    return (fit.law().integral(wanted) - start) / fit.rate().value();
  }

  private static double relativeDeviation(KineticFit fit, double wanted) {
    double start = fit.startConversion().value();
    double toGo = fit.law().integral(wanted) - fit.law().integral(start);
    double byRate = -1 / fit.rate().value();
    double byStart = -1 / (fit.law().slope(start) * toGo);
    double rate = byRate * fit.rate().standardUncertainty();
    double offset = byStart * fit.startConversion().standardUncertainty();
    double both = 2 * byRate * byStart * fit.rateStartCovariance();
    return StrictMath.sqrt(StrictMath.max(0, rate * rate + offset * offset + both));
  }
}
