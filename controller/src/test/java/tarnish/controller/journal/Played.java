package tarnish.controller.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;

/** Compares what was handed to a journal with what it plays back. */
final class Played {
  private Played() {}

  /** All ticks, with readings copied because the journal uses one instance again and again. */
  static List<Journal.RecordedTick> all(Journal journal, int batch) {
    List<Journal.RecordedTick> played = new ArrayList<>();
    journal.playBack(
        batch,
        tick ->
            played.add(
                new Journal.RecordedTick(
                    tick.millis(),
                    tick.wallTimeOrEmpty(),
                    tick.readings().copy(),
                    tick.requests(),
                    tick.outputs(),
                    tick.events())));
    return played;
  }

  static void assertSame(List<BatchMaker.Made> made, List<Journal.RecordedTick> played) {
    assertEquals(made.size(), played.size());
    for (int i = 0; i < made.size(); i++) {
      BatchMaker.Made expected = made.get(i);
      Journal.RecordedTick actual = played.get(i);
      String at = "tick " + i;
      assertEquals(expected.millis(), actual.millis(), at);
      assertEquals(expected.readings(), actual.readings(), at);
      assertEquals(expected.outputs(), actual.outputs(), at);
      assertEquals(expected.requests(), actual.requests(), at);
      assertEquals(lines(expected), actual.events(), at);
      boolean quiet = expected.requests().isEmpty() && expected.events().isEmpty();
      assertEquals(quiet ? "" : expected.wallTime(), actual.wallTimeOrEmpty(), at);
    }
  }

  static List<Journal.EventLine> lines(BatchMaker.Made tick) {
    return tick.events().stream()
        .map(
            event ->
                new Journal.EventLine(
                    tick.millis(), tick.wallTime(), event.kind(), event.sentence()))
        .toList();
  }
}
