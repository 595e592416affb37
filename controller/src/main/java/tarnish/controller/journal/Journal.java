package tarnish.controller.journal;

import java.util.List;
import java.util.OptionalInt;
import java.util.function.Consumer;
import tarnish.controller.control.Event;
import tarnish.controller.control.Request;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;

/**
 * The record of all batches. Events and requests are durable when the call returns; samples are
 * written at most one second of ticks late. Called by the loop thread, read by page threads.
 */
public interface Journal extends AutoCloseable {

  /**
   * What a batch was started with.
   *
   * @param recipeText the very text that is run
   * @param rigText the very text of the rig file
   * @param startedAt wall-clock name of its first tick, ISO 8601 with offset
   * @param note e.g. "invented demonstration data", "simulated bench, seed 7"
   * @param seed of the simulated bench, or empty on a real one
   */
  record BatchHead(
      String title, String recipeText, String rigText, String startedAt, String note, Long seed) {}

  /** Opens a new batch and gives its number, counted from 1. */
  int begin(BatchHead head);

  /**
   * One tick, exactly as control saw and decided it.
   *
   * @param millis monotonic time since the batch began, in ms, strictly increasing
   * @param requests taken in this tick, in order
   * @param events that the tick gave, in order; if there are any requests or events, everything up
   *     to and including this tick is durable when the call returns
   */
  void tick(
      int batch,
      long millis,
      String wallTime,
      Readings readings,
      List<Request> requests,
      Outputs outputs,
      List<Event> events);

  /**
   * Marks how a batch ended; {@code summaryJson} is kept as it is. An ended batch takes no further
   * tick.
   */
  void end(int batch, String endState, String summaryJson);

  /** The newest batch that has no end, after a crash or a power cut. */
  OptionalInt unfinished();

  BatchHead head(int batch);

  /** All batches, the newest first. */
  List<BatchLine> batches();

  /**
   * Plays back every recorded tick in order, in constant memory. The readings are one instance that
   * is refilled: copy them to keep them.
   */
  void playBack(int batch, Consumer<RecordedTick> to);

  /**
   * Events and requests from {@code fromMillis} on, at most {@code limit}; the newest {@code limit}
   * if it is negative. Oldest first in either case; the requests of a tick before its events.
   */
  List<EventLine> events(int batch, long fromMillis, int limit);

  /** Events of some kinds, all of them, oldest first. */
  default List<EventLine> entries(int batch, List<String> kinds) {
    return events(batch, 0, Integer.MAX_VALUE).stream()
        .filter(line -> kinds.contains(line.kind()))
        .toList();
  }

  /**
   * The span from {@code fromMillis} to {@code toMillis} drawn in at most {@code columns} columns.
   */
  History history(int batch, long fromMillis, long toMillis, int columns);

  /** Adds what people did or tried at the page; durable when the call returns. */
  default void record(List<Act> acts) {}

  /** The newest acts during a batch, or of all where it is 0; oldest first. */
  default List<Act> acts(int batch, int limit) {
    return List.of();
  }

  /** What happened to the record itself, the newest first, at most {@code limit}. */
  default List<NoteLine> notes(int limit) {
    return List.of();
  }

  /**
   * What a person must know about the record since it was opened, e.g. that a damaged file was set
   * aside; empty if all is well.
   */
  default String remark() {
    return "";
  }

  @Override
  void close();

  /** One note about the record itself; {@code kind} e.g. "set aside", "archived". */
  record NoteLine(String wallTime, String kind, String sentence) {
    /** Whether it tells of damage. */
    public boolean isOfDamage() {
      return List.of(SET_ASIDE, LOG_DAMAGED, DAMAGE_FOUND).contains(kind);
    }
  }

  /** Kind of a note: a file was damaged and has been renamed. */
  String SET_ASIDE = "set aside";

  /** Kind of a note: the newest part of the record was damaged and is kept beside it. */
  String LOG_DAMAGED = "log damaged";

  /** Kind of a note: damage was found while the record was in use. */
  String DAMAGE_FOUND = "damage found";

  /**
   * What a person did or tried at the page.
   *
   * @param batch that was under way, 0 where there was none
   * @param by who, or empty where nobody was signed in
   * @param whence address it came from
   * @param outcome what became of it
   */
  record Act(int batch, String wallTime, String by, String whence, String what, String outcome) {}

  /**
   * One row of the list of batches. {@code endState} and {@code summaryJson} are empty while it
   * runs; {@code lastMillis} is -1 before its first tick is on the disk.
   */
  record BatchLine(
      int batch,
      String title,
      String startedAt,
      String note,
      String endState,
      long lastMillis,
      String summaryJson) {}

  /**
   * One event or request as recorded: {@code kind} of a request begins with "Request.", as in
   * "Request.Pause"; that of an event has no point.
   */
  record EventLine(long millis, String wallTime, String kind, String sentence) {}

  /** One recorded tick. {@code events} holds kind and sentence of each, in order. */
  record RecordedTick(
      long millis,
      String wallTimeOrEmpty,
      Readings readings,
      List<Request> requests,
      Outputs outputs,
      List<EventLine> events) {}

  /**
   * A span for drawing. A column holds the ticks from its {@code startMillis} to before the next
   * one; the starts are not quite evenly spaced, because summaries are not cut. Per channel and
   * column the least, greatest, first and last good value, and the switches that were on at any
   * time in the column. A column without a good value is a gap ({@code count} 0, values 0.0; never
   * NaN).
   *
   * @param startMillis of each column
   * @param series one per fitted channel
   * @param switchesOn or-ed switch bits per column
   * @param heaterPerMille mean duty per column
   */
  record History(
      long fromMillis,
      long toMillis,
      long[] startMillis,
      List<Series> series,
      int[] switchesOn,
      int[] heaterPerMille) {}

  /** One channel of a {@link History}, in SI units. */
  record Series(
      String channel,
      double[] least,
      double[] greatest,
      double[] first,
      double[] last,
      int[] count) {}
}
