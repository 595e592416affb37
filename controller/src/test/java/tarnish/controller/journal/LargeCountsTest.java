package tarnish.controller.journal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.StringWriter;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tarnish.shared.reading.Channel;

/** Times and steps past what 31, 32 and 53 bits hold come back to the last digit. */
class LargeCountsTest {
  @TempDir Path folder;

  @ParameterizedTest
  @ValueSource(longs = {(1L << 31) - 60_000, (1L << 32) - 60_000, 90_000_000_000_000L})
  void aBatchThatRunsPastThemIsRecordedDrawnAndExportedAsAnyOther(long startMillis)
      throws Exception {
    List<BatchMaker.Made> ticks = BatchMaker.ticks(41, 3000, 0.02);
    try (SqliteJournal journal = SqliteJournal.open(folder)) {
      int batch = journal.begin(BatchMaker.HEAD);
      for (BatchMaker.Made tick : ticks) {
        journal.tick(
            batch,
            startMillis + tick.millis(),
            tick.wallTime(),
            tick.readings(),
            tick.requests(),
            tick.outputs(),
            tick.events());
      }
      journal.end(batch, "complete", "");
      List<Journal.RecordedTick> played = Played.all(journal, batch);
      assertEquals(ticks.size(), played.size());
      for (int i = 0; i < ticks.size(); i++) {
        assertEquals(startMillis + ticks.get(i).millis(), played.get(i).millis());
        assertEquals(ticks.get(i).readings(), played.get(i).readings());
        assertEquals(ticks.get(i).requests(), played.get(i).requests());
      }
      long end = played.get(played.size() - 1).millis();
      Journal.History history = journal.history(batch, startMillis, end, 100);
      assertTrue(history.startMillis()[0] >= startMillis);
      int drawn =
          history.series().stream()
              .filter(each -> each.channel().equals(Channel.SAMPLE_TEMPERATURE.words()))
              .mapToInt(each -> java.util.Arrays.stream(each.count()).sum())
              .sum();
      long good =
          ticks.stream().filter(it -> it.readings().isGood(Channel.SAMPLE_TEMPERATURE)).count();
      assertEquals(good, drawn);
      StringWriter csv = new StringWriter();
      CsvExport.samples(journal, batch, csv);
      String last = csv.toString().strip();
      assertTrue(
          last.substring(last.lastIndexOf('\n') + 1)
              .startsWith(java.math.BigDecimal.valueOf(end, 3).toPlainString() + ","));
    }
  }
}
