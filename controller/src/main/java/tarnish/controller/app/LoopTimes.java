package tarnish.controller.app;

import tarnish.controller.service.Status;

/** How long ticks take. Touched by the loop thread only. */
final class LoopTimes {
  private final long periodMillis;
  private long ticks;
  private long overruns;
  private double worstMillis;

  LoopTimes(long periodMillis) {
    this.periodMillis = periodMillis;
  }

  void note(double millis) {
    ticks++;
    worstMillis = Math.max(worstMillis, millis);
    if (millis > periodMillis) {
      overruns++;
    }
  }

  Status.LoopLine line() {
    return new Status.LoopLine(ticks, overruns, worstMillis, periodMillis);
  }
}
