package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.journal.SqliteJournal;
import tarnish.controller.record.BatchRecord;
import tarnish.controller.record.InForce;
import tarnish.controller.service.SmallPng;

/** The record of the demonstration batch as PDF, its pages rendered, and batches side by side. */
class RecordPdfTest {
  @TempDir private static Path data;
  @TempDir private static Path to;
  private static PDDocument pdf;
  private static String text;
  private static String html;

  @BeforeAll
  static void rehearseAndWrite() throws IOException {
    Files.writeString(data.resolve("calibrations.csv"), CALIBRATIONS);
    Files.writeString(data.resolve("proof-tests.jsonl"), PROOFS);
    for (int seed : new int[] {7, 8}) {
      Ran.well("rehearse", Demo.COPPER, "--rig", Demo.RIG, "--seed", seed, "--data", data);
    }
    Ran.well("record", 1, "--data", data, "--to", to);
    pdf = Loader.loadPDF(to.resolve("batch-1.pdf").toFile());
    text = new PDFTextStripper().getText(pdf);
    html = Files.readString(to.resolve("batch-1.html"));
  }

  /** Invented; the rehearsed batch begins on 5 January 2026. */
  private static final String CALIBRATIONS =
      """
      channel,date,low shown,low shown u,low reference,low reference u,high shown,high shown u,high reference,high reference u
      sample temperature,2025-06-01T10:00Z,273.4,0.02,273.15,0.01,505.3,0.03,505.078,0.02
      sample temperature,2025-12-01T10:00Z,273.3,0.02,273.15,0.01,505.2,0.03,505.078,0.02
      vessel pressure,2026-02-01T10:00Z,100,10,0,5,101000,20,101325,10
      """;

  private static final String PROOFS =
      """
      {"row":"oven too hot","passed":true,"withinS":2.0,"date":"2025-11-20","due":"2026-02-18","by":"Ann Example","rig":"invented","how":"at the bench"}
      {"row":"leak","passed":true,"date":"2026-01-20","due":"2026-04-18","by":"Ann Example","rig":"invented","how":"at the bench"}
      """;

  @AfterAll
  static void close() throws IOException {
    pdf.close();
  }

  private static String plain(String words) {
    return words.replaceAll("[\\s\u00a0]+", "");
  }

  private static String unescaped(String markup) {
    return markup
        .replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&quot;", "\"")
        .replace("&#39;", "'")
        .replace("&amp;", "&");
  }

  /** Every cell and value of the page stands in the PDF, letter for letter. */
  @Test
  void everyWordOfThePageIsInThePdf() {
    // The sheets break cells over lines, so each is looked for word by word.
    String all = plain(text);
    Matcher cells =
        Pattern.compile("<(td|dd|dt|th|h1|h2)(?: [^>]*)?>(.*?)</\\1>", Pattern.DOTALL)
            .matcher(html);
    int found = 0;
    while (cells.find()) {
      for (String word : unescaped(cells.group(2)).split("[\\s\u00a0]+")) {
        // A word longer than a column is broken, too.
        String head = word.length() > 30 ? word.substring(0, 8) : word;
        assertTrue(all.contains(head), head + " of " + cells.group());
        found++;
      }
    }
    assertTrue(found > 1000, found + " words");
  }

  @Test
  void itsNumbersAreThoseOfTheExport() throws IOException {
    List<String> samples = Files.readAllLines(to.resolve("batch-1-samples.csv"));
    int comments = (int) samples.stream().filter(line -> line.startsWith("#")).count();
    int at = List.of(samples.get(comments).split(",")).indexOf("sample temperature [°C]");
    double[] values =
        samples.stream()
            .skip(comments + 1L)
            .map(line -> line.split(",", -1)[at])
            .filter(cell -> !cell.isEmpty())
            .mapToDouble(Double::parseDouble)
            .toArray();
    Matcher printed =
        Pattern.compile("sample temperature (\\S+) °C (\\S+) °C (\\S+) °C").matcher(text);
    assertTrue(printed.find());
    // Printed with one decimal.
    double half = 0.05 + 1e-9;
    assertEquals(
        Arrays.stream(values).min().orElseThrow(), Double.parseDouble(printed.group(1)), half);
    assertEquals(
        Arrays.stream(values).max().orElseThrow(), Double.parseDouble(printed.group(2)), half);
    assertEquals(values[values.length - 1], Double.parseDouble(printed.group(3)), half);
    JsonNode json = new ObjectMapper().readTree(to.resolve("batch-1.json").toFile());
    String events = Files.readString(to.resolve("batch-1-events.csv"));
    long pulses = events.lines().filter(line -> line.contains(",PulseGiven,")).count();
    assertEquals(pulses, json.get("oxygenPulses").asLong());
    assertTrue(text.contains("Oxygen pulses " + pulses));
    Matcher weighed = Pattern.compile("Weighed (\\(.+?\\) g): (\\S+ ± \\S+) O per").matcher(events);
    int found = 0;
    while (weighed.find()) {
      assertTrue(text.contains(weighed.group(1)), weighed.group(1));
      assertTrue(text.contains(weighed.group(2)), weighed.group(2));
      found++;
    }
    assertEquals(2, found);
  }

  @Test
  void theSameJournalGivesTheSameBytes() throws IOException {
    try (SqliteJournal journal = SqliteJournal.open(data)) {
      InForce inForce = InForceReader.of(data, journal.head(1).startedAt());
      BatchRecord record = BatchRecord.of(journal, 1, Version.text(), inForce);
      assertArrayEquals(Files.readAllBytes(to.resolve("batch-1.pdf")), record.make().pdf());
      assertArrayEquals(Files.readAllBytes(to.resolve("batch-1.html")), record.make().html());
    }
  }

  @Test
  void everyFontIsEmbedded() throws IOException {
    int fonts = 0;
    for (PDPage page : pdf.getPages()) {
      for (var name : page.getResources().getFontNames()) {
        PDFont font = page.getResources().getFont(name);
        assertTrue(font.isEmbedded(), font.getName());
        fonts++;
      }
    }
    assertTrue(fonts > pdf.getNumberOfPages());
    for (String sign : List.of("°C", "±", "→", "O₂")) {
      assertTrue(text.contains(sign), sign);
    }
  }

  /** Rendered under target/views, to be looked at; ink within the margins only. */
  @Test
  void everyPageHasInkAndKeepsItsMargins() throws IOException {
    Path folder = Path.of("target", "views");
    PDFRenderer renderer = new PDFRenderer(pdf);
    for (int i = 0; i < pdf.getNumberOfPages(); i++) {
      BufferedImage image = renderer.renderImageWithDPI(i, 72);
      if (i < 4) {
        SmallPng.write(image, folder.resolve("record-page-" + (i + 1) + ".png"));
      }
      int ink = 0;
      for (int y = 0; y < image.getHeight(); y++) {
        for (int x = 0; x < image.getWidth(); x++) {
          boolean dark = (image.getRGB(x, y) & 0xff00) >> 8 < 200;
          boolean inside =
              x >= 40 && x < image.getWidth() - 40 && y >= 40 && y < image.getHeight() - 20;
          assertFalse(dark && !inside, "page " + (i + 1) + " has ink at " + x + ", " + y);
          ink += dark ? 1 : 0;
        }
      }
      assertTrue(ink > 500, "page " + (i + 1) + " has " + ink + " dark points");
    }
  }

  @Test
  void calibrationsAndProofTestsAreThoseInForceWhenTheBatchBegan() {
    assertTrue(text.contains("2025-12-01 10:00"), "the newest before the start");
    assertFalse(text.contains("2025-06-01 10:00"), "an older one is not in force");
    assertFalse(text.contains("2026-02-01 10:00"), "a later one was not in force yet");
    assertTrue(text.contains("2025-11-20 oven too hot passed 2026-02-18 Ann Example"));
    assertFalse(text.contains("2026-01-20"));
    assertTrue(html.contains("<td>2025-11-20</td><td>oven too hot</td><td>passed</td>"));
  }

  @Test
  void namesThatTheFontsLackDoNotBreakIt(@TempDir Path other) throws IOException {
    Path odd = other.resolve("odd.recipe.yaml");
    String recipe = LoadedFiles.text(Demo.COPPER);
    Files.writeString(
        odd,
        recipe.replace("Copper powder to copper(II) oxide", "漢字 🧪 Kupfer Ωσκ"),
        StandardCharsets.UTF_8);
    Ran.well("rehearse", odd, "--rig", Demo.RIG, "--seed", 7, "--data", other);
    Ran.well("record", 1, "--data", other, "--to", other.resolve("to"));
    try (PDDocument made = Loader.loadPDF(other.resolve("to/batch-1.pdf").toFile())) {
      String words = new PDFTextStripper().getText(made);
      assertTrue(words.contains("Kupfer Ωσκ"));
      assertTrue(words.contains("characters that the fonts of this file lack"));
    }
    assertTrue(Files.readString(other.resolve("to/batch-1.html")).contains("漢字 🧪 Kupfer"));
  }

  @Test
  void batchesStandSideBySideWithTheNumbersOfTheirRecords() throws IOException {
    String table = Ran.well("record", 1, "--data", data, "--compare", "2");
    Ran.well("record", 2, "--data", data, "--to", to);
    List<String> wanted = new ArrayList<>();
    for (int batch : new int[] {1, 2}) {
      Matcher perUnit =
          Pattern.compile("<dt>O per formula unit</dt><dd>(.*?)</dd>")
              .matcher(Files.readString(to.resolve("batch-" + batch + ".html")));
      assertTrue(perUnit.find());
      wanted.add(perUnit.group(1).replace("\u00a0", " "));
    }
    String row =
        table.lines().filter(line -> line.contains("O per formula unit")).findFirst().orElseThrow();
    assertTrue(row.startsWith("≠"), row);
    assertTrue(row.indexOf(wanted.get(0)) > 0, row);
    assertTrue(row.indexOf(wanted.get(1)) > row.indexOf(wanted.get(0)), row);
    String charge = table.lines().filter(line -> line.contains("Charge")).findFirst().orElseThrow();
    assertTrue(charge.startsWith("  Charge"), charge);
  }
}
