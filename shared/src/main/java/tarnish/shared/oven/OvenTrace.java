package tarnish.shared.oven;

import java.util.Arrays;

/**
 * What was seen of an oven during an identification, in equal steps of time: the duty given and the
 * means of the readings. Grows as it is filled; not thread-safe.
 */
public final class OvenTrace {
  private final double stepS;
  private final double readAt;
  private int size;
  private double[] duty = new double[1024];
  private double[] ovenK = new double[1024];
  private double[] sampleK = new double[1024];
  private double[] roomK = new double[1024];

  /**
   * @param stepS length of a step in s
   * @param readAt mean time of the readings within a step, as a share of it, 0 to 1
   */
  public OvenTrace(double stepS, double readAt) {
    if (!(stepS > 0) || !(readAt >= 0 && readAt <= 1)) {
      throw new IllegalArgumentException(
          "a trace needs steps above 0 s and a time in them from 0 to 1, got "
              + stepS
              + " and "
              + readAt);
    }
    this.stepS = stepS;
    this.readAt = readAt;
  }

  /** Adds a step: mean duty and mean readings. */
  public void add(double stepDuty, double stepOvenK, double stepSampleK, double stepRoomK) {
    if (size == duty.length) {
      duty = Arrays.copyOf(duty, 2 * size);
      ovenK = Arrays.copyOf(ovenK, 2 * size);
      sampleK = Arrays.copyOf(sampleK, 2 * size);
      roomK = Arrays.copyOf(roomK, 2 * size);
    }
    duty[size] = stepDuty;
    ovenK[size] = stepOvenK;
    sampleK[size] = stepSampleK;
    roomK[size] = stepRoomK;
    size++;
  }

  /** Puts what was read in the last step in place of what it was added with. */
  void seen(double stepOvenK, double stepSampleK) {
    ovenK[size - 1] = stepOvenK;
    sampleK[size - 1] = stepSampleK;
  }

  public int size() {
    return size;
  }

  public double stepS() {
    return stepS;
  }

  double readAt() {
    return readAt;
  }

  public double duty(int i) {
    return duty[i];
  }

  public double ovenK(int i) {
    return ovenK[i];
  }

  public double sampleK(int i) {
    return sampleK[i];
  }

  public double roomK(int i) {
    return roomK[i];
  }

  /**
   * Mean duty that arrives during step {@code i} after a dead time, from the mean duties of the
   * steps it left in.
   */
  double arriving(int i, double deadTimeS) {
    double shift = deadTimeS / stepS;
    int whole = (int) shift;
    double part = shift - whole;
    return (1 - part) * dutyOr0(i - whole) + part * dutyOr0(i - whole - 1);
  }

  private double dutyOr0(int i) {
    return i < 0 ? 0 : duty[i];
  }
}
