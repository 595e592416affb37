package tarnish.shared.reading;

import java.util.Arrays;

/**
 * The readings of all channels at one tick, quantised to each sensor's resolution where they enter.
 *
 * <p>A value is kept as a whole number of resolution steps, so what the journal stores is exactly
 * what control saw. The shell owns and refills one instance; control only reads it. Not
 * thread-safe.
 */
public final class Readings {
  private static final byte GOOD = -1;
  private static final BadReason[] REASONS = BadReason.values();

  private final double[] resolution;
  private final long[] steps;
  private final byte[] quality;

  /**
   * @param resolutionByChannel the size of one step of each channel in its SI unit, by ordinal of
   *     {@link Channel}; 0 where the rig has no such sensor
   */
  public Readings(double[] resolutionByChannel) {
    if (resolutionByChannel.length != Channel.COUNT) {
      throw new IllegalArgumentException(
          "need " + Channel.COUNT + " resolutions, got " + resolutionByChannel.length);
    }
    this.resolution = resolutionByChannel.clone();
    this.steps = new long[Channel.COUNT];
    this.quality = new byte[Channel.COUNT];
    for (int i = 0; i < Channel.COUNT; i++) {
      BadReason first = resolution[i] > 0 ? BadReason.NO_DATA : BadReason.NOT_FITTED;
      quality[i] = (byte) first.ordinal();
    }
  }

  /** Takes a value in SI units; one that is not a number becomes a device fault, never a value. */
  public void good(Channel channel, double value) {
    int i = channel.ordinal();
    if (!(resolution[i] > 0)) {
      throw new IllegalArgumentException(channel.words() + " is not fitted on this rig");
    }
    if (!Double.isFinite(value)) {
      bad(channel, BadReason.DEVICE_FAULT);
      return;
    }
    steps[i] = StrictMath.round(value / resolution[i]);
    quality[i] = GOOD;
  }

  public void bad(Channel channel, BadReason reason) {
    quality[channel.ordinal()] = (byte) reason.ordinal();
  }

  public boolean isGood(Channel channel) {
    return quality[channel.ordinal()] == GOOD;
  }

  public boolean isFitted(Channel channel) {
    return resolution[channel.ordinal()] > 0;
  }

  /**
   * The value in the channel's SI unit.
   *
   * @throws IllegalStateException if the reading is bad: ask {@link #isGood} first
   */
  public double value(Channel channel) {
    int i = channel.ordinal();
    if (quality[i] != GOOD) {
      throw new IllegalStateException(channel.words() + ": " + REASONS[quality[i]].words());
    }
    return steps[i] * resolution[i];
  }

  /** The value, or {@code otherwise} where the reading is bad. Never use it to decide a permit. */
  public double valueOr(Channel channel, double otherwise) {
    return isGood(channel) ? value(channel) : otherwise;
  }

  public Reading at(Channel channel) {
    int i = channel.ordinal();
    return quality[i] == GOOD
        ? new Reading.Good(value(channel))
        : new Reading.Bad(REASONS[quality[i]]);
  }

  /** Whole resolution steps of the last good value: what the journal stores. */
  public long steps(Channel channel) {
    return steps[channel.ordinal()];
  }

  /** -1 for a good reading, else the ordinal of its {@link BadReason}: what the journal stores. */
  public byte qualityCode(Channel channel) {
    return quality[channel.ordinal()];
  }

  /** Puts back what {@link #steps} and {@link #qualityCode} gave. */
  public void restore(Channel channel, long steps, byte qualityCode) {
    if (qualityCode < GOOD || qualityCode >= REASONS.length) {
      throw new IllegalArgumentException("no such quality code: " + qualityCode);
    }
    int i = channel.ordinal();
    this.steps[i] = steps;
    quality[i] = qualityCode;
  }

  public double resolution(Channel channel) {
    return resolution[channel.ordinal()];
  }

  public Readings copy() {
    Readings copy = new Readings(resolution);
    copy.copyFrom(this);
    return copy;
  }

  /** Takes over steps and quality of another instance of the same rig. */
  public void copyFrom(Readings other) {
    System.arraycopy(other.steps, 0, steps, 0, steps.length);
    System.arraycopy(other.quality, 0, quality, 0, quality.length);
  }

  @Override
  public boolean equals(Object o) {
    return o instanceof Readings other
        && Arrays.equals(steps, other.steps)
        && Arrays.equals(quality, other.quality)
        && Arrays.equals(resolution, other.resolution);
  }

  @Override
  public int hashCode() {
    return 31 * Arrays.hashCode(steps) + Arrays.hashCode(quality);
  }
}
