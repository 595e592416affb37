package tarnish.controller.control.trial;

import java.util.List;
import java.util.Set;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Switch;

/**
 * A small experiment at the bench, as a state machine without clock or outputs of its own: it looks
 * at readings, asks, says which outputs it would like on, and ends with what it found. Immutable.
 */
public sealed interface Trial permits PulseTrial, SupplyTrial, ColdJunctionTrial, HoldTrial {
  String title();

  /** What it is doing, in words. */
  String doing();

  /** What a person must confirm before it goes on; empty where it waits for nobody. */
  String question();

  /** Outputs that it wants on now; never any before a person has confirmed. */
  Set<Switch> demands();

  /** Wanted heater duty in thousandths. */
  default int heaterPerMille() {
    return demands().contains(Switch.HEATER) ? 1000 : 0;
  }

  /** Whether a valve is held open on purpose although no gas can come yet. */
  default boolean expectsNoFlow() {
    return false;
  }

  boolean hasEnded();

  List<Finding> findings();

  /** The person has said yes to the question. */
  Trial confirmed();

  /** One tick later. */
  Trial step(Readings readings, double tickS);

  /** Ends it before its end, for a reason in a sentence. */
  Trial stopped(String why);
}
