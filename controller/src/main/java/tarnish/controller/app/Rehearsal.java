package tarnish.controller.app;

import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Event;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Program;
import tarnish.controller.control.Request;
import tarnish.controller.control.Turn;
import tarnish.controller.journal.Journal;
import tarnish.controller.journal.Journal.BatchHead;
import tarnish.sim.SimulatedRig;

/** A whole batch on the simulated bench, as fast as the processor goes. */
final class Rehearsal {
  /** Calendar name of a rehearsal's first tick: fixed, so that two runs write the same record. */
  static final OffsetDateTime STARTED_AT = OffsetDateTime.parse("2026-01-05T08:00:00Z");

  /** A recipe that takes longer than this is not rehearsed to its end: 90 days in ms. */
  private static final long MILLIS_MAX = 90L * 24 * 3600 * 1000;

  /** How long a stopped or held batch is watched before the rehearsal ends, in ms. */
  private static final long HELD_WATCH_MILLIS = 600_000;

  private final LoadedFiles files;
  private final long seed;
  private final Optional<Journal> journal;
  private final Optional<Program> changed;

  private Consumer<BenchRun> watcher = run -> {};

  Rehearsal(LoadedFiles files, long seed, Optional<Journal> journal) {
    this(files, seed, journal, Optional.empty());
  }

  /** With other steps than the recipe's, of the same layout. */
  Rehearsal(LoadedFiles files, long seed, Optional<Journal> journal, Program changed) {
    this(files, seed, journal, Optional.of(changed));
  }

  private Rehearsal(
      LoadedFiles files, long seed, Optional<Journal> journal, Optional<Program> changed) {
    this.files = files;
    this.seed = seed;
    this.journal = journal;
    this.changed = changed;
  }

  /** Shows every tick to {@code newWatcher}. */
  Rehearsal watchedBy(Consumer<BenchRun> newWatcher) {
    watcher = newWatcher;
    return this;
  }

  RehearsalResult run() {
    Plan plan = Plan.of(files.recipe(), files.rig());
    SimulatedRig bench =
        new SimulatedRig(RehearsedBench.spec(files.rig(), files.recipe(), seed), files.rig());
    BenchRun run = new BenchRun(plan, new SimulatedBench(bench), start(plan));
    StandInOperator operator = new StandInOperator(plan, bench);
    RehearsalMeter meter = new RehearsalMeter(plan.rig());
    int batch = journal.map(j -> j.begin(head())).orElse(0);
    long startedNanos = System.nanoTime();
    long heldMillis = 0;
    String lastTrip = "";
    while (!run.state().phase().isFinal()
        && run.millis() < MILLIS_MAX
        && heldMillis < HELD_WATCH_MILLIS) {
      long nextMillis = run.millis() + plan.rig().tickMillis();
      List<Request> requests = operator.requests(run.state(), nextMillis / 1000.0);
      Turn turn = run.tickAt(nextMillis, requests);
      meter.look(run, bench, turn.outputs());
      watcher.accept(run);
      if (journal.isPresent()) {
        String wallTime = wallTime(nextMillis);
        journal
            .get()
            .tick(
                batch,
                nextMillis,
                wallTime,
                run.readings(),
                requests,
                turn.outputs(),
                turn.events());
      }
      lastTrip = lastTrip(turn, lastTrip);
      heldMillis =
          run.state().phase() == BatchState.HELD ? heldMillis + plan.rig().tickMillis() : 0;
    }
    double wallS = (System.nanoTime() - startedNanos) / 1e9;
    RehearsalResult result = RehearsalResult.of(run, seed, wallS, lastTrip, meter);
    journal.ifPresent(j -> j.end(batch, result.endState(), result.recordJson()));
    bench.close();
    return result;
  }

  private ControlState start(Plan plan) {
    return changed.isPresent()
        ? ControlState.initial(plan, changed.get())
        : ControlState.initial(plan);
  }

  private static String lastTrip(Turn turn, String before) {
    String last = before;
    for (Event event : turn.events()) {
      if (event instanceof Event.AlarmRaised raised) {
        last = raised.sentence();
      }
    }
    return last;
  }

  private BatchHead head() {
    return new BatchHead(
        files.recipe().title(),
        files.recipeText(),
        files.rigText(),
        STARTED_AT.toString(),
        LoadedFiles.note(files.recipe().invented(), seed, false) + "; rehearsal",
        seed);
  }

  private static String wallTime(long millis) {
    return STARTED_AT.plus(millis, ChronoUnit.MILLIS).toString();
  }
}
