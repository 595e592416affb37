package tarnish.controller.app;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tarnish.controller.journal.BenchNote;
import tarnish.controller.journal.JournalException;
import tarnish.controller.journal.SqliteJournal;
import tarnish.controller.service.BenchView.ChannelLine;

/** The notes of a bench check: into the journal, the newest kept at hand. One thread. */
final class BenchNotes {
  private static final Logger LOG = LoggerFactory.getLogger(BenchNotes.class);
  private static final int AT_HAND = 60;

  private final SqliteJournal journal;
  private final Deque<BenchNote> newest = new ArrayDeque<>();

  BenchNotes(SqliteJournal journal) {
    this.journal = journal;
    newest.addAll(journal.benchNotes(AT_HAND));
  }

  /** What cannot be written is said so in its place: a person then writes it down by hand. */
  void add(String person, String kind, String sentence) {
    BenchNote note = new BenchNote(BenchSession.now(), person, kind, sentence);
    try {
      journal.noteBench(note);
    } catch (JournalException e) {
      LOG.error("{}", e.getMessage());
      note = new BenchNote(note.wallTime(), person, kind, "NOT RECORDED: " + sentence);
    }
    newest.add(note);
    while (newest.size() > AT_HAND) {
      newest.poll();
    }
  }

  void readings(String person, List<ChannelLine> lines) {
    for (ChannelLine line : lines) {
      String more =
          line.noise().isEmpty() ? "" : ", noise " + line.noise() + ", rate " + line.rate();
      String raw = line.raw().isEmpty() ? "" : ", raw " + line.raw();
      String latency = line.latency().isEmpty() ? "" : " in " + line.latency();
      add(
          person,
          "reading",
          line.name()
              + ": "
              + line.value()
              + raw
              + ", "
              + line.quality()
              + more
              + ", "
              + line.answers()
              + latency
              + (line.remark().isEmpty() ? "." : ". " + line.remark() + "."));
    }
  }

  List<BenchNote> newest() {
    return new ArrayList<>(newest);
  }
}
