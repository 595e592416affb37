package tarnish.controller.record;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import tarnish.controller.control.Words;
import tarnish.controller.journal.Journal.EventLine;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;
import tarnish.shared.recipe.OxideMember;
import tarnish.shared.recipe.Recipe;

/** The printable page: A4, no script, nothing loaded from anywhere. */
public final class RecordPage {
  /** The one style sheet, as it stands in every page: what a content security policy may name. */
  public static final String STYLE = resource("record.css");

  /** More lines than this belong into a file, not on paper. */
  private static final int EVENTS_MAX = 1500;

  private final BatchStory story;
  private final Map<String, String> sums;
  private final String version;
  private final Html html = new Html();

  private RecordPage(BatchStory story, Map<String, String> sums, String version) {
    this.story = story;
    this.sums = sums;
    this.version = version;
  }

  static String of(BatchStory story, Map<String, String> sums, String version) {
    return new RecordPage(story, sums, version).write();
  }

  private String write() {
    String title = "Batch " + story.line().batch() + ": " + story.head().title();
    html.raw("<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n")
        .raw("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
        .element("title", title + " – record")
        .raw("<style>" + STYLE + "</style></head>\n<body>\n<header>")
        .element("p", "Batch record")
        .element("h1", title)
        .raw("</header>\n<main>\n");
    if (story.isInvented()) {
      html.raw("<p class=\"notice\">").raw(Html.text(notice())).raw("</p>\n");
    }
    outcome();
    history();
    soaks();
    composition();
    alarms();
    people();
    new BenchPart(story.plan().rig(), html).write();
    texts();
    events();
    proof();
    return html.raw("</main>\n</body></html>\n").toString();
  }

  private String notice() {
    String note = story.head().note();
    String invented = "invented demonstration data";
    String all = note.startsWith(invented) ? note : invented + "; " + note;
    return all.substring(0, 1).toUpperCase(Locale.ROOT) + all.substring(1) + ".";
  }

  private void outcome() {
    Recipe recipe = story.plan().recipe();
    boolean ended = !story.line().endState().isEmpty();
    html.section("The job and what became of it")
        .facts(
            fact(
                "Ended",
                ended ? story.end().state() : "no end recorded; then " + story.end().state()),
            fact("Started", Clock.minuteAndZone(story.head().startedAt())),
            fact("Calendar time", Words.duration(story.line().lastMillis() / 1e3)),
            fact("Charge", recipe.charge().formula() + ", " + mass(chargeMass(recipe))),
            fact("Series", series(recipe)),
            fact("Target", recipe.target().formula()),
            fact("O per formula unit", Words.estimate(story.end().oxygenPerUnit())),
            fact("Conversion", Words.estimate(story.end().conversion().times(100)) + " %"),
            fact("Oxygen taken up", Words.amount(story.end().uptakeMol())),
            fact("Oxygen needed", Quantities.print(recipe.oxygenNeededMol(), Unit.MILLIMOLE, 2)),
            fact("Oxygen pulses", Integer.toString(story.end().pulses())),
            fact(
                "Alarms, trips", story.end().tally().alarms() + ", " + story.end().tally().trips()))
        .element(
            "p",
            "Intervals are one standard uncertainty (JCGM 100:2008). O per formula unit by all witnesses,"
                + " gas and balance; oxygen taken up by the gas alone.");
  }

  private void history() {
    Pictures pictures = new Pictures(story);
    html.section("Thermal and gas history");
    figure(
        pictures.temperatures(),
        "Sample (blue) and oven (brown) from least to greatest in each column, so that no peak is"
            + " hidden; setpoint dashed, absent where the heater was off.");
    figure(
        pictures.pressure(),
        "Vessel pressure from least to greatest in each column; a stroke at the foot for each"
            + " oxygen pulse.");
    figure(
        pictures.composition(),
        "Oxygen per formula unit by all witnesses, one standard uncertainty to either side; dots"
            + " are weighings, the dashed line is the target.");
    extremes();
  }

  private void figure(String svg, String caption) {
    html.raw("<figure>").raw(svg).raw("<figcaption>").raw(Html.text(caption));
    html.raw("</figcaption></figure>\n");
  }

  private void extremes() {
    List<List<String>> rows =
        story.history().series().stream()
            .filter(series -> Extremes.of(series).count() > 0)
            .map(
                series -> {
                  Extremes seen = Extremes.of(series);
                  var channel = Extremes.channel(series);
                  return List.of(
                      channel.words(),
                      Words.value(channel, seen.least()),
                      Words.value(channel, seen.greatest()),
                      Words.value(channel, seen.last()));
                })
            .toList();
    html.table("numbers", List.of("Reading", "Least", "Greatest", "At the end"), rows);
  }

  private void soaks() {
    List<List<String>> rows = new ArrayList<>();
    for (BatchStory.Soak soak : story.soaks()) {
      boolean ended = soak.endMillis() >= 0;
      rows.add(
          List.of(
              Words.temperature(soak.earned().setpointK()),
              Words.duration(soak.earned().requiredS()),
              Words.duration(soak.earned().inBandS()),
              ended ? Words.duration((soak.endMillis() - soak.startMillis()) / 1e3) : "not ended",
              soak.startMillis() < 0 ? "–" : Words.duration(soak.startMillis() / 1e3)));
    }
    var tally = story.end().tally();
    html.section("Time at temperature")
        .table(
            "numbers",
            List.of("Soak at", "Wanted in band", "Earned in band", "Took", "Began after"),
            rows)
        .facts(
            fact("Calendar time", Words.duration(story.line().lastMillis() / 1e3)),
            fact("Running", Words.duration(tally.runningS())),
            fact("Oven time", Words.duration(tally.ovenS())),
            fact("Equivalent time at " + Words.temperature(story.plan().topSoakK()), equivalent()));
  }

  private String equivalent() {
    return story.plan().recipe().activationEnergyJPerMol().isPresent()
        ? Words.duration(story.end().tally().equivalentS())
        : "not known: the recipe gives no activation energy";
  }

  private void composition() {
    List<List<String>> rows = new ArrayList<>();
    for (BatchStory.Weighing each : story.weighings()) {
      rows.add(
          row(
              Clock.minute(each.wallTime()),
              mass(each.massKg()),
              each.uptakeMol(),
              each.oxygenPerUnit(),
              each.conversion()));
    }
    BatchStory.Books end = story.end();
    rows.add(row("at the end", "", end.uptakeMol(), end.oxygenPerUnit(), end.conversion()));
    html.section("Uptake and composition")
        .table(
            "numbers",
            List.of("When", "Weighed", "Taken up by the gas", "O per formula unit", "Conversion"),
            rows);
    List<EventLine> leaks = story.events("LeakTested");
    if (!leaks.isEmpty()) {
      html.table("lines", List.of("When", "Tightness"), lines(leaks));
    }
  }

  private static List<String> row(
      String when, String mass, Estimate uptakeMol, Estimate perUnit, Estimate conversion) {
    return List.of(
        when,
        mass,
        Words.amount(uptakeMol),
        Words.estimate(perUnit),
        Words.estimate(conversion.times(100)) + " %");
  }

  private void alarms() {
    html.section("Alarms and what was done");
    if (story.alarms().isEmpty()) {
      html.element("p", "No alarm was raised.");
      return;
    }
    List<List<String>> rows = new ArrayList<>();
    for (BatchStory.Alarm alarm : story.alarms()) {
      rows.add(
          List.of(
              Clock.minute(alarm.wallTime()),
              alarm.id() + (alarm.firstOut() ? " (first out)" : "") + ": " + alarm.text(),
              alarm.done(),
              alarm.later().isEmpty() ? "still up at the end" : String.join("; ", alarm.later())));
    }
    html.table("lines", List.of("Raised", "Alarm", "Done by the program", "Then"), rows);
  }

  private void people() {
    List<List<String>> rows =
        story.people().stream()
            .map(
                person ->
                    List.of(
                        person.name(),
                        Integer.toString(person.requests()),
                        Clock.minute(person.firstWallTime()),
                        Clock.minute(person.lastWallTime())))
            .toList();
    html.section("Who was there")
        .element("p", "Known from what they asked for at the page, by the name given there.")
        .table("lines", List.of("Name", "Requests", "First", "Last"), rows);
    List<EventLine> asked = story.events().stream().filter(line -> isAct(line.kind())).toList();
    html.table("lines", List.of("When", "Requests, answers, and changes of state"), lines(asked));
    ActsPart.write(story.acts(), html);
  }

  /** An act once: a request done is told by the change of state, an answer by its words. */
  private static boolean isAct(String kind) {
    return kind.startsWith("Request.") && !kind.equals("Request.Answer")
        || kind.equals("RequestRefused")
        || kind.equals("Answered")
        || kind.equals("StateChanged");
  }

  private void texts() {
    html.section("Recipe as run")
        .element("p", "SHA-256 " + Sha256.of(story.head().recipeText()))
        .element("pre", story.head().recipeText())
        .section("Rig file as used")
        .element("p", "SHA-256 " + Sha256.of(story.head().rigText()))
        .element("pre", story.head().rigText());
  }

  private void events() {
    int all = story.events().size();
    html.section("Events");
    if (all > EVENTS_MAX) {
      html.element(
          "p",
          "The first "
              + EVENTS_MAX
              + " of "
              + all
              + "; the rest stands in the export named below.");
    }
    html.table(
        "lines",
        List.of("When", "What"),
        lines(story.events().subList(0, StrictMath.min(all, EVENTS_MAX))));
  }

  private void proof() {
    BatchStory.Check check = story.check();
    html.section("Fingerprints");
    html.element(
        "p",
        check.firstDifference().isEmpty()
            ? "Control was run again on the "
                + check.ticks()
                + " recorded ticks for this page and gave the same outputs and events."
            : "Control of this version decides otherwise than recorded, "
                + check.firstDifference()
                + ". Figures on this page that are not events end there.");
    html.table(
        "sums",
        List.of("File written beside this page", "SHA-256"),
        sums.entrySet().stream().map(e -> List.of(e.getKey(), e.getValue())).toList());
    html.element("p", "Written by Tarnish " + version + ".");
    html.raw("<p class=\"sign\"><span>Remarks</span><span>Looked through by, date</span></p>\n");
  }

  private static List<List<String>> lines(List<EventLine> events) {
    return events.stream()
        .map(line -> List.of(Clock.minute(line.wallTime()), line.sentence()))
        .toList();
  }

  private static Estimate chargeMass(Recipe recipe) {
    return new Estimate(recipe.charge().massKg(), recipe.charge().massStandardUncertaintyKg());
  }

  private static String mass(Estimate massKg) {
    return Quantities.printEstimate(massKg, Unit.GRAM);
  }

  private static String series(Recipe recipe) {
    return recipe.series().stream().map(OxideMember::formula).collect(Collectors.joining(" → "));
  }

  private static String[] fact(String name, String value) {
    return new String[] {name, value};
  }

  private static String resource(String name) {
    try (InputStream in = RecordPage.class.getResourceAsStream(name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
