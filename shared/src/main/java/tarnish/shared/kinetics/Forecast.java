package tarnish.shared.kinetics;

import java.util.List;

/** When a conversion will be reached, if the soak goes on as it is. */
public sealed interface Forecast {

  /**
   * A time with its interval, all in s since the soak began.
   *
   * @param law the most likely law
   * @param timeS by that law
   * @param fromS early end of the interval
   * @param toS late end
   * @param confidence level of the interval, which spans those of all laws considered
   * @param considered laws that the points cannot rule out
   */
  record At(
      RateLaw law,
      double timeS,
      double fromS,
      double toS,
      double confidence,
      List<RateLaw> considered)
      implements Forecast {
    public At {
      considered = List.copyOf(considered);
    }
  }

  /** No forecast can be given; the reason is for the chemist. */
  record None(String reason) implements Forecast {}

  static Forecast noForecast(String reason) {
    return new None(reason);
  }
}
