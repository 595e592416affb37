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
  /** Slopes of one ramp differ by rounding only, in K/s. */
  private static final double SAME_SLOPE_K_PER_S = 4e-6;

  /** How far a rounded corner may leave the straight line before it gets a corner, in K. */
  private static final double STRAIGHT_K = 0.1;

  private static final int CORNERS_MAX = 5_000;

  private final List<Status.CourseLine> corners = new ArrayList<>();
  private double lastS;
  private double lastK = Double.NaN;
  private double cornerS;
  private double cornerK = Double.NaN;
  private double slopeKPerS = Double.NaN;

  /** Takes the state after a tick. */
  void follow(ControlState state) {
    double nowS = state.lastMillis() / 1000.0;
    double nowK = state.setpointK() < 0 ? Double.NaN : state.setpointK();
    boolean off = Double.isNaN(nowK);
    if (off && Double.isNaN(lastK)) {
      lastS = nowS;
      return;
    }
    if (off || Double.isNaN(lastK)) {
      if (!Double.isNaN(lastK)) {
        add(lastS, lastK);
      }
      add(nowS, nowK);
      cornerS = nowS;
      cornerK = nowK;
      slopeKPerS = Double.NaN;
    } else {
      turn(nowS, nowK);
    }
    lastS = nowS;
    lastK = nowK;
  }

  /** A corner stands where a straight line from the corner before it no longer does. */
  private void turn(double nowS, double nowK) {
    double stepKPerS = (nowK - lastK) / (nowS - lastS);
    if (Double.isNaN(slopeKPerS)) {
      slopeKPerS = stepKPerS;
      return;
    }
    boolean straight = Math.abs(stepKPerS - slopeKPerS) < SAME_SLOPE_K_PER_S;
    double leftK = Math.abs(cornerK + slopeKPerS * (nowS - cornerS) - nowK);
    if (straight || leftK <= STRAIGHT_K) {
      return;
    }
    add(lastS, lastK);
    cornerS = lastS;
    cornerK = lastK;
    slopeKPerS = stepKPerS;
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
