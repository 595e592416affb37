package tarnish.controller.app;

import java.io.IOException;
import java.util.List;
import java.util.function.Predicate;
import tarnish.controller.control.Request;
import tarnish.controller.service.Bench;
import tarnish.controller.service.BenchAsk;
import tarnish.controller.service.BenchView;
import tarnish.controller.service.BenchView.ChannelLine;
import tarnish.controller.service.BenchView.FindingLine;
import tarnish.controller.service.BenchView.NowLine;
import tarnish.controller.service.BenchView.TrialLine;
import tarnish.controller.service.Status;

/** A bench check from a terminal: what the bench page does, line by line. */
final class BenchTerminal {
  private static final long LOOK_MILLIS = 20;
  private static final double HOURS = 12;

  private final Bench bench;
  private final BenchTalk talk;
  private final String by;
  private final long patienceMillis;

  /**
   * @param patienceMillis how long the bench may take to do what is asked
   */
  BenchTerminal(Bench bench, BenchTalk talk, String by, long patienceMillis) {
    this.bench = bench;
    this.talk = talk;
    this.by = by;
    this.patienceMillis = patienceMillis;
  }

  /** Comes to the bench: checks in and clears what the start has latched. */
  void arrive() throws IOException {
    await("the first readings", view -> !view.channels().isEmpty());
    if (!bench.benchView().free()) {
      throw new CommandFailure("A batch is under way: the bench is checked when none is.");
    }
    bench.submit(new Request.CheckIn(by, HOURS));
    await("the check-in", view -> bench.status().presence().attended());
    List<Status.AlarmLine> latched = bench.status().alarms();
    if (latched.isEmpty()) {
      return;
    }
    latched.forEach(alarm -> talk.say("  alarm: " + alarm.id() + ", " + alarm.state()));
    if (talk.confirms("Acknowledge these, and reset what is over?")) {
      for (Status.AlarmLine alarm : latched) {
        bench.submit(new Request.Acknowledge(by, alarm.id()));
        bench.submit(new Request.Reset(by, alarm.id(), "bench check"));
      }
      ask(new BenchAsk.Note(by));
    }
  }

  void leave() {
    bench.submit(new Request.CheckOut(by));
  }

  /** Every channel in a line, and into the record. */
  void showChannels() {
    ask(new BenchAsk.Note(by));
    for (ChannelLine line : bench.benchView().channels()) {
      talk.say(
          "%-24s %-12s raw %-14s %-20s noise %-12s rate %-16s %s %s"
              .formatted(
                  line.name(),
                  line.value(),
                  line.raw().isEmpty() ? "–" : line.raw(),
                  line.quality(),
                  line.noise(),
                  line.rate(),
                  line.answers(),
                  line.latency())
              .stripTrailing());
      if (!line.remark().isEmpty()) {
        talk.say("  ! " + line.remark());
      }
    }
    bench.benchView().devices().forEach(talk::say);
  }

  /**
   * All trials of a group, one after the other.
   *
   * @param hands whether somebody is there who can take a sensor out and put it into ice
   */
  void runGroup(String group, boolean hands) throws IOException {
    for (TrialLine line : bench.benchView().trials()) {
      if (!line.group().equals(group)) {
        continue;
      }
      if (!hands && line.name().startsWith("cold junction")) {
        talk.say(line.title() + "\n  left out: it needs somebody's hands");
      } else {
        run(line.name());
      }
    }
  }

  /** One trial, each of its outputs after a yes. */
  void run(String name) throws IOException {
    ask(new BenchAsk.Begin(by, name));
    NowLine trial = bench.benchView().trial();
    if (trial == null || !trial.name().equals(name) || trial.ended()) {
      throw new CommandFailure(bench.benchView().answer());
    }
    talk.say(trial.title());
    while (!trial.ended()) {
      if (trial.question().isEmpty()) {
        pause();
      } else if (talk.confirms("  " + trial.question())) {
        ask(new BenchAsk.Confirm(by, trial.question()));
      } else {
        talk.say("  left out");
        ask(new BenchAsk.Leave(by));
      }
      trial = bench.benchView().trial();
    }
    for (FindingLine finding : trial.findings()) {
      talk.say((finding.fault() ? "  ! " : "  ") + finding.sentence());
    }
  }

  /** Compares a sensor with two references and keeps the straight line through both. */
  void calibrate(String channel) throws IOException {
    ChannelLine line =
        bench.benchView().channels().stream()
            .filter(each -> each.name().equals(channel) && !each.references().isEmpty())
            .findFirst()
            .orElseThrow(() -> new CommandFailure(noSensor(channel)));
    talk.say("Calibration of the " + channel + " at two points.");
    line.references()
        .forEach(reference -> talk.say("  " + reference.words() + ": " + reference.text()));
    mark(channel, false);
    mark(channel, true);
    BenchView.DraftLine draft = bench.benchView().draft();
    if (!draft.problem().isEmpty()) {
      throw new CommandFailure(draft.problem() + " Nothing was kept.");
    }
    talk.say(draft.result());
    if (talk.confirms("Keep this calibration and use it from now on?")) {
      ask(new BenchAsk.Accept(by));
      talk.say(bench.benchView().answer());
    } else {
      talk.say("Nothing was kept.");
    }
  }

  private String noSensor(String channel) {
    List<String> names =
        bench.benchView().channels().stream()
            .filter(each -> !each.references().isEmpty())
            .map(ChannelLine::name)
            .toList();
    return "There is no sensor '"
        + channel
        + "' to calibrate; there are "
        + String.join(", ", names)
        + ".";
  }

  private void mark(String channel, boolean upper) throws IOException {
    for (int i = 0; i < 3; i++) {
      String typed =
          talk.ask(
              "Bring it to the "
                  + (upper ? "upper" : "lower")
                  + " reference, wait until it has been steady for 10 s, then type the true value"
                  + " with its standard uncertainty: ");
      ask(new BenchAsk.Mark(by, channel, upper, typed));
      BenchView.DraftLine draft = bench.benchView().draft();
      String taken = draft == null ? "" : upper ? draft.high() : draft.low();
      if (!taken.isEmpty()) {
        talk.say("  " + taken);
        return;
      }
      talk.say("  " + bench.benchView().answer());
    }
    throw new CommandFailure("No point was taken. Nothing was kept.");
  }

  /** Asks and waits until the bench has dealt with it. */
  private void ask(BenchAsk ask) {
    long before = bench.benchView().asks();
    if (!bench.askBench(ask)) {
      throw new CommandFailure("The bench takes no more asks.");
    }
    await("the bench to answer", view -> view.asks() > before);
  }

  private void await(String what, Predicate<BenchView> condition) {
    long end = System.nanoTime() + patienceMillis * 1_000_000;
    while (bench.benchView() == null || !condition.test(bench.benchView())) {
      if (System.nanoTime() > end) {
        throw new CommandFailure("Waited in vain for " + what + ".");
      }
      pause();
    }
  }

  private static void pause() {
    try {
      Thread.sleep(LOOK_MILLIS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new CommandFailure("Interrupted.");
    }
  }
}
