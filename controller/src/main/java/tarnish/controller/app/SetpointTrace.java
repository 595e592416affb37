package tarnish.controller.app;

import java.util.ArrayList;
import java.util.List;
import tarnish.controller.control.ControlState;
import tarnish.controller.service.Status;

/**
 * The corners of the setpoint that a batch really followed. Written by one thread, read by any.
 *
 * <p>A ramp is a straight line; only where its slope changes is a corner kept. NaN stands for
 * heater off.
 */
final class SetpointTrace {
  /** Slopes of one ramp differ by rounding only, in K. */
  private static final double SAME_SLOPE_K = 1e-6;

  private static final int CORNERS_MAX = 5_000;

  private final List<Status.CourseLine> corners = new ArrayList<>();
  private double lastS;
  private double lastK = Double.NaN;
  private double lastStepK;

  /** Takes the state after a tick. */
  void follow(ControlState state) {
    double nowS = state.lastMillis() / 1000.0;
    double nowK = state.setpointK() < 0 ? Double.NaN : state.setpointK();
    boolean off = Double.isNaN(nowK);
    if (off && Double.isNaN(lastK)) {
      lastS = nowS;
      return;
    }
    double stepK = off || Double.isNaN(lastK) ? Double.NaN : nowK - lastK;
    if (!(Math.abs(stepK - lastStepK) < SAME_SLOPE_K)) {
      if (!Double.isNaN(lastK)) {
        add(lastS, lastK);
      }
      if (off || Double.isNaN(lastK)) {
        add(nowS, nowK);
      }
    }
    lastS = nowS;
    lastK = nowK;
    lastStepK = Double.isNaN(stepK) ? 0 : stepK;
  }

  private synchronized void add(double atS, double setpointK) {
    if (corners.size() < CORNERS_MAX) {
      corners.add(new Status.CourseLine(atS, setpointK));
    }
  }

  /** The corners so far, and where the setpoint stands now. */
  synchronized List<Status.CourseLine> corners() {
    List<Status.CourseLine> all = new ArrayList<>(corners);
    if (!Double.isNaN(lastK)) {
      all.add(new Status.CourseLine(lastS, lastK));
    }
    return all;
  }
}
