package tarnish.controller.app;

import java.nio.file.Path;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tarnish.controller.journal.JournalException;
import tarnish.controller.journal.JournalException.Trouble;
import tarnish.controller.journal.SqliteJournal;

/**
 * The bench and its record at the start of a service. Where the record of an interrupted batch
 * turns out to be damaged as it is played back, the file is set aside and control goes on with a
 * new one: a bench without control is worse than a batch that is not known.
 */
record StartedBench(SqliteJournal journal, LiveBench bench) implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(StartedBench.class);

  static StartedBench on(Path data, LiveBench.Settings settings) {
    SqliteJournal journal = SqliteJournal.open(data);
    try {
      return new StartedBench(journal, LiveBench.start(settings, journal, Version.text()));
    } catch (JournalException e) {
      journal.close();
      if (e.trouble() != Trouble.DAMAGED) {
        throw e;
      }
      LOG.error("{}", e.getMessage());
      return anew(data, settings);
    } catch (RuntimeException e) {
      journal.close();
      throw e;
    }
  }

  private static StartedBench anew(Path data, LiveBench.Settings settings) {
    SqliteJournal journal =
        SqliteJournal.openAnew(data, "holds an interrupted batch that is damaged");
    try {
      return new StartedBench(journal, LiveBench.start(settings, journal, Version.text()));
    } catch (RuntimeException e) {
      journal.close();
      throw e;
    }
  }

  @Override
  public void close() {
    bench.close();
    journal.close();
  }
}
