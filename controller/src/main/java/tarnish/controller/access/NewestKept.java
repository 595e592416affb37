package tarnish.controller.access;

import java.util.LinkedHashMap;
import java.util.Map;

/**
 * A map that keeps only so many entries: the one not asked for longest goes first. Not safe for
 * several threads without a lock, not even to look at.
 */
public final class NewestKept<K, V> extends LinkedHashMap<K, V> {
  private static final long serialVersionUID = 1L;

  private final int most;

  /**
   * @param most entries that are kept
   */
  public NewestKept(int most) {
    super(16, 0.75f, true);
    this.most = most;
  }

  @Override
  protected boolean removeEldestEntry(Map.Entry<K, V> eldest) {
    return size() > most;
  }
}
