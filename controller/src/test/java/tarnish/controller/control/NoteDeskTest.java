package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class NoteDeskTest {
  private static ControlBench running() {
    return ControlBench.with(TestSteps.soak(500, 1e6, 3)).start().forSeconds(10);
  }

  private static String last(ControlBench bench) {
    List<Event> events = bench.last.events();
    return events.get(events.size() - 1).sentence();
  }

  @Test
  void aNoteAndAPhotoBecomeLinesOfTheLedgerAndChangeNoFigure() {
    ControlBench bench = running();
    Composition before = bench.state.composition();
    bench.tick(new Request.Note("Ada", "ground for 5 min, dark grey"));
    assertTrue(last(bench).contains("): ground for 5 min"), last(bench));
    bench.tick(new Request.Photo("Ada", "ab".repeat(32), 40_000, "after the first soak"));
    assertTrue(last(bench).contains("photo of 40 KiB, SHA-256 " + "ab".repeat(32)), last(bench));
    assertEquals(
        before.massKg(bench.state.gas()), bench.state.composition().massKg(bench.state.gas()));
  }

  @Test
  void aCorrectionRefersToTheFormerEntryWhichStaysInTheRecord() {
    ControlBench bench = running();
    bench.tick(new Request.Note("Ada", "5 mg spilled"));
    long ofMillis = bench.millis;
    String former = last(bench);
    int entries = bench.events(Event.LedgerEntered.class).size();
    bench.forSeconds(5);
    bench.tick(new Request.Correction("Ben", ofMillis, former, "it was 50 mg"));
    assertTrue(last(bench).contains("5 mg spilled"), last(bench));
    assertTrue(last(bench).contains("it was 50 mg"), last(bench));
    assertEquals(entries + 1, bench.events(Event.LedgerEntered.class).size());
  }

  @Test
  void anEntryOfTheFutureOrWithoutWordsIsRefused() {
    ControlBench bench = running();
    bench.tick(new Request.Correction("Ben", bench.millis + 100_000, "x", "y"));
    assertTrue(bench.refusedLast());
    bench.tick(new Request.Correction("Ben", 0, "x", " "));
    assertTrue(bench.refusedLast());
    bench.tick(new Request.Note("Ben", ""));
    assertTrue(bench.refusedLast());
  }

  @Test
  void theListBeforeTheStartIsRecordedPointByPointAndOnlyBeforeIt() {
    ControlBench bench = ControlBench.with(TestSteps.soak(500, 1e6, 3));
    Request.Preflight list =
        new Request.Preflight(
            "Ada", "cd".repeat(32), Map.of("charge", "4.000 g weighed", "vessel", "confirmed"));
    bench.tick(list, new Request.Start("Ada"));
    List<Event.PreflightAnswered> answers = bench.events(Event.PreflightAnswered.class);
    assertEquals(
        List.of("recipe", "charge", "vessel"),
        answers.stream().map(Event.PreflightAnswered::item).toList());
    assertEquals(BatchState.RUNNING, bench.phase());
    bench.tick(list);
    assertTrue(bench.refusedLast());
  }

  @Test
  void withoutABatchThereIsNoLedger() {
    ControlBench bench = ControlBench.with(TestSteps.soak(500, 1e6, 3));
    bench.tick(new Request.Note("Ada", "nothing here"));
    assertTrue(bench.refusedLast());
  }
}
