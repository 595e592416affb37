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
 * The printable record of a batch: one HTML file that loads nothing, the same as PDF and as JSON,
 * the exports, and a list of SHA-256 fingerprints. The same journal gives the same bytes.
 */
public final class BatchRecord {
  private final int batch;
  private final Journal journal;
  private final BatchStory story;
  private final String version;
  private final InForce inForce;

  private BatchRecord(Journal journal, int batch, String version, InForce inForce) {
    this.journal = journal;
    this.batch = batch;
    this.version = version;
    this.inForce = inForce;
    story = StoryReader.read(journal, batch);
  }

  /**
   * Reads a batch; takes a few seconds for two weeks of it.
   *
   * @param version of the program, for the foot of the page
   * @param inForce calibrations and proof tests when the batch began
   * @throws IllegalArgumentException if there is no such batch or it cannot be read, in words for
   *     the person
   */
  public static BatchRecord of(Journal journal, int batch, String version, InForce inForce) {
    return new BatchRecord(journal, batch, version, inForce);
  }

  public BatchStory story() {
    return story;
  }

  /** The printable forms with the JSON, as {@link #writeTo} would write them. */
  public record Made(byte[] html, byte[] pdf, byte[] json) {}

  /** Makes them without writing a file. */
  public Made make() {
    Map<String, String> sums = new LinkedHashMap<>();
    sums.put(eventsName(), Sha256.of(this::events, OutputStream.nullOutputStream()));
    sums.put(samplesName(), Sha256.of(this::samples, OutputStream.nullOutputStream()));
    byte[] json = RecordJson.of(story, inForce, sums).getBytes(StandardCharsets.UTF_8);
    sums.put(name("json"), Sha256.of(json));
    byte[] html = RecordPage.of(story, inForce, sums, version).getBytes(StandardCharsets.UTF_8);
    return new Made(html, RecordPdf.of(story, inForce, sums, version), json);
  }

  /**
   * Writes page, PDF, JSON, exports and {@code SHA256SUMS} into a folder, which is made if missing.
   *
   * @return file names with their fingerprints
   */
  public Map<String, String> writeTo(Path folder) {
    Map<String, String> sums = new LinkedHashMap<>();
    try {
      Files.createDirectories(folder);
      sums.put(eventsName(), write(folder.resolve(eventsName()), this::events));
      sums.put(samplesName(), write(folder.resolve(samplesName()), this::samples));
      byte[] json = RecordJson.of(story, inForce, sums).getBytes(StandardCharsets.UTF_8);
      sums.put(name("json"), write(folder, name("json"), json));
      byte[] html = RecordPage.of(story, inForce, sums, version).getBytes(StandardCharsets.UTF_8);
      byte[] pdf = RecordPdf.of(story, inForce, sums, version);
      sums.put(name("html"), write(folder, name("html"), html));
      sums.put(name("pdf"), write(folder, name("pdf"), pdf));
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

  private static String write(Path folder, String name, byte[] bytes) throws IOException {
    Files.write(folder.resolve(name), bytes);
    return Sha256.of(bytes);
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
