package tarnish.shared.rig;

import java.util.EnumSet;
import java.util.Set;

/**
 * What the bench is told at one tick.
 *
 * @param switches one bit per {@link Switch}, by ordinal
 * @param heaterPerMille heater duty in thousandths, 0 to 1000, for an analogue actuator and for the
 *     page; a relay follows {@link Switch#HEATER}. Whole thousandths, so that a recorded output is
 *     the output that was given.
 */
public record Outputs(int switches, int heaterPerMille) {
  /** Everything de-energised. */
  public static final Outputs OFF = new Outputs(0, 0);

  private static final int ALL_BITS = (1 << Switch.values().length) - 1;

  public Outputs {
    if ((switches & ~ALL_BITS) != 0) {
      throw new IllegalArgumentException("unknown switch bits: " + switches);
    }
    if (heaterPerMille < 0 || heaterPerMille > 1000) {
      throw new IllegalArgumentException(
          "heater duty must be 0 to 1000 thousandths, got " + heaterPerMille);
    }
  }

  public static Outputs of(int heaterPerMille, Switch... on) {
    int bits = 0;
    for (Switch each : on) {
      bits |= each.bit();
    }
    return new Outputs(bits, heaterPerMille);
  }

  public boolean isOn(Switch which) {
    return (switches & which.bit()) != 0;
  }

  public Outputs with(Switch which, boolean on) {
    int bits = on ? switches | which.bit() : switches & ~which.bit();
    return bits == switches ? this : new Outputs(bits, heaterPerMille);
  }

  public Set<Switch> on() {
    Set<Switch> on = EnumSet.noneOf(Switch.class);
    for (Switch each : Switch.values()) {
      if (isOn(each)) {
        on.add(each);
      }
    }
    return on;
  }
}
