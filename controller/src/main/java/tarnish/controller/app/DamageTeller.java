package tarnish.controller.app;

import static java.time.temporal.ChronoUnit.SECONDS;

import java.time.Clock;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tarnish.controller.control.Request;
import tarnish.controller.journal.Journal;
import tarnish.controller.journal.Journal.BatchLine;
import tarnish.controller.journal.Journal.NoteLine;
import tarnish.controller.journal.JournalException;

/**
 * Lets the batch in hand tell in its own events that the record was found damaged: the batch that
 * was taken up, or the first one that was begun since. Called by the loop thread, and before it
 * runs.
 */
final class DamageTeller {
  private static final int NOTES_LOOKED_AT = 50;

  private static final Logger LOG = LoggerFactory.getLogger(DamageTeller.class);

  private final Clock wall;
  private final Journal journal;
  private final RequestQueue queue;
  private final Set<String> told = new HashSet<>();
  private String lastRemark;

  DamageTeller(Journal journal, RequestQueue queue, Clock wall) {
    this.wall = wall;
    this.journal = journal;
    this.queue = queue;
    lastRemark = journal.remark();
  }

  /** A new batch was begun: what was found since the one before it began. */
  void begun(int batch) {
    tellSince(journal.batches().stream().filter(line -> line.batch() < batch).findFirst());
  }

  /** A batch was taken up: what was found since it began. */
  void takenUp(int batch) {
    tellSince(journal.batches().stream().filter(line -> line.batch() == batch).findFirst());
  }

  /** Tells what was found since the last look, where a batch is in hand. */
  void look(LiveBatch batch) {
    String remark = journal.remark();
    if (!remark.equals(lastRemark) && batch.number() != null) {
      String now = wall.instant().atOffset(ZoneOffset.UTC).truncatedTo(SECONDS).toString();
      queue.offer(new Request.RecordDamaged(LiveBench.SHELL, now, remark));
      told.add(remark);
    }
    lastRemark = remark;
  }

  /** What a damaged record does not give is not told; that must never end the loop. */
  private void tellSince(Optional<BatchLine> line) {
    try {
      tellNotesSince(line);
    } catch (JournalException e) {
      LOG.warn("What is noted of damage cannot be told: {}", e.getMessage());
    }
  }

  /** The newest note of an opening is told by any clock; of older ones the clock decides. */
  private void tellNotesSince(Optional<BatchLine> line) {
    Set<String> known = new HashSet<>(told);
    line.ifPresent(
        each ->
            journal.entries(each.batch(), List.of("RecordDamaged")).stream()
                .map(Journal.EventLine::sentence)
                .forEach(known::add));
    List<NoteLine> notes = journal.notes(NOTES_LOOKED_AT);
    for (int i = notes.size() - 1; i >= 0; i--) {
      NoteLine note = notes.get(i);
      boolean wanted =
          note.isOfDamage()
              && (note.sentence().equals(journal.remark())
                  || line.isEmpty()
                  || isSince(note.wallTime(), line.get().startedAt()));
      if (wanted && known.stream().noneMatch(sentence -> sentence.endsWith(note.sentence()))) {
        queue.offer(new Request.RecordDamaged(LiveBench.SHELL, note.wallTime(), note.sentence()));
        told.add(note.sentence());
      }
    }
  }

  private static boolean isSince(String moment, String startedAt) {
    return !OffsetDateTime.parse(moment).isBefore(OffsetDateTime.parse(startedAt));
  }
}
