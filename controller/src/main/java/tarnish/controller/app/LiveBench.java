package tarnish.controller.app;

import java.time.Clock;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.concurrent.atomic.AtomicReference;
import java.util.stream.Collectors;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tarnish.controller.control.AsFound;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Report;
import tarnish.controller.control.Request;
import tarnish.controller.control.Turn;
import tarnish.controller.files.AttendedOnly;
import tarnish.controller.files.ReadResult;
import tarnish.controller.files.RecipeReader;
import tarnish.controller.journal.SqliteJournal;
import tarnish.controller.library.Checksum;
import tarnish.controller.record.InForce;
import tarnish.controller.service.AuditTrail;
import tarnish.controller.service.Bench;
import tarnish.controller.service.BenchAsk;
import tarnish.controller.service.BenchView;
import tarnish.controller.service.Changes;
import tarnish.controller.service.ProofTests;
import tarnish.controller.service.Status;
import tarnish.shared.reading.Readings;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.RigDescription;

/**
 * The shell around control: one thread ticks the bench in time with the clock, takes queued
 * requests, records, and publishes a picture for the page. Page threads only queue and look.
 */
final class LiveBench implements Bench, AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(LiveBench.class);

  /** Who asks when the shell itself does. */
  static final String SHELL = "Tarnish";

  private final Settings settings;
  private final Clock wall;
  private final RigDescription rig;
  private final SqliteJournal journal;
  private final BatchOpener opener;
  private final StatusWriter writer;
  private final RequestQueue queue = new RequestQueue();
  private final AtomicReference<NewBatch> newBatch = new AtomicReference<>();
  private final Changes changes = new Changes(System.currentTimeMillis());
  private final AuditTrail audit = new AuditTrail();
  private final BatchClock clock;
  private final FollowedSetpoints setpoints;
  private final FollowedExpectations expectations;
  private final LoopWatchdog watchdog =
      new LoopWatchdog(() -> this.batch.run().guarded(), System::nanoTime);
  private final SystemdNotifier systemd =
      SystemdNotifier.of(System.getenv(), watchdog::progress, SystemdNotifier::command);
  private final Thread thread = new Thread(this::loop, "control loop");

  private volatile LiveBatch batch;
  private volatile Status status;
  private volatile Picture picture;
  private volatile ProofBook proofs;
  private volatile boolean closing;
  private boolean takenUp;

  // Touched by the loop thread only, from here on.
  private final ShellTroubles troubles;
  private final DamageTeller damage;
  private final TickRecorder recorder;
  private final ActRecorder acts;
  private final BenchSession session;
  private final BalanceLook balance = new BalanceLook();
  private final LoopTimes times;
  private DriftWatch drift;
  private NewBatch taken;
  private Request first;

  /** What the first tick of a batch takes before everything else. */
  private final List<Request> ahead = new ArrayList<>();

  /** What is looked at from other threads, all of one tick. */
  record Picture(
      Integer batch, Plan plan, String recipeText, ControlState state, Readings readings) {}

  /** How a live bench runs: see the commands for the meaning of each. */
  record Settings(
      RigDescription rig,
      String rigText,
      Map<String, String> recipes,
      long seed,
      double speed,
      boolean standInPauses,
      BatchBench.Maker maker) {
    Settings {
      recipes = Map.copyOf(recipes);
    }

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

  private LiveBench(Settings settings, SqliteJournal journal, String version, Clock wall) {
    this.wall = wall;
    troubles = new ShellTroubles(queue, watchdog, wall);
    damage = new DamageTeller(journal, queue, wall);
    this.settings = settings;
    this.rig = settings.rig();
    drift = new DriftWatch(rig);
    this.journal = journal;
    opener = new BatchOpener(settings, journal, wall);
    setpoints = new FollowedSetpoints(journal);
    expectations = new FollowedExpectations(rig, settings.seed(), queue);
    recorder = new TickRecorder(journal, settings.seed(), troubles);
    acts = new ActRecorder(audit, journal);
    session = new BenchSession(rig, CalibrationFile.in(journal.folder()), new BenchNotes(journal));
    clock = new BatchClock(rig.tickMillis());
    times = new LoopTimes(rig.tickMillis());
    boolean simulated = rig.connection() == RigDescription.Connection.SIMULATED;
    writer = new StatusWriter(version, settings.speed(), simulated);
  }

  /** Opens the bench, takes up an interrupted batch if there is one, and starts the loop. */
  static LiveBench start(Settings settings, SqliteJournal journal, String version) {
    return start(settings, journal, version, Clock.systemUTC());
  }

  /** As {@link #start(Settings, SqliteJournal, String)} with another clock for the time of day. */
  static LiveBench start(Settings settings, SqliteJournal journal, String version, Clock wall) {
    LiveBench bench = new LiveBench(settings, journal, version, wall);
    bench.batch = bench.opener.idle();
    bench.session.handOver(bench.batch.run().bench());
    try {
      OptionalInt unfinished = journal.unfinished();
      if (unfinished.isPresent()) {
        bench.takeUp(unfinished.getAsInt());
      }
    } catch (RuntimeException e) {
      bench.batch.run().bench().close();
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
    expectations.rehearseEach();
    return this;
  }

  @Override
  public List<Status.BandLine> expected(int number) {
    return expectations.of(number, status.batch());
  }

  /** Whether a batch was taken up after an interruption. */
  boolean isTakenUp() {
    return takenUp;
  }

  @Override
  public Status status() {
    return status;
  }

  @Override
  public boolean submit(Request request) {
    return queue.offer(request);
  }

  @Override
  public Changes changes() {
    return changes;
  }

  @Override
  public AuditTrail audit() {
    return audit;
  }

  RigDescription rig() {
    return rig;
  }

  String rigText() {
    return settings.rigText();
  }

  /** Control and bench after the newest tick. */
  Picture picture() {
    return picture;
  }

  /** Starts a new batch without the list before the start: for trials and the demonstration. */
  Optional<String> startBatch(String recipeText, String by) {
    return startBatch(recipeText, by, Map.of());
  }

  /**
   * Starts a new batch.
   *
   * @param answers of the list before the start, for the record
   * @return empty if taken, else why not, in words for the person
   */
  Optional<String> startBatch(String recipeText, String by, Map<String, String> answers) {
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
    if (session.isBusy()) {
      return Optional.of("The bench is being checked: end the trial on the bench page first.");
    }
    String only = proofs == null ? "" : proofs.whyAttendedOnly();
    if (!only.isEmpty() && !status.presence().attended()) {
      return Optional.of(
          only + " Until they are done this bench runs attended only: check in first, or do them.");
    }
    Recipe recipe = only.isEmpty() ? read.value() : AttendedOnly.of(read.value());
    NewBatch wanted = new NewBatch(recipe, recipeText, by, only, answers);
    return newBatch.compareAndSet(null, wanted)
        ? Optional.empty()
        : Optional.of("Another start is being taken.");
  }

  /** The proof tests that a page may see and note. */
  void proves(ProofBook book) {
    proofs = book;
  }

  @Override
  public Optional<ProofTests> proofTests() {
    return Optional.ofNullable(proofs);
  }

  /** Recipes as found at the start: name to text. */
  Map<String, String> recipes() {
    return settings.recipes();
  }

  @Override
  public List<Status.CourseLine> setpoints(int number) {
    return setpoints.of(number, status.batch());
  }

  @Override
  public SqliteJournal journal() {
    return journal;
  }

  @Override
  public BenchView benchView() {
    return session.writer().view();
  }

  @Override
  public boolean askBench(BenchAsk ask) {
    return session.ask(ask);
  }

  @Override
  public InForce inForce(String moment) {
    return InForceReader.of(journal.folder(), moment);
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
    TickPace pace = new TickPace(rig.tickMillis(), new Paced());
    try {
      if (batch.run().bench().isReal()) {
        pace.inRealTime();
      } else {
        pace.inSimulatedTime(settings.speed());
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } catch (RuntimeException e) {
      LOG.error("The control loop has failed; every output is off.", e);
      throw e;
    } finally {
      systemd.close();
      watchdog.close();
      batch.run().guarded().close();
    }
  }

  private final class Paced implements TickPace.Loop {
    @Override
    public boolean isEnding() {
      return closing;
    }

    @Override
    public void tick() {
      long before = System.nanoTime();
      troubles.watchClocks();
      GuardedRig guarded = batch.run().guarded();
      boolean shut = guarded.isBarred();
      tickOnce();
      if (shut) {
        batch.run().guarded().lift();
      }
      watchdog.tickDone();
      times.note((System.nanoTime() - before) / 1e6);
    }

    @Override
    public void publish() {
      LiveBench.this.publish();
    }

    @Override
    public void idle() {
      watchdog.tickDone();
    }
  }

  private void tickOnce() {
    takeStart();
    BenchRun run = batch.run();
    troubles.watchOutputs(run);
    damage.look(batch);
    Request firstNow = first;
    first = null;
    List<Request> requests = requests(firstNow);
    session.before(run, batch.number() == null || run.state().phase().isFinal());
    Turn turn = turn(firstNow, requests);
    session.after(run);
    follow(turn.state());
    changes.ticked(requests, turn.events());
    acts.record();
    drift.look(run.readings(), turn.outputs());
    if (recorder.record(batch, requests, turn)) {
      writer.tellDrift(drift.sentences());
      drift.sentences().forEach(LOG::warn);
    }
    balance.look(turn.state().question(), run.bench());
  }

  /**
   * A wanted batch stays wanted until the page can see it begun: a second press of the button finds
   * it there, and no batch is begun over another.
   */
  private void takeStart() {
    NewBatch wanted = newBatch.get();
    if (wanted == null || wanted == taken) {
      return;
    }
    taken = wanted;
    if (new Report(batch.run().plan(), batch.run().state()).mayAsk().contains("start")) {
      begin(wanted);
    } else {
      LOG.warn("A start by {} came too late: the bench is not free any more.", wanted.by());
    }
  }

  private List<Request> requests(Request firstNow) {
    List<Request> requests = queue.take(firstNow);
    if (!ahead.isEmpty()) {
      requests.addAll(0, ahead);
      ahead.clear();
    }
    return batch.standIn() == null
        ? requests
        : RequestQueue.with(requests, batch.standIn(), batch.run(), rig.tickMillis());
  }

  private Turn turn(Request firstNow, List<Request> requests) {
    BenchRun run = batch.run();
    if (firstNow instanceof Request.PowerReturned returned) {
      Turn turn = run.tickAfterOutage(returned, requests);
      clock.restart(run.millis());
      return turn;
    }
    return run.bench().isReal()
        ? run.tickAt(clock.millis(run.millis()), requests)
        : run.tick(requests);
  }

  private void follow(ControlState state) {
    setpoints.follow(state);
    expectations.follow(state);
  }

  private void begin(NewBatch wanted) {
    Optional<Request.TakeOver> found =
        AsFound.after(SHELL, batch.run().plan(), batch.run().state());
    batch = opener.begin(wanted, batch);
    found.ifPresent(ahead::add);
    session.handOver(batch.run().bench());
    if (!wanted.preflight().isEmpty()) {
      ahead.add(new Request.Preflight(wanted.by(), Checksum.of(wanted.text()), wanted.preflight()));
    }
    first = batch.first();
    changes.note("batch " + batch.number() + " was begun by " + wanted.by());
    recorder.begin();
    damage.begun(batch.number());
    setpoints.begin();
    LiveBatch begun = batch;
    expectations.begin(wanted.recipe(), () -> batch == begun);
    drift = new DriftWatch(rig);
    balance.begin();
    clock.restart(0);
  }

  private void takeUp(int number) {
    batch =
        opener.takeUp(
            number,
            batch,
            (state, recorded) -> {
              follow(state);
              drift.look(recorded.readings(), recorded.outputs());
            });
    session.handOver(batch.run().bench());
    first = batch.first();
    recorder.begin();
    damage.takenUp(number);
    takenUp = true;
  }

  private void publish() {
    LiveBatch now = batch;
    BenchRun run = now.run();
    session.publish(run);
    Readings copy = new Readings(run.plan().rig().resolutions());
    copy.copyFrom(run.readings());
    picture = new Picture(now.number(), run.plan(), now.recipeText(), run.state(), copy);
    status =
        writer.write(
            run.plan(),
            run.state(),
            run.readings(),
            new StatusWriter.Shell(
                now.number(),
                now.number() == null ? wall.instant().atOffset(ZoneOffset.UTC) : now.wallTime(),
                balance.massKg(),
                times.line()));
    newBatch.compareAndSet(taken, null);
  }
}
