package tarnish.controller.journal;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.List;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tarnish.shared.rig.Outputs;

/**
 * Files kept as the code of their time wrote them, one of each version of the tables: an ended
 * batch and one that was cut off. What they must read as was exported by that code.
 */
class OlderRecordTest {
  private static final String[] SAMPLES = {
    "9b1601d934918ba47c7aa9ccd9c004a82e1e7855072880412e8f0dfbde160887",
    "e177df6a04d36926a1ca636b489eca19234f3d2257d75ece5c99fde31bcd98ad"
  };
  private static final String[] EVENTS = {
    "8199a9d049bd2674de40cd27b481c97f9f6dd7e3683adc55af3c0ee4a1b50a6a",
    "396c2cb44c6d6aeda1f84cd5ed1fd15120810a37ce71d1d45923746dc3474e2b"
  };

  @TempDir Path folder;

  private Path kept(int version) throws IOException {
    Path file = folder.resolve("tarnish.db");
    try (InputStream in = OlderRecordTest.class.getResourceAsStream("record-" + version + ".db")) {
      Files.write(file, in.readAllBytes());
    }
    return file;
  }

  @Test
  void thereIsASampleOfEveryVersion() throws IOException {
    for (int version = 1; version <= Schema.NEWEST; version++) {
      assertTrue(Files.size(kept(version)) > 0);
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3})
  void anOlderRecordIsBroughtUpToDateAndReadsAsItsOwnCodeExportedIt(int version) throws Exception {
    kept(version);
    try (SqliteJournal journal = SqliteJournal.open(folder)) {
      assertEquals("", journal.openingRemark());
      assertReads(journal);
      boolean told =
          journal.notes(10).stream().anyMatch(note -> note.kind().equals("brought up to date"));
      assertEquals(version < Schema.NEWEST, told);
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3})
  void anOlderRecordGoesOnWhereItWasCutOff(int version) throws Exception {
    kept(version);
    try (SqliteJournal journal = SqliteJournal.open(folder)) {
      assertEquals(OptionalInt.of(2), journal.unfinished());
      List<Journal.RecordedTick> before = Played.all(journal, 2);
      Journal.RecordedTick last = before.get(before.size() - 1);
      journal.tick(
          2, last.millis() + 250, "later", last.readings(), List.of(), Outputs.OFF, List.of());
      journal.end(2, "aborted", "{}");
      List<Journal.RecordedTick> after = Played.all(journal, 2);
      assertEquals(before.size() + 1, after.size());
      assertEquals(before, after.subList(0, before.size()));
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3})
  void anOlderFileThatIsOnlyReadStaysByteForByteAsItIs(int version) throws Exception {
    Path file = kept(version);
    byte[] content = Files.readAllBytes(file);
    try (SqliteJournal journal = SqliteJournal.openToRead(file)) {
      assertReads(journal);
    }
    assertArrayEquals(content, Files.readAllBytes(file));
    Path archive = folder.resolve("archive.db");
    Archive.write(file, 1, archive, false, "a test");
    try (SqliteJournal journal = SqliteJournal.openToRead(archive)) {
      assertEquals(SAMPLES[0], sum(journal, 1, true));
    }
  }

  private static void assertReads(Journal journal) throws Exception {
    for (int batch = 1; batch <= 2; batch++) {
      assertEquals(SAMPLES[batch - 1], sum(journal, batch, true), "samples of " + batch);
      assertEquals(EVENTS[batch - 1], sum(journal, batch, false), "events of " + batch);
    }
  }

  private static String sum(Journal journal, int batch, boolean samples) throws Exception {
    StringWriter text = new StringWriter();
    if (samples) {
      CsvExport.samples(journal, batch, text);
    } else {
      CsvExport.events(journal, batch, text);
    }
    byte[] bytes = text.toString().getBytes(StandardCharsets.UTF_8);
    return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
  }
}
