package tarnish.controller.record;

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

/** What stands in a record, whatever it is written on. */
final class RecordContent {
  /** More lines than this belong into a file, not on paper. */
  private static final int EVENTS_MAX = 1500;

  private final BatchStory story;
  private final Map<String, String> sums;
  private final String version;
  private final InForce inForce;
  private final Paper paper;

  RecordContent(
      BatchStory story, InForce inForce, Map<String, String> sums, String version, Paper paper) {
    this.story = story;
    this.inForce = inForce;
    this.sums = sums;
    this.version = version;
    this.paper = paper;
  }

  static String title(BatchStory story) {
    return "Batch " + story.line().batch() + ": " + story.head().title();
  }

  void write() {
    paper.title("Batch record", title(story));
    if (story.isInvented()) {
      paper.notice(notice());
    }
    outcome();
    history();
    soaks();
    composition();
    alarms();
    people();
    new BenchPart(story.plan().rig(), inForce, paper).write();
    texts();
    events();
    proof();
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
    paper.section("The job and what became of it");
    paper.facts(
        fact("Ended", ended ? story.end().state() : "no end recorded; then " + story.end().state()),
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
        fact("Alarms, trips", story.end().tally().alarms() + ", " + story.end().tally().trips()));
    paper.paragraph(
        "Intervals are one standard uncertainty (JCGM 100:2008). O per formula unit by all witnesses,"
            + " gas and balance; oxygen taken up by the gas alone. Times of day are in UTC and count on"
            + " from the start, whatever is done to the clock of the machine.");
  }

  private void history() {
    Pictures pictures = new Pictures(story);
    paper.section("Thermal and gas history");
    paper.figure(
        pictures.temperatures(),
        "Sample (blue) and oven (brown) from least to greatest in each column, so that no peak is"
            + " hidden; setpoint dashed, absent where the heater was off. Bars above the frame: first row"
            + " paused, second row held after a trip, third row vessel open."
            + (story.outages().isEmpty()
                ? ""
                : " Grey: nobody was in control, heater off; the dotted line there is an estimate."));
    paper.figure(
        pictures.pressure(),
        "Vessel pressure from least to greatest in each column; a stroke at the foot for each"
            + " oxygen pulse.");
    paper.figure(
        pictures.composition(),
        "Oxygen per formula unit by all witnesses, one standard uncertainty to either side; dots"
            + " are weighings, the dashed line is the target.");
    extremes();
    outages();
  }

  private void outages() {
    if (story.outages().isEmpty()) {
      return;
    }
    paper.table(
        Paper.Setting.LINES,
        List.of("Control was back", "What is known of the time without it"),
        story.outages().stream()
            .map(each -> List.of(Clock.minute(each.endWallTime()), each.told().sentence() + "."))
            .toList());
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
    paper.table(Paper.Setting.NUMBERS, List.of("Reading", "Least", "Greatest", "At the end"), rows);
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
    paper.section("Time at temperature");
    paper.table(
        Paper.Setting.NUMBERS,
        List.of("Soak at", "Wanted in band", "Earned in band", "Took", "Began after"),
        rows);
    paper.facts(
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
    paper.section("Uptake and composition");
    paper.table(
        Paper.Setting.NUMBERS,
        List.of("When", "Weighed", "Taken up by the gas", "O per formula unit", "Conversion"),
        rows);
    List<EventLine> leaks = story.events("LeakTested");
    if (!leaks.isEmpty()) {
      paper.table(Paper.Setting.LINES, List.of("When", "Tightness"), lines(leaks));
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
    paper.section("Alarms and what was done");
    if (story.alarms().isEmpty()) {
      paper.paragraph("No alarm was raised.");
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
    paper.table(
        Paper.Setting.LINES, List.of("Raised", "Alarm", "Done by the program", "Then"), rows);
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
    paper.section("Who was there");
    paper.paragraph("Known from what they asked for at the page, by the name given there.");
    paper.table(Paper.Setting.LINES, List.of("Name", "Requests", "First", "Last"), rows);
    List<EventLine> came = story.events("PresenceChanged");
    if (!came.isEmpty()) {
      paper.table(Paper.Setting.LINES, List.of("When", "At the bench"), lines(came));
    }
    List<EventLine> asked = story.events().stream().filter(line -> isAct(line.kind())).toList();
    paper.table(
        Paper.Setting.LINES,
        List.of("When", "Requests, answers, and changes of state"),
        lines(asked));
    ActsPart.write(story.acts(), paper);
  }

  /** An act once: a request done is told by the change of state, an answer by its words. */
  private static boolean isAct(String kind) {
    return kind.startsWith("Request.") && !kind.equals("Request.Answer")
        || kind.equals("RequestRefused")
        || kind.equals("Answered")
        || kind.equals("StateChanged");
  }

  private void texts() {
    paper.section("Recipe as run");
    paper.paragraph("SHA-256 " + Sha256.of(story.head().recipeText()));
    paper.verbatim(story.head().recipeText());
    paper.section("Rig file as used");
    paper.paragraph("SHA-256 " + Sha256.of(story.head().rigText()));
    paper.verbatim(story.head().rigText());
  }

  private void events() {
    int all = story.events().size();
    paper.section("Events");
    if (all > EVENTS_MAX) {
      paper.paragraph(
          "The first "
              + EVENTS_MAX
              + " of "
              + all
              + "; the rest stands in the export named below.");
    }
    paper.table(
        Paper.Setting.LINES,
        List.of("When", "What"),
        lines(story.events().subList(0, StrictMath.min(all, EVENTS_MAX))));
  }

  private void proof() {
    BatchStory.Check check = story.check();
    paper.section("Fingerprints");
    List<EventLine> damaged = story.events("RecordDamaged");
    if (!damaged.isEmpty()) {
      paper.table(Paper.Setting.LINES, List.of("When", "Damage of the record"), lines(damaged));
    }
    paper.paragraph(
        check.firstDifference().isEmpty()
            ? "Control was run again on the "
                + check.ticks()
                + " recorded ticks for this record and gave the same outputs and events."
            : "Control of this version decides otherwise than recorded, "
                + check.firstDifference()
                + ". Figures of this record that are not events end there.");
    paper.table(
        Paper.Setting.SUMS,
        List.of("File written beside this one", "SHA-256"),
        sums.entrySet().stream().map(e -> List.of(e.getKey(), e.getValue())).toList());
    paper.paragraph("Written by Tarnish " + version + ".");
    paper.signatures("Remarks", "Looked through by, date");
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
}
