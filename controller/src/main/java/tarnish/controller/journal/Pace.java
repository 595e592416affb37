package tarnish.controller.journal;

/** How soon what is recorded has to be safe on the disk. */
public enum Pace {
  /** A real bench: events at once, samples within a second of batch time, flushed to the medium. */
  DURABLE(1),
  /**
   * An accelerated rehearsal: 4096 ticks to a transaction and no flush to the medium, so that
   * writing does not slow the simulation down. Nothing of it needs to survive a crash, and up to
   * 4096 ticks with their events do not.
   */
  FAST(4);

  private final int blocksToCommit;

  Pace(int blocksToCommit) {
    this.blocksToCommit = blocksToCommit;
  }

  /** Full blocks of 1024 ticks that are gathered before they are written. */
  int blocksToCommit() {
    return blocksToCommit;
  }
}
