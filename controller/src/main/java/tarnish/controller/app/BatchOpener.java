package tarnish.controller.app;

import java.time.Clock;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import java.util.function.BiConsumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Request;
import tarnish.controller.files.AttendedOnly;
import tarnish.controller.files.RecipeReader;
import tarnish.controller.journal.Journal.BatchHead;
import tarnish.controller.journal.Journal.RecordedTick;
import tarnish.controller.journal.SqliteJournal;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.RigDescription;

/** Puts something in hand: nothing, a new batch, or one that was interrupted. */
final class BatchOpener {
  private static final Logger LOG = LoggerFactory.getLogger(BatchOpener.class);

  /** Longest outage that the batch's time is carried over, in s: the bench is long cold by then. */
  private static final double OUTAGE_MAX_S = 30 * 24 * 3600.0;

  private final LiveBench.Settings settings;
  private final RigDescription rig;
  private final SqliteJournal journal;
  private final Clock wall;

  BatchOpener(LiveBench.Settings settings, SqliteJournal journal, Clock wall) {
    this.wall = wall;
    this.settings = settings;
    this.rig = settings.rig();
    this.journal = journal;
  }

  /** Watches the bench without a batch: an empty recipe that is never started. */
  LiveBatch idle() {
    Recipe nothing = NoBatch.recipe(rig);
    Plan plan = Plan.of(nothing, rig);
    BatchBench bench = settings.maker().make(rig, nothing, settings.seed(), null);
    BenchRun run = new BenchRun(plan, bench, ControlState.initial(plan));
    return new LiveBatch(run, null, "", now(), null, null);
  }

  LiveBatch begin(NewBatch wanted, LiveBatch before) {
    long seed = settings.seed();
    Plan plan = Plan.of(wanted.recipe(), rig);
    BatchBench bench = settings.maker().make(rig, wanted.recipe(), seed, before.run().bench());
    BenchRun run = new BenchRun(plan, bench, ControlState.initial(plan));
    OffsetDateTime startedAt = now();
    String note = LoadedFiles.note(wanted.recipe().invented(), seed, bench.isReal());
    String why = wanted.attendedOnly();
    int number =
        journal.begin(
            new BatchHead(
                wanted.recipe().title(),
                wanted.text(),
                settings.rigText(),
                startedAt.toString(),
                why.isEmpty() ? note : AttendedOnly.note(note, why),
                bench.isReal() ? null : seed));
    StandInOperator standIn =
        settings.standInPauses() && bench instanceof SimulatedBench simulated
            ? new StandInOperator(plan, simulated.rig())
            : null;
    LOG.info("Batch {} begins: {}", number, wanted.recipe().title());
    return new LiveBatch(
        run, number, wanted.text(), startedAt, standIn, new Request.Start(wanted.by()));
  }

  /** Brings bench and control to where an interrupted batch was, and has it held. */
  LiveBatch takeUp(int number, LiveBatch before, BiConsumer<ControlState, RecordedTick> follower) {
    BatchHead head = journal.head(number);
    if (before.run().bench().isReal() && !head.rigText().equals(settings.rigText())) {
      throw new CommandFailure(
          "Batch "
              + number
              + " was interrupted on another version of the rig file. Put that one back to go on"
              + " with it, or take another --data folder.");
    }
    RigDescription itsRig = LoadedFiles.rig("rig of batch " + number, head.rigText());
    Recipe read =
        LoadedFiles.value(
            RecipeReader.read("recipe of batch " + number, head.recipeText(), Optional.of(itsRig)));
    Recipe recipe = AttendedOnly.asNoted(read, head.note());
    Plan plan = Plan.of(recipe, itsRig);
    long itsSeed = head.seed() == null ? settings.seed() : head.seed();
    BatchBench bench = settings.maker().make(itsRig, recipe, itsSeed, before.run().bench());
    BenchRun run = new BenchRun(plan, bench, ControlState.initial(plan));
    long stepsS = playBack(number, run, follower);
    OffsetDateTime startedAt = OffsetDateTime.parse(head.startedAt());
    OffsetDateTime lastSeen = startedAt.plus(run.millis(), ChronoUnit.MILLIS);
    double outageS =
        Math.max(
            0,
            ChronoUnit.MILLIS.between(lastSeen, wall.instant().atOffset(ZoneOffset.UTC)) / 1000.0
                - stepsS);
    LOG.warn("Batch {} was interrupted; it is held until a person decides.", number);
    return new LiveBatch(
        run,
        number,
        head.recipeText(),
        startedAt,
        null,
        new Request.PowerReturned(LiveBench.SHELL, Math.min(outageS, OUTAGE_MAX_S)));
  }

  /** Gives by how many s the time of day was changed since the batch began. */
  private long playBack(int number, BenchRun run, BiConsumer<ControlState, RecordedTick> follower) {
    long[] stepsS = {0};
    try {
      journal.playBack(
          number,
          recordedTick -> {
            run.relive(recordedTick);
            follower.accept(run.state(), recordedTick);
            recordedTick.requests().forEach(request -> stepsS[0] += stepS(request));
          });
    } catch (RuntimeException e) {
      run.bench().close();
      throw e;
    }
    return stepsS[0];
  }

  private static long stepS(Request request) {
    return request instanceof Request.ShellTrouble trouble ? trouble.clockStepS() : 0;
  }

  /** In UTC, so that no summer time ever repeats or leaves out an hour of the record. */
  private OffsetDateTime now() {
    return wall.instant().atOffset(ZoneOffset.UTC).truncatedTo(ChronoUnit.SECONDS);
  }
}
