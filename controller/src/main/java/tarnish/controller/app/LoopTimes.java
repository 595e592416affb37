package tarnish.controller.app;

import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tarnish.controller.service.Status;

/** How long ticks take. Touched by the loop thread only. */
final class LoopTimes {
  private static final Logger LOG = LoggerFactory.getLogger(LoopTimes.class);

  private final long periodMillis;
  private long ticks;
  private long overruns;
  private double worstMillis;

  LoopTimes(long periodMillis) {
    this.periodMillis = periodMillis;
  }

  void note(double millis) {
    ticks++;
    if (ticks == 1) {
      ProcessAge.millis()
          .ifPresent(age -> LOG.info("First tick {} ms after the process began.", age));
    }
    worstMillis = Math.max(worstMillis, millis);
    if (millis > periodMillis) {
      overruns++;
    }
  }

  Status.LoopLine line() {
    return new Status.LoopLine(ticks, overruns, worstMillis, periodMillis);
  }
}
