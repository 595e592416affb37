package tarnish.controller.journal;

import java.nio.file.Path;

/**
 * A process that records until it is killed. It says the number of each tick with an event once the
 * journal has it; with a third argument it kills itself after so many ticks.
 */
final class KilledChild {
  static final double EVENTFUL_SHARE = 0.05;

  private KilledChild() {}

  public static void main(String[] arguments) {
    BatchMaker maker = new BatchMaker(Long.parseLong(arguments[1]), EVENTFUL_SHARE);
    int haltAfter = Integer.parseInt(arguments[2]);
    SqliteJournal journal = SqliteJournal.open(Path.of(arguments[0]));
    int batch = journal.begin(BatchMaker.HEAD);
    for (int i = 1; ; i++) {
      BatchMaker.Made tick = maker.next();
      tick.giveTo(journal, batch);
      if (!tick.requests().isEmpty() || !tick.events().isEmpty()) {
        System.out.println(i);
      }
      if (i == haltAfter) {
        System.out.println(i);
        System.out.flush();
        Runtime.getRuntime().halt(9);
      }
    }
  }
}
