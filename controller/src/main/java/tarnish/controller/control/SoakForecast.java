package tarnish.controller.control;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.kinetics.Forecast;
import tarnish.shared.kinetics.Forecaster;
import tarnish.shared.kinetics.RateLaw;
import tarnish.shared.kinetics.UptakePoint;
import tarnish.shared.recipe.RepeatUntil;
import tarnish.shared.recipe.Step;

/**
 * When the present soak will have brought the wanted conversion, by the rate law that its own
 * uptake chooses. Takes milliseconds: for the page and the record, not for a tick.
 *
 * @param wanted conversion
 * @param soakS time in the band until now, in s
 * @param forecast times since the soak began
 */
public record SoakForecast(double wanted, double soakS, Forecast forecast) {
  /** What counts as done where the recipe asks for no conversion. */
  private static final double USUAL_WANTED = 0.99;

  /** No powder follows a law of the books better than this share of its uptake. */
  private static final double LAW_IS_ONLY_A_LAW = 0.01;

  /** Found by trials with simulated soaks. */
  private static final double DRAG = 0.3;

  private static final double ABRUPT_DRAG = 1.2;

  /** Power of the wanted conversion with which it drags: nothing at 0.7, most of it at 0.99. */
  private static final double LAST_GRAINS = 12;

  private static final int POOLS = 12;

  /** Conversions further off than this are no measurement. */
  private static final double SANE = 0.5;

  /** The forecast from a state; empty forecast with a reason outside a soak. */
  public static SoakForecast of(Plan plan, ControlState state) {
    double wanted = wanted(plan.recipe().steps()).orElse(USUAL_WANTED);
    UptakeLog log = state.log();
    if (!(state.run() instanceof SoakRun soaking) || log.position() != state.cursor().position()) {
      return new SoakForecast(wanted, 0, Forecast.noForecast("a forecast needs a soak under way"));
    }
    List<UptakePoint> points = pooled(points(plan, state, log));
    double perUnit = plan.recipe().target().oxygenPerUnit();
    double noise =
        2
            * StrictMath.sqrt(state.gas().stepVariance())
            * 2
            / (state.composition().amountMol() * perUnit);
    int n = points.size();
    double gained = n < 2 ? 0 : points.get(n - 1).conversion() - points.get(0).conversion();
    double allowed = StrictMath.hypot(noise, LAW_IS_ONLY_A_LAW * gained);
    OptionalDouble stated = allowed > 0 ? OptionalDouble.of(allowed) : OptionalDouble.empty();
    Forecast forecast = Forecaster.forecast(points, stated, wanted);
    double reached = n == 0 ? 0 : points.get(n - 1).conversion();
    return new SoakForecast(wanted, soaking.inBandS(), dragged(forecast, wanted, reached));
  }

  /**
   * The linear and the parabolic law end all at once; no powder does, for its largest grains are
   * the last. So the part that is still ahead takes longer than such a law says, the more so the
   * nearer the wanted conversion is to 1.
   */
  private static Forecast dragged(Forecast forecast, double wanted, double reached) {
    if (!(forecast instanceof Forecast.At at)) {
      return forecast;
    }
    boolean abrupt = at.law() == RateLaw.PARABOLIC || at.law() == RateLaw.LINEAR;
    double ahead = StrictMath.max(0, StrictMath.min(1, (wanted - reached) / wanted));
    double drag = (abrupt ? ABRUPT_DRAG : DRAG) * ahead * StrictMath.pow(wanted, LAST_GRAINS);
    double spread = DRAG * ahead;
    return new Forecast.At(
        at.law(),
        at.timeS() * (1 + drag),
        at.fromS() * (1 - spread),
        at.toS() * (1 + 2 * StrictMath.max(drag, spread)),
        at.confidence(),
        at.considered());
  }

  private static List<UptakePoint> points(Plan plan, ControlState state, UptakeLog log) {
    double perUnit = plan.recipe().target().oxygenPerUnit();
    double perMol = 2 / (state.composition().amountMol() * perUnit);
    Estimate now = state.composition().now(state.gas()).times(1 / perUnit);
    double nowMol = state.gas().uptakeMol();
    List<UptakePoint> points = new ArrayList<>();
    for (int i = 0; i < log.soakS().length; i++) {
      double conversion = now.value() - perMol * (nowMol - log.uptakeMol()[i]);
      if (conversion > -SANE && conversion < 1 + SANE) {
        points.add(new UptakePoint(log.soakS()[i], conversion));
      }
    }
    return points;
  }

  /**
   * Means of neighbours: a fit through a dozen good points says the same, and a law is not refused
   * for deviations that are too small to matter for a forecast.
   */
  private static List<UptakePoint> pooled(List<UptakePoint> points) {
    int each = (points.size() + POOLS - 1) / POOLS;
    if (each <= 1) {
      return points;
    }
    List<UptakePoint> pools = new ArrayList<>();
    for (int from = 0; from + each <= points.size(); from += each) {
      List<UptakePoint> pool = points.subList(from, from + each);
      pools.add(
          new UptakePoint(
              pool.stream().mapToDouble(UptakePoint::timeS).sum() / each,
              pool.stream().mapToDouble(UptakePoint::conversion).sum() / each));
    }
    return pools;
  }

  private static OptionalDouble wanted(List<Step> steps) {
    for (Step step : steps) {
      if (step instanceof Step.Repeat repeat) {
        if (repeat.until() instanceof RepeatUntil.ConversionAtLeast until) {
          return OptionalDouble.of(until.fraction());
        }
        OptionalDouble inner = wanted(repeat.steps());
        if (inner.isPresent()) {
          return inner;
        }
      }
    }
    return OptionalDouble.empty();
  }

  /** In a sentence for the page. */
  public String words() {
    String what = String.format(java.util.Locale.ROOT, "%.0f %%", 100 * wanted);
    if (forecast instanceof Forecast.At at) {
      return what
          + " in about "
          + about(at.timeS() - soakS)
          + " at this temperature ("
          + about(at.fromS() - soakS)
          + " to "
          + about(at.toS() - soakS)
          + ", "
          + at.law().words()
          + ")";
    }
    return "none for " + what + ": " + ((Forecast.None) forecast).reason();
  }

  /** No more digits than a forecast deserves: minutes below three hours, else half hours. */
  private static String about(double seconds) {
    double step = seconds < 3 * 3600 ? 300 : 1800;
    return Words.duration(StrictMath.max(0, StrictMath.rint(seconds / step) * step));
  }
}
