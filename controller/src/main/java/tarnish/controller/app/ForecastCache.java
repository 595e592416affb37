package tarnish.controller.app;

import tarnish.controller.control.ControlState;
import tarnish.controller.control.Plan;
import tarnish.controller.control.SoakForecast;

/** Remembers the last forecast: a fit is far dearer than a look, and its points come minutely. */
final class ForecastCache {
  private static final long FRESH_MILLIS = 60_000;

  private Plan plan;
  private long madeAt;
  private String words = "";

  String words(Plan now, ControlState state) {
    boolean fresh =
        now == plan && state.lastMillis() >= madeAt && state.lastMillis() - madeAt < FRESH_MILLIS;
    if (!fresh) {
      plan = now;
      madeAt = state.lastMillis();
      words = SoakForecast.of(now, state).words();
    }
    return words;
  }
}
