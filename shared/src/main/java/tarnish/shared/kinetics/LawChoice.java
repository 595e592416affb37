package tarnish.shared.kinetics;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * All rate laws fitted to one soak, the most likely first.
 *
 * @param ranked every fit that could be made, in rising order of Akaike's criterion
 */
public record LawChoice(List<KineticFit> ranked) {
  /**
   * Laws whose criterion lies at most this far above the best cannot be ruled out (evidence ratio
   * e³ = 20; Burnham and Anderson 2002 put little support from 4 to 7, from memory).
   */
  public static final double NOT_RULED_OUT = 6;

  public LawChoice {
    ranked = List.copyOf(ranked);
  }

  /** Fits every law, each from bare solid and from a fitted start; see {@link KineticFit#of}. */
  public static LawChoice of(List<UptakePoint> points, OptionalDouble noise) {
    List<KineticFit> fits = new ArrayList<>();
    for (RateLaw law : RateLaw.values()) {
      for (Start start : Start.values()) {
        KineticFit.attempt(law, points, start, noise).ifPresent(fits::add);
      }
    }
    fits.sort(Comparator.comparingDouble(KineticFit::criterion));
    return new LawChoice(fits);
  }

  /** The most likely law that describes the points; empty if none does. */
  public Optional<KineticFit> best() {
    return ranked.stream().filter(fit -> fit.goodness().fits()).findFirst();
  }

  /** The best law and those that the points cannot rule out against it. */
  public List<KineticFit> plausible() {
    return best()
        .map(
            best ->
                ranked.stream()
                    .filter(fit -> fit.goodness().fits())
                    .filter(fit -> fit.criterion() <= best.criterion() + NOT_RULED_OUT)
                    .toList())
        .orElse(List.of());
  }
}
