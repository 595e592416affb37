package tarnish.controller.app;

import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import tarnish.controller.control.OpenQuestion;
import tarnish.shared.rig.Rig;
import tarnish.sim.SimulatedRig;

/**
 * A simulated bench that is ticked as a real one, by the clock, and notes when. For figures of the
 * loop's punctuality.
 */
final class TimedBench implements BatchBench {
  private final SimulatedRig rig;
  private final long[] atNanos;
  private volatile int ticks;

  TimedBench(SimulatedRig rig, int ticksMax) {
    this.rig = rig;
    atNanos = new long[ticksMax];
  }

  /** Ticks so far. */
  int ticks() {
    return ticks;
  }

  /** Intervals between the ticks from one number to another, in ms, sorted. */
  double[] intervals(int from, int to) {
    double[] intervals = new double[Math.max(0, to - from - 1)];
    for (int i = 0; i < intervals.length; i++) {
      intervals[i] = (atNanos[from + i + 1] - atNanos[from + i]) / 1e6;
    }
    Arrays.sort(intervals);
    return intervals;
  }

  @Override
  public Rig rig() {
    return rig;
  }

  @Override
  public boolean isReal() {
    return true;
  }

  @Override
  public void pass(double seconds) {
    int now = ticks;
    if (now < atNanos.length) {
      atNanos[now] = System.nanoTime();
      ticks = now + 1;
    }
    rig.advance(seconds);
  }

  @Override
  public void answered(OpenQuestion question) {
    BenchHands.act(question, rig);
  }

  @Override
  public OptionalDouble weighKg() {
    return OptionalDouble.empty();
  }

  @Override
  public OptionalDouble trueOxygenPerUnit() {
    return OptionalDouble.empty();
  }

  @Override
  public List<String> unconfirmed() {
    return List.of();
  }
}
