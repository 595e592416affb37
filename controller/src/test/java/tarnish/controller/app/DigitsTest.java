package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Event;
import tarnish.controller.control.Plan;
import tarnish.controller.service.Status;
import tarnish.sim.BenchSpec;
import tarnish.sim.SimulatedRig;

/** No figure on the page or in the record has more digits than its uncertainty allows. */
class DigitsTest {
  private static final Pattern ESTIMATE =
      Pattern.compile("(-?\\d+(?:\\.\\d+)?) ± (\\d+(?:\\.\\d+)?)");

  /**
   * No gauge, balance or thermometer of a bench is worth so many digits without a word of doubt.
   */
  private static final Pattern BARE = Pattern.compile("-?\\d+\\.\\d{5,} (?:mmol|mg|g|mbar|°C)\\b");

  /** JCGM 100:2008, 7.2.6: at most two digits of the uncertainty, the value to the same place. */
  private static void check(String text, List<String> seen) {
    Matcher bare = BARE.matcher(text);
    assertFalse(bare.find(), () -> "'" + bare.group() + "' in: " + text);
    Matcher found = ESTIMATE.matcher(text);
    while (found.find()) {
      BigDecimal value = new BigDecimal(found.group(1));
      BigDecimal u = new BigDecimal(found.group(2));
      assertEquals(u.scale(), value.scale(), "'" + found.group() + "' in: " + text);
      BigDecimal digits = u.scale() > 0 ? u : u.stripTrailingZeros();
      assertTrue(u.signum() == 0 || digits.precision() <= 2, "'" + found.group() + "' in: " + text);
      seen.add(found.group());
    }
  }

  @Test
  void theCheckFailsForADigitTooMany() {
    List<String> seen = new ArrayList<>();
    check("(4.902 ± 0.012) g and 31 ± 10", seen);
    assertEquals(2, seen.size());
    for (String wrong :
        List.of(
            "4.9021 ± 0.012", "4.902 ± 0.0121", "31.0 ± 10", "5 ± 123", "from 1.68847 mmol to")) {
      assertThrows(AssertionError.class, () -> check(wrong, seen), wrong);
    }
  }

  @Test
  void pageAndRecordSayNoMoreThanIsKnown() {
    LoadedFiles files = LoadedFiles.read(Demo.CATALYST, Demo.CATALYST_RIG);
    Plan plan = Plan.of(files.recipe(), files.rig());
    SimulatedRig rig =
        new SimulatedRig(BenchSpec.drawn(files.rig(), files.recipe(), 11), files.rig());
    BenchRun run = new BenchRun(plan, new SimulatedBench(rig), ControlState.initial(plan));
    TrialOperator operator = new TrialOperator(rig, new Chance(11));
    StatusWriter writer = new StatusWriter("test", 1, true);
    List<String> onPage = new ArrayList<>();
    List<String> inRecord = new ArrayList<>();
    while (!run.state().phase().isFinal() && run.millis() < 24L * 3600 * 1000) {
      long next = run.millis() + plan.rig().tickMillis();
      var turn = run.tickAt(next, operator.requests(run.state(), next / 1000.0));
      for (Event event : turn.events()) {
        check(event.sentence(), inRecord);
      }
      if (next % 600_000 == 0) {
        page(writer, plan, run, onPage);
      }
    }
    rig.close();
    assertTrue(onPage.size() > 300, onPage.size() + " figures on the page");
    assertTrue(inRecord.size() > 100, inRecord.size() + " figures in the record");
  }

  /** What a reader sees of a page: no tags, no style sheet, no drawing's coordinates. */
  private static String seen(String html) {
    return html.replaceAll("(?s)<style.*?</style>", "")
        .replaceAll("(?s)<path[^>]*>", "")
        .replaceAll("<[^>]*>", "\n")
        .replace("&nbsp;", " ")
        .replace('\u00a0', ' ');
  }

  /** What is estimated, by the label beside it, must say how sure it is. */
  private static final List<String> ESTIMATED =
      List.of("O per formula unit", "Conversion", "Oxygen taken up");

  @Test
  void thePrintableRecordSaysNoMoreThanIsKnown(@TempDir Path data, @TempDir Path to)
      throws IOException {
    Ran.well("rehearse", Demo.CATALYST, "--rig", Demo.CATALYST_RIG, "--seed", 11, "--data", data);
    Ran.well("record", 1, "--data", data, "--to", to);
    String record = seen(Files.readString(to.resolve("batch-1.html")));
    List<String> figures = new ArrayList<>();
    check(record, figures);
    assertTrue(figures.size() > 100, figures.size() + " figures in the printed record");
    for (String label : ESTIMATED) {
      Matcher beside = Pattern.compile(label + "\\s*\\n\\s*([^\\n]+)").matcher(record);
      assertTrue(beside.find(), label + " stands in the record");
      assertTrue(beside.group(1).contains("±"), label + ": " + beside.group(1));
    }
  }

  /** Cells are broken over lines at their blanks, each in one piece in the text. */
  private static String read(Path pdf) throws IOException {
    try (PDDocument document = Loader.loadPDF(pdf.toFile())) {
      return new PDFTextStripper().getText(document).replaceAll("[\\s\u00a0]+", " ");
    }
  }

  @Test
  void thePdfSaysNoMoreThanIsKnownAndHasTheFiguresOfThePrintableRecord(
      @TempDir Path data, @TempDir Path to) throws IOException {
    Ran.well("rehearse", Demo.CATALYST, "--rig", Demo.CATALYST_RIG, "--seed", 12, "--data", data);
    Ran.well("record", 1, "--data", data, "--to", to);
    String pdf = read(to.resolve("batch-1.pdf"));
    List<String> figures = new ArrayList<>();
    check(pdf, figures);
    List<String> printed = new ArrayList<>();
    check(seen(Files.readString(to.resolve("batch-1.html"))), printed);
    assertTrue(printed.size() > 100, printed.size() + " figures in the printed record");
    assertEquals(printed.stream().sorted().toList(), figures.stream().sorted().toList());
    for (String label : ESTIMATED) {
      Matcher beside = Pattern.compile(label + " (.{1,30})").matcher(pdf);
      assertTrue(beside.find(), label + " stands in the PDF");
      assertTrue(beside.group(1).contains("±"), label + ": " + beside.group(1));
    }
  }

  private static void page(StatusWriter writer, Plan plan, BenchRun run, List<String> seen) {
    OffsetDateTime now = OffsetDateTime.of(2026, 1, 1, 0, 0, 0, 0, ZoneOffset.UTC);
    Status status =
        writer.write(
            plan,
            run.state(),
            run.readings(),
            new StatusWriter.Shell(1, now, null, new Status.LoopLine(0, 0, 0, 250)));
    Status.OxygenLine oxygen = status.oxygen();
    check(String.join("; ", oxygen.taken(), oxygen.perUnit(), oxygen.conversion()), seen);
    oxygen.more().forEach(line -> check(line.text(), seen));
    oxygen.stalled().forEach(line -> check(line.evidence(), seen));
  }
}
