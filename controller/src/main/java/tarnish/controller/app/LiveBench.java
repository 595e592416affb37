package tarnish.controller.app;

import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.atomic.AtomicReference;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.Collectors;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.InterlockTable;
import tarnish.controller.control.OpenQuestion;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Request;
import tarnish.controller.control.Turn;
import tarnish.controller.files.FileCheck;
import tarnish.controller.files.ReadResult;
import tarnish.controller.files.RecipeReader;
import tarnish.controller.journal.Journal.BatchHead;
import tarnish.controller.journal.JournalException;
import tarnish.controller.journal.SqliteJournal;
import tarnish.controller.service.Bench;
import tarnish.controller.service.Status;
import tarnish.shared.recipe.Charge;
import tarnish.shared.recipe.OxideMember;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.RigDescription;

/**
 * The shell around control: one thread ticks the bench in time with the clock, takes queued
 * requests, records, and publishes a picture for the page. Page threads only queue and look.
 */
final class LiveBench implements Bench, AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(LiveBench.class);

  private static final String SHELL = "Tarnish";
  private static final int QUEUE_LENGTH = 64;
  private static final long TELL_AGAIN_MILLIS = 10_000;
  private static final long WAKE_MILLIS = 20;

  /** Longest ticking in one go, so that a page is never kept waiting for long. */
  private static final long PAGE_WAITS_NANOS = 100_000_000;

  /** Longest outage that the batch's time is carried over, in s: the bench is long cold by then. */
  private static final double OUTAGE_MAX_S = 30 * 24 * 3600.0;

  private final RigDescription rig;
  private final String rigText;
  private final SqliteJournal journal;
  private final Map<String, String> recipes;
  private final long seed;
  private final double speed;
  private final boolean standInPauses;
  private final BatchBench.Maker maker;
  private final RehearsalDesk rehearsals;
  private final StatusWriter writer;
  private final BlockingQueue<Request> queue = new ArrayBlockingQueue<>(QUEUE_LENGTH);
  private final AtomicReference<NewBatch> newBatch = new AtomicReference<>();
  private final BatchClock clock;
  private final Thread thread = new Thread(this::loop, "control loop");

  private final Map<Integer, List<Status.CourseLine>> pastSetpoints = new HashMap<>();
  private volatile SetpointTrace trace = new SetpointTrace();
  private volatile Status status;
  private volatile boolean closing;
  private volatile boolean rehearsing;
  private volatile ExpectedFollower follower = new ExpectedFollower();
  private volatile GuardedRig guarded;
  private final LoopWatchdog watchdog = new LoopWatchdog(() -> guarded, System::nanoTime);
  private final SystemdNotifier systemd =
      SystemdNotifier.of(System.getenv(), watchdog::progress, SystemdNotifier::command);
  private final ClockWatch clocks = new ClockWatch(System::currentTimeMillis, System::nanoTime);

  // Touched by the loop thread only, from here on.
  private DriftWatch drift;
  private BenchRun run;
  private Integer batch;
  private boolean recorded;
  private OffsetDateTime startedAt;
  private StandInOperator standIn;
  private Request pending;
  private boolean journalFailed;
  private int weighedQuestion;
  private long unconfirmedToldMillis = Long.MIN_VALUE;
  private Double balanceKg;
  private long ticks;
  private long overruns;
  private double worstMillis;

  /** A batch that a person wants to start. */
  private record NewBatch(Recipe recipe, String text, String by) {}

  /** How a live bench runs: see the commands for the meaning of each. */
  record Settings(
      RigDescription rig,
      String rigText,
      Map<String, String> recipes,
      long seed,
      double speed,
      boolean standInPauses,
      BatchBench.Maker maker) {

    /** On a simulated bench. */
    Settings(
        RigDescription rig,
        String rigText,
        Map<String, String> recipes,
        long seed,
        double speed,
        boolean standInPauses) {
      this(rig, rigText, recipes, seed, speed, standInPauses, SimulatedBench::make);
    }
  }

  private LiveBench(Settings settings, SqliteJournal journal, String version) {
    rig = settings.rig();
    rigText = settings.rigText();
    recipes = Map.copyOf(settings.recipes());
    seed = settings.seed();
    speed = settings.speed();
    standInPauses = settings.standInPauses();
    maker = settings.maker();
    rehearsals = new RehearsalDesk(rig, seed);
    drift = new DriftWatch(rig);
    this.journal = journal;
    clock = new BatchClock(rig.tickMillis());
    writer =
        new StatusWriter(version, speed, rig.connection() == RigDescription.Connection.SIMULATED);
  }

  /** Opens the bench, takes up an interrupted batch if there is one, and starts the loop. */
  static LiveBench start(Settings settings, SqliteJournal journal, String version) {
    LiveBench bench = new LiveBench(settings, journal, version);
    bench.beginIdle();
    try {
      OptionalInt unfinished = journal.unfinished();
      if (unfinished.isPresent()) {
        bench.takeUp(unfinished.getAsInt());
      }
    } catch (RuntimeException e) {
      bench.run.bench().close();
      throw e;
    }
    bench.publish();
    bench.watchdog.start();
    bench.thread.start();
    bench.systemd.start();
    return bench;
  }

  /** From now on each batch is rehearsed as it starts, and compared with its rehearsal. */
  LiveBench rehearsing() {
    rehearsing = true;
    return this;
  }

  @Override
  public Optional<String> rehearse(String recipeText) {
    return rehearsals.begin(recipeText);
  }

  @Override
  public Rehearsed rehearsal() {
    return new Rehearsed(rehearsals.isBusy(), rehearsals.words());
  }

  @Override
  public List<Status.BandLine> expected(int number) {
    Integer running = status.batch();
    return running != null && running == number ? follower.band() : List.of();
  }

  /** Whether a batch was taken up after an interruption. */
  boolean isTakenUp() {
    return pending != null;
  }

  @Override
  public Status status() {
    return status;
  }

  @Override
  public boolean submit(Request request) {
    if (request instanceof Request.Abort) {
      while (!queue.offer(request)) {
        queue.poll();
      }
      return true;
    }
    return queue.offer(request);
  }

  @Override
  public Optional<String> startBatch(String recipeText, String by) {
    ReadResult<Recipe> read = RecipeReader.read("recipe", recipeText, Optional.of(rig));
    if (!read.isGood()) {
      return Optional.of(
          read.faults().stream().map(Object::toString).collect(Collectors.joining("\n")));
    }
    if (!status.mayAsk().contains("start")) {
      return Optional.of(
          "The batch is "
              + status.state()
              + ". End a batch that is not at its end, and reset every alarm that is latched.");
    }
    NewBatch wanted = new NewBatch(read.value(), recipeText, by);
    return newBatch.compareAndSet(null, wanted)
        ? Optional.empty()
        : Optional.of("Another start is being taken.");
  }

  @Override
  public Map<String, String> recipes() {
    return recipes;
  }

  @Override
  public String checkRecipe(String recipeText) {
    return String.join("\n", FileCheck.check("recipe", recipeText, Optional.of(rig)).lines());
  }

  @Override
  public List<Status.CourseLine> setpoints(int number) {
    SetpointTrace now = trace;
    Integer running = status.batch();
    if (running != null && running == number) {
      return now.corners();
    }
    synchronized (pastSetpoints) {
      return pastSetpoints.computeIfAbsent(
          number, past -> Replay.setpoints(journal, past).corners());
    }
  }

  @Override
  public SqliteJournal journal() {
    return journal;
  }

  @Override
  public long journalBytes() {
    return journal.bytes();
  }

  /** Waits until the loop has ended with everything off. */
  @Override
  public void close() {
    closing = true;
    try {
      thread.join();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void loop() {
    try {
      if (run.bench().isReal()) {
        tickInRealTime();
      } else {
        tickInSimulatedTime();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } catch (RuntimeException e) {
      LOG.error("The control loop has failed; every output is off.", e);
      throw e;
    } finally {
      systemd.close();
      watchdog.close();
      guarded.close();
    }
  }

  /** A late tick is not made up for: two in a row would see the same readings. */
  private void tickInRealTime() {
    long periodNanos = rig.tickMillis() * 1_000_000;
    long dueNanos = System.nanoTime();
    while (!closing) {
      timedTick();
      publish();
      dueNanos = Math.max(dueNanos + periodNanos, System.nanoTime());
      while (!closing && System.nanoTime() < dueNanos) {
        LockSupport.parkNanos(dueNanos - System.nanoTime());
      }
    }
  }

  /**
   * Ticks as many times as the speed asks for, but never longer than the page can wait. What the
   * machine cannot keep up with is left out: the simulated bench then runs slower than asked.
   */
  private void tickInSimulatedTime() throws InterruptedException {
    double ticksPerNano = speed / (rig.tickMillis() * 1e6);
    long lastNanos = System.nanoTime();
    double due = 0;
    while (!closing) {
      long nowNanos = System.nanoTime();
      due += (nowNanos - lastNanos) * ticksPerNano;
      lastNanos = nowNanos;
      boolean ticked = due >= 1;
      while (due >= 1 && !closing && System.nanoTime() - nowNanos < PAGE_WAITS_NANOS) {
        timedTick();
        due--;
      }
      if (ticked) {
        due = Math.min(due, 1);
        publish();
      }
      watchdog.tickDone();
      Thread.sleep(WAKE_MILLIS);
    }
  }

  /** What the watchdogs of the shell have seen goes to control, which then trips by its table. */
  private void reportTroubles() {
    if (watchdog.takeTrip()) {
      queue.offer(
          new Request.ShellTrouble(
              SHELL,
              InterlockTable.LOOP_OVERRUN,
              "The watchdog had shut the bench after "
                  + LoopWatchdog.PATIENCE_MILLIS
                  + " ms without a tick."));
    }
    clocks
        .look()
        .ifPresent(row -> queue.offer(new Request.ShellTrouble(SHELL, row, "Seen by the shell.")));
  }

  private void timedTick() {
    long before = System.nanoTime();
    reportTroubles();
    boolean shut = guarded.isBarred();
    tick();
    if (shut) {
      guarded.lift();
    }
    watchdog.tickDone();
    double millis = (System.nanoTime() - before) / 1e6;
    ticks++;
    worstMillis = Math.max(worstMillis, millis);
    if (millis > rig.tickMillis()) {
      overruns++;
    }
  }

  private void tick() {
    NewBatch wanted = newBatch.getAndSet(null);
    if (wanted != null) {
      begin(wanted);
    }
    Request first = pending;
    watchOutputs();
    List<Request> requests = takeRequests();
    Turn turn =
        first instanceof Request.PowerReturned returned
            ? run.tickAfterOutage(returned, requests)
            : run.bench().isReal()
                ? run.tickAt(clock.millis(run.millis()), requests)
                : run.tick(requests);
    if (first instanceof Request.PowerReturned) {
      clock.restart(run.millis());
    }
    trace.follow(turn.state());
    follower.follow(turn.state());
    drift.look(run.readings(), turn.outputs());
    if (recorded) {
      record(requests, turn);
    }
    OpenQuestion question = turn.state().question();
    if (question != null && question.number() != weighedQuestion) {
      weighedQuestion = question.number();
      OptionalDouble weighed = run.bench().weighKg();
      balanceKg = weighed.isPresent() ? weighed.getAsDouble() : null;
    }
  }

  /**
   * Tells control when a device no longer confirms what it was told, and again while that lasts.
   */
  private void watchOutputs() {
    List<String> sentences = run.bench().unconfirmed();
    if (sentences.isEmpty()) {
      unconfirmedToldMillis = Long.MIN_VALUE;
    } else if (unconfirmedToldMillis == Long.MIN_VALUE
        || run.millis() - unconfirmedToldMillis >= TELL_AGAIN_MILLIS) {
      unconfirmedToldMillis = run.millis();
      queue.offer(
          new Request.ShellTrouble(
              SHELL, InterlockTable.OUTPUTS_NOT_CONFIRMED, String.join(" ", sentences)));
    }
  }

  private List<Request> takeRequests() {
    List<Request> requests = List.of();
    if (pending != null || !queue.isEmpty()) {
      requests = new ArrayList<>();
      if (pending != null) {
        requests.add(pending);
        pending = null;
      }
      queue.drainTo(requests);
    }
    if (standIn != null) {
      Optional<Request> byItself = standIn.staysIn(run.state());
      if (byItself.isEmpty()) {
        byItself = standIn.pauseOrResume(run.state(), (run.millis() + rig.tickMillis()) / 1000.0);
      }
      if (byItself.isPresent()) {
        requests = new ArrayList<>(requests);
        requests.add(byItself.get());
      }
    }
    return requests;
  }

  private void record(List<Request> requests, Turn turn) {
    try {
      String wallTime = wallTime().toString();
      journal.tick(
          batch, run.millis(), wallTime, run.readings(), requests, turn.outputs(), turn.events());
      journalFailed = false;
      if (turn.state().phase().isFinal()) {
        recorded = false;
        RehearsalResult result = RehearsalResult.of(run, seed, 1, "");
        journal.end(batch, result.endState(), result.recordJson());
        LOG.info("Batch {} is {}.", batch, result.endState());
        writer.tellDrift(drift.sentences());
        drift.sentences().forEach(LOG::warn);
      }
    } catch (JournalException e) {
      if (!journalFailed) {
        LOG.error("{}", e.getMessage());
        queue.offer(
            new Request.ShellTrouble(SHELL, InterlockTable.JOURNAL_NOT_WRITABLE, e.getMessage()));
      }
      journalFailed = true;
    }
  }

  private void begin(NewBatch wanted) {
    ControlState before = run.state();
    Plan plan = Plan.of(wanted.recipe(), rig);
    BatchBench bench = maker.make(rig, wanted.recipe(), seed, run.bench());
    run = new BenchRun(plan, bench, ControlState.initial(plan, before));
    guarded = run.guarded();
    startedAt = OffsetDateTime.now(ZoneOffset.UTC).truncatedTo(ChronoUnit.SECONDS);
    batch =
        journal.begin(
            new BatchHead(
                wanted.recipe().title(),
                wanted.text(),
                rigText,
                startedAt.toString(),
                LoadedFiles.note(wanted.recipe().invented(), seed, bench.isReal()),
                bench.isReal() ? null : seed));
    recorded = true;
    trace = new SetpointTrace();
    follower = new ExpectedFollower();
    drift = new DriftWatch(rig);
    if (rehearsing) {
      GuardedRig its = guarded;
      BackgroundRehearsal.start(wanted.recipe(), rig, seed, queue, () -> guarded == its);
    }
    weighedQuestion = 0;
    standIn =
        standInPauses && bench instanceof SimulatedBench simulated
            ? new StandInOperator(plan, simulated.rig())
            : null;
    clock.restart(0);
    pending = new Request.Start(wanted.by());
    LOG.info("Batch {} begins: {}", batch, wanted.recipe().title());
  }

  /** A recipe without steps, for a bench that is only watched. */
  static Recipe noBatch(RigDescription rig) {
    return new Recipe(
        "No batch",
        rig.invented(),
        new Charge("Cu", 1e-3, 1e-6),
        63.546e-3,
        List.of(new OxideMember("Cu", 0), new OxideMember("CuO", 1)),
        new OxideMember("CuO", 1),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        rig.vessel().name(),
        rig.oxygen().name(),
        List.of(),
        List.of());
  }

  /** Watches the bench without a batch: an empty recipe that is never started. */
  private void beginIdle() {
    Recipe nothing = noBatch(rig);
    Plan plan = Plan.of(nothing, rig);
    BatchBench bench = maker.make(rig, nothing, seed, null);
    run = new BenchRun(plan, bench, ControlState.initial(plan));
    guarded = run.guarded();
    startedAt = OffsetDateTime.now(ZoneOffset.UTC).truncatedTo(ChronoUnit.SECONDS);
  }

  /** Brings bench and control to where an interrupted batch was, and has it held. */
  private void takeUp(int number) {
    BatchHead head = journal.head(number);
    if (run.bench().isReal() && !head.rigText().equals(rigText)) {
      throw new CommandFailure(
          "Batch "
              + number
              + " was interrupted on another version of the rig file. Put that one back to go on"
              + " with it, or take another --data folder.");
    }
    RigDescription itsRig = LoadedFiles.rig("rig of batch " + number, head.rigText());
    Recipe recipe =
        LoadedFiles.value(
            RecipeReader.read("recipe of batch " + number, head.recipeText(), Optional.of(itsRig)));
    Plan plan = Plan.of(recipe, itsRig);
    long itsSeed = head.seed() == null ? seed : head.seed();
    run =
        new BenchRun(
            plan, maker.make(itsRig, recipe, itsSeed, run.bench()), ControlState.initial(plan));
    guarded = run.guarded();
    journal.playBack(
        number,
        recordedTick -> {
          run.relive(recordedTick);
          trace.follow(run.state());
          follower.follow(run.state());
          drift.look(recordedTick.readings(), recordedTick.outputs());
        });
    batch = number;
    startedAt = OffsetDateTime.parse(head.startedAt());
    recorded = true;
    double outageS =
        Math.max(0, ChronoUnit.MILLIS.between(wallTime(), OffsetDateTime.now()) / 1000.0);
    pending = new Request.PowerReturned(SHELL, Math.min(outageS, OUTAGE_MAX_S));
    LOG.warn("Batch {} was interrupted; it is held until a person decides.", number);
  }

  private OffsetDateTime wallTime() {
    return startedAt.plus(run.millis(), ChronoUnit.MILLIS);
  }

  private void publish() {
    status =
        writer.write(
            run.plan(),
            run.state(),
            run.readings(),
            new StatusWriter.Shell(
                batch,
                batch == null ? OffsetDateTime.now() : wallTime(),
                balanceKg,
                new Status.LoopLine(ticks, overruns, worstMillis, rig.tickMillis())));
  }
}
