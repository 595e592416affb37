package tarnish.controller.app;

import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import tarnish.controller.control.BenchTrials;
import tarnish.controller.control.Control;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Presence;
import tarnish.controller.control.Request;
import tarnish.controller.control.Turn;
import tarnish.controller.control.trial.Finding;
import tarnish.controller.control.trial.Trial;
import tarnish.controller.control.trial.Trials;
import tarnish.controller.service.BenchAsk;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.RigDescription;

/**
 * A person's check of the bench while no batch runs: trials under confirmation and calibrations.
 * Asks come from any thread; all else is done by the loop thread, in step with its ticks.
 */
final class BenchSession implements BenchRun.Law {
  private static final int QUEUE_LENGTH = 16;
  private static final String TRIAL = "trial";

  private final RigDescription rig;
  private final BenchNotes notes;
  private final BenchCalibration calibration;
  private final BlockingQueue<BenchAsk> asks = new ArrayBlockingQueue<>(QUEUE_LENGTH);
  private final Map<Channel, ChannelWatch> watches = new EnumMap<>(Channel.class);
  private final BenchViewWriter writer;

  private String trialName = "";
  private Trial trial;
  private String by = "";
  private String answer = "";
  private long asksDone;
  private boolean free;
  private volatile boolean busy;

  BenchSession(RigDescription rig, CalibrationFile file, BenchNotes notes) {
    this.rig = rig;
    this.notes = notes;
    calibration = new BenchCalibration(rig, file, notes);
    writer = new BenchViewWriter(rig);
    rig.sensors()
        .forEach(
            sensor -> watches.put(sensor.channel(), new ChannelWatch(rig.tickMillis() / 1000.0)));
  }

  /** Takes what a person asks; false if too much waits. From any thread. */
  boolean ask(BenchAsk ask) {
    return asks.offer(ask);
  }

  /** Whether a trial is under way. From any thread. */
  boolean isBusy() {
    return busy;
  }

  BenchViewWriter writer() {
    return writer;
  }

  /** Before a tick: does what was asked. A batch that runs leaves no bench to check. */
  void before(BenchRun run, boolean noBatchRuns) {
    free = noBatchRuns;
    if (!free && isUnderWay()) {
      end(trial.stopped("A batch was started."));
    }
    for (BenchAsk ask = asks.poll(); ask != null; ask = asks.poll()) {
      asksDone++;
      answer = free ? done(ask, run) : "A batch runs: the bench is checked when none does.";
    }
    busy = isUnderWay();
    run.follow(busy ? this : Control::tick);
  }

  private String done(BenchAsk ask, BenchRun run) {
    if (ask instanceof BenchAsk.Begin begin) {
      return begin(begin);
    }
    if (ask instanceof BenchAsk.Confirm confirm) {
      return confirm(confirm, run.state().presence());
    }
    if (ask instanceof BenchAsk.Leave leave) {
      if (isUnderWay()) {
        end(trial.stopped(leave.by() + " ended it."));
      }
      return "";
    }
    if (ask instanceof BenchAsk.Note) {
      notes.readings(ask.by(), new ChannelLines(rig).of(watches, run.readings()));
      return "What every channel shows is in the record.";
    }
    return calibration.done(ask, watches, run.bench());
  }

  private String begin(BenchAsk.Begin begin) {
    Trial fresh = Trials.of(rig).get(begin.trial());
    if (fresh == null) {
      return "There is no trial '" + begin.trial() + "' on this rig.";
    }
    if (isUnderWay()) {
      return "End the trial that is under way first.";
    }
    trial = fresh;
    trialName = begin.trial();
    by = begin.by();
    notes.add(by, TRIAL, trial.title() + ": begun.");
    return "";
  }

  /** A yes counts only for the question that the person saw, and only from beside the bench. */
  private String confirm(BenchAsk.Confirm confirm, Presence presence) {
    if (!isUnderWay() || !trial.question().equals(confirm.question())) {
      return "That question is not open any more.";
    }
    if (presence.attended() && !presence.by().equals(confirm.by())) {
      return "Only " + presence.by() + ", who is at the bench, can say yes to that.";
    }
    notes.add(confirm.by(), TRIAL, "Yes to: " + trial.question());
    trial = trial.confirmed();
    return "";
  }

  private boolean isUnderWay() {
    return trial != null && !trial.hasEnded();
  }

  @Override
  public Turn tick(
      Plan plan, ControlState before, Readings readings, List<Request> requests, long nowMillis) {
    BenchTrials.Result result =
        BenchTrials.tick(plan, before, trial, readings, requests, nowMillis);
    if (result.trial().hasEnded()) {
      end(result.trial());
    } else {
      trial = result.trial();
    }
    return result.turn();
  }

  private void end(Trial ended) {
    trial = ended;
    for (Finding finding : ended.findings()) {
      notes.add(
          by,
          TRIAL,
          ended.title() + ": " + (finding.fault() ? "FAULT. " : "") + finding.sentence());
    }
  }

  /** After a tick: looks at every channel, in a batch only while a person does. */
  void after(BenchRun run) {
    if (!free && !writer.isLookedAt()) {
      return;
    }
    watches.forEach(
        (channel, watch) -> watch.see(run.readings().at(channel), run.bench().talk(channel)));
    busy = isUnderWay();
  }

  /** Gives a bench that has come into hand the calibrations in force. */
  void handOver(BatchBench bench) {
    calibration.handOver(bench);
  }

  /** Lets the page see how things stand. */
  void publish(BenchRun run) {
    if (!writer.isWanted(free)) {
      return;
    }
    writer.write(
        new BenchViewWriter.Stand(
            free,
            watches,
            run.readings(),
            run.bench().devices(),
            trialName,
            trial,
            calibration,
            asksDone,
            answer,
            notes.newest()));
  }

  static String now() {
    return OffsetDateTime.now(ZoneOffset.UTC).truncatedTo(ChronoUnit.SECONDS).toString();
  }
}
