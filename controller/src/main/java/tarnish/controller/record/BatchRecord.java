package tarnish.controller.record;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import tarnish.controller.journal.CsvExport;
import tarnish.controller.journal.Journal;

/**
 * The printable record of a batch: one HTML file that loads nothing, the same as JSON, the exports,
 * and a list of SHA-256 fingerprints. The same journal gives the same bytes.
 */
public final class BatchRecord {
  private final int batch;
  private final Journal journal;
  private final BatchStory story;
  private final String version;

  private BatchRecord(Journal journal, int batch, String version) {
    this.journal = journal;
    this.batch = batch;
    this.version = version;
    story = StoryReader.read(journal, batch);
  }

  /**
   * Reads a batch; takes a few seconds for two weeks of it.
   *
   * @param version of the program, for the foot of the page
   * @throws IllegalArgumentException if there is no such batch or it cannot be read, in words for
   *     the person
   */
  public static BatchRecord of(Journal journal, int batch, String version) {
    return new BatchRecord(journal, batch, version);
  }

  public BatchStory story() {
    return story;
  }

  /** The page alone, with the fingerprints of what {@link #writeTo} would write beside it. */
  public String html() {
    Map<String, String> sums = new LinkedHashMap<>();
    sums.put(eventsName(), Sha256.of(this::events, OutputStream.nullOutputStream()));
    sums.put(samplesName(), Sha256.of(this::samples, OutputStream.nullOutputStream()));
    sums.put(name("json"), Sha256.of(RecordJson.of(story, sums)));
    return RecordPage.of(story, sums, version);
  }

  /**
   * Writes page, JSON, exports and {@code SHA256SUMS} into a folder, which is made if missing.
   *
   * @return file names with their fingerprints
   */
  public Map<String, String> writeTo(Path folder) {
    Map<String, String> sums = new LinkedHashMap<>();
    try {
      Files.createDirectories(folder);
      sums.put(eventsName(), write(folder.resolve(eventsName()), this::events));
      sums.put(samplesName(), write(folder.resolve(samplesName()), this::samples));
      String json = RecordJson.of(story, sums);
      sums.put(name("json"), write(folder.resolve(name("json")), to -> to.write(json)));
      String page = RecordPage.of(story, sums, version);
      sums.put(name("html"), write(folder.resolve(name("html")), to -> to.write(page)));
      StringBuilder list = new StringBuilder();
      sums.forEach((name, sum) -> list.append(sum).append("  ").append(name).append('\n'));
      Files.writeString(folder.resolve("SHA256SUMS"), list, StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return sums;
  }

  private static String write(Path file, Sha256.Text text) throws IOException {
    try (OutputStream to = new BufferedOutputStream(Files.newOutputStream(file))) {
      return Sha256.of(text, to);
    }
  }

  private void events(java.io.Writer to) throws IOException {
    CsvExport.events(journal, batch, to);
  }

  private void samples(java.io.Writer to) throws IOException {
    CsvExport.samples(journal, batch, to);
  }

  private String name(String ending) {
    return "batch-" + batch + "." + ending;
  }

  private String eventsName() {
    return "batch-" + batch + "-events.csv";
  }

  private String samplesName() {
    return "batch-" + batch + "-samples.csv";
  }
}
