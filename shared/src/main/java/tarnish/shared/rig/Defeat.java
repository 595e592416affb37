package tarnish.shared.rig;

import java.util.List;

/**
 * Which interlocks a person at the bench may defeat for a while.
 *
 * @param interlocks their names; empty where none may be defeated
 * @param atMostS longest time, in s
 */
public record Defeat(List<String> interlocks, double atMostS) {
  /** Nothing can be defeated. */
  public static final Defeat NONE = new Defeat(List.of(), 0);

  public Defeat {
    interlocks = List.copyOf(interlocks);
  }
}
