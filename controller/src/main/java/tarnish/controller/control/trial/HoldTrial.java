package tarnish.controller.control.trial;

import java.util.List;
import java.util.Set;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Switch;

/**
 * Keeps some outputs on for a while and judges nothing.
 *
 * @param asks the question before it, empty where none is needed
 * @param holding false before it was confirmed
 * @param leftS how long it still lasts
 */
public record HoldTrial(
    String title, String asks, Set<Switch> on, boolean holding, double leftS, List<Finding> found)
    implements Trial {

  /** Asks first. */
  public static HoldTrial asking(String title, String question, Set<Switch> on, double forS) {
    return new HoldTrial(title, question, Set.copyOf(on), false, forS, List.of());
  }

  /** Looks on with everything off. */
  public static HoldTrial watching(double forS) {
    return new HoldTrial("look", "", Set.of(), true, forS, List.of());
  }

  @Override
  public String doing() {
    return hasEnded() ? "ended" : holding ? "holding" : "waiting for a yes";
  }

  @Override
  public String question() {
    return holding ? "" : asks;
  }

  @Override
  public Set<Switch> demands() {
    return holding && !hasEnded() ? on : Set.of();
  }

  @Override
  public boolean hasEnded() {
    return !(leftS > 0);
  }

  @Override
  public List<Finding> findings() {
    return found;
  }

  @Override
  public Trial confirmed() {
    return new HoldTrial(title, asks, on, true, leftS, found);
  }

  @Override
  public Trial step(Readings readings, double tickS) {
    // Half a tick of slack: the sum of many ticks is not exact.
    double left = holding ? leftS - tickS : leftS;
    boolean over = holding && left < tickS / 2;
    return new HoldTrial(title, asks, on, holding, over ? 0 : left, found);
  }

  @Override
  public Trial stopped(String why) {
    return new HoldTrial(title, "", on, true, 0, List.of(Finding.right("Ended early: " + why)));
  }
}
