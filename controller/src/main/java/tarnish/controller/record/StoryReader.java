package tarnish.controller.record;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import tarnish.controller.control.Control;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Event;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Report;
import tarnish.controller.control.Request;
import tarnish.controller.control.SoakRecord;
import tarnish.controller.control.Turn;
import tarnish.controller.files.AttendedOnly;
import tarnish.controller.files.ReadResult;
import tarnish.controller.files.RecipeReader;
import tarnish.controller.files.RigReader;
import tarnish.controller.journal.Journal;
import tarnish.controller.journal.Journal.BatchHead;
import tarnish.controller.journal.Journal.BatchLine;
import tarnish.controller.journal.Journal.EventLine;
import tarnish.controller.journal.Journal.History;
import tarnish.controller.journal.Journal.RecordedTick;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.RigDescription;

/**
 * Runs control again over a recorded batch, in constant memory, and notes what a record needs that
 * the rows of events do not hold as numbers.
 */
final class StoryReader implements Consumer<RecordedTick> {
  private static final int COLUMNS = 700;
  private static final int ACTS_MAX = 2000;

  private final Plan plan;
  private final double columnMillis;
  private final double[] setpointK = new double[COLUMNS];
  private final Estimate[] oxygenPerUnit = new Estimate[COLUMNS];
  private final double[] inBandS = new double[COLUMNS];
  private final double[] equivalentS = new double[COLUMNS];
  private final Stretches stretches = new Stretches();
  private final List<BatchStory.Outage> outages = new ArrayList<>();
  private final List<BatchStory.Weighing> weighings = new ArrayList<>();
  private final List<BatchStory.Alarm> alarms = new ArrayList<>();
  private final Map<String, BatchStory.Person> people = new LinkedHashMap<>();
  private final Map<Integer, Long> stepStarts = new HashMap<>();
  private final List<Long> soakStarts = new ArrayList<>();
  private final List<Long> soakEnds = new ArrayList<>();
  private ControlState state;
  private int column = -1;
  private long ticks;
  private String firstDifference = "";

  private StoryReader(Plan plan, long lastMillis) {
    this.plan = plan;
    columnMillis = StrictMath.max(1.0, (lastMillis + 1.0) / COLUMNS);
    state = ControlState.initial(plan);
    Arrays.fill(setpointK, Double.NaN);
    Arrays.fill(inBandS, Double.NaN);
    Arrays.fill(equivalentS, Double.NaN);
  }

  /**
   * @throws IllegalArgumentException if there is no such batch, or its recorded texts are of a form
   *     that this version cannot read
   */
  static BatchStory read(Journal journal, int batch) {
    BatchLine line =
        journal.batches().stream()
            .filter(each -> each.batch() == batch)
            .findFirst()
            .orElseThrow(
                () -> new IllegalArgumentException("There is no batch " + batch + " here."));
    BatchHead head = journal.head(batch);
    RigDescription rig = value(RigReader.read("rig of batch " + batch, head.rigText()));
    Recipe recipe =
        value(RecipeReader.read("recipe of batch " + batch, head.recipeText(), Optional.of(rig)));
    Plan plan = Plan.of(AttendedOnly.asNoted(recipe, head.note()), rig);
    StoryReader reader = new StoryReader(plan, line.lastMillis());
    journal.playBack(batch, reader);
    reader.closeColumn();
    List<EventLine> events = journal.events(batch, 0, Integer.MAX_VALUE);
    History history = journal.history(batch, 0, StrictMath.max(1, line.lastMillis()), COLUMNS);
    return reader.story(line, head, events, history, journal.acts(batch, ACTS_MAX));
  }

  private static <T> T value(ReadResult<T> result) {
    if (result.isGood()) {
      return result.value();
    }
    throw new IllegalArgumentException(
        "The record was begun by another version of Tarnish: " + result.faults().get(0));
  }

  @Override
  public void accept(RecordedTick recorded) {
    if (!firstDifference.isEmpty()) {
      return;
    }
    enterColumn(recorded.millis());
    Turn turn =
        Control.tick(plan, state, recorded.readings(), recorded.requests(), recorded.millis());
    compare(recorded, turn);
    if (!firstDifference.isEmpty()) {
      return;
    }
    long beforeMillis = StrictMath.max(0, state.lastMillis());
    state = turn.state();
    stretches.tick(state);
    ticks++;
    recorded.requests().forEach(request -> note(request, recorded.wallTimeOrEmpty()));
    for (Event event : turn.events()) {
      if (event instanceof Event.Outage told) {
        String wallTime = recorded.wallTimeOrEmpty();
        outages.add(new BatchStory.Outage(beforeMillis, recorded.millis(), wallTime, told));
      }
      note(event, recorded);
    }
  }

  private void enterColumn(long millis) {
    int next = (int) StrictMath.min(COLUMNS - 1, millis / columnMillis);
    if (next != column) {
      closeColumn();
      column = next;
    }
  }

  private void closeColumn() {
    if (column >= 0) {
      setpointK[column] = state.setpointK() < 0 ? Double.NaN : state.setpointK();
      Report report = new Report(plan, state);
      oxygenPerUnit[column] = report.oxygenPerUnit();
      inBandS[column] = report.soaks().stream().mapToDouble(SoakRecord::inBandS).sum();
      equivalentS[column] = state.tally().equivalentS();
    }
  }

  private void compare(RecordedTick recorded, Turn turn) {
    List<String> now = turn.events().stream().map(Event::sentence).toList();
    List<String> then = recorded.events().stream().map(EventLine::sentence).toList();
    if (!turn.outputs().equals(recorded.outputs()) || !now.equals(then)) {
      firstDifference =
          "at " + recorded.millis() + " ms: recorded " + recorded.outputs() + " " + then;
    }
  }

  private void note(Request request, String wallTime) {
    boolean byTheShell =
        request instanceof Request.PowerReturned
            || request instanceof Request.ShellTrouble
            || request instanceof Request.RecordDamaged
            || request instanceof Request.TakeOver;
    if (byTheShell) {
      return;
    }
    people.merge(
        request.by(),
        new BatchStory.Person(request.by(), 1, wallTime, wallTime),
        (old, add) ->
            new BatchStory.Person(
                old.name(), old.requests() + 1, old.firstWallTime(), add.lastWallTime()));
  }

  private void note(Event event, RecordedTick at) {
    if (event instanceof Event.Weighed weighed) {
      Report report = new Report(plan, state);
      weighings.add(
          new BatchStory.Weighing(
              at.millis(),
              at.wallTimeOrEmpty(),
              weighed.massKg(),
              weighed.oxygenPerUnit(),
              report.uptakeMol(),
              report.conversion()));
    } else if (event instanceof Event.AlarmRaised raised) {
      alarms.add(
          new BatchStory.Alarm(
              raised.alarm(),
              at.millis(),
              at.wallTimeOrEmpty(),
              raised.firstOut(),
              raised.text(),
              done(raised.alarm()),
              new ArrayList<>()));
    } else if (event instanceof Event.AlarmChanged changed) {
      noteChange(changed, at);
    } else if (event instanceof Event.StepStarted started) {
      stepStarts.put(started.position(), at.millis());
    } else if (event instanceof Event.StepEnded ended && state.soaks().size() > soakEnds.size()) {
      soakStarts.add(stepStarts.getOrDefault(ended.position(), 0L));
      soakEnds.add(at.millis());
    }
  }

  private void noteChange(Event.AlarmChanged changed, RecordedTick at) {
    for (int i = alarms.size() - 1; i >= 0; i--) {
      if (alarms.get(i).id().equals(changed.alarm())) {
        String later = Clock.minute(at.wallTimeOrEmpty()) + " " + changed.to().words();
        alarms.get(i).later().add(later + ": " + changed.why());
        return;
      }
    }
  }

  private String done(String alarm) {
    return new Report(plan, state)
        .interlocks().stream()
            .filter(row -> row.id().equals(alarm))
            .map(Report.Row::done)
            .findFirst()
            .orElse("");
  }

  private List<BatchStory.Soak> soaks(Report report) {
    List<BatchStory.Soak> soaks = new ArrayList<>();
    List<SoakRecord> earned = report.soaks();
    for (int i = 0; i < earned.size(); i++) {
      boolean ended = i < soakEnds.size();
      long start =
          ended ? soakStarts.get(i) : stepStarts.getOrDefault(earned.get(i).position(), -1L);
      soaks.add(new BatchStory.Soak(earned.get(i), start, ended ? soakEnds.get(i) : -1));
    }
    return soaks;
  }

  private BatchStory story(
      BatchLine line,
      BatchHead head,
      List<EventLine> events,
      History history,
      List<Journal.Act> acts) {
    Report report = new Report(plan, state);
    BatchStory.Books end =
        new BatchStory.Books(
            state.phase().words(),
            state.tally(),
            state.gas().pulses(),
            report.uptakeMol(),
            report.oxygenPerUnit(),
            report.conversion());
    return new BatchStory(
        line,
        head,
        plan,
        end,
        soaks(report),
        List.copyOf(weighings),
        List.copyOf(alarms),
        List.copyOf(people.values()),
        events,
        history,
        stretches.upTo(StrictMath.max(0, state.lastMillis())),
        List.copyOf(outages),
        new BatchStory.Course(columnMillis, setpointK, oxygenPerUnit, inBandS, equivalentS),
        new BatchStory.Check(ticks, firstDifference),
        acts);
  }
}
