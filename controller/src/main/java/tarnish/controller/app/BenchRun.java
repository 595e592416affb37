package tarnish.controller.app;

import java.util.List;
import tarnish.controller.control.Control;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Event;
import tarnish.controller.control.OpenQuestion;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Request;
import tarnish.controller.control.Turn;
import tarnish.controller.journal.Journal.RecordedTick;
import tarnish.shared.reading.Readings;

/**
 * A batch on a bench, tick by tick: the bench moves on, is read, control decides, the bench is
 * told. One thread at a time.
 */
final class BenchRun {
  private final Plan plan;
  private final BatchBench bench;
  private final GuardedRig guarded;
  private final Readings readings;
  private ControlState state;
  private Law law = Control::tick;

  /** What decides in a tick: control, or a trial at a bench that runs no batch. */
  interface Law {
    Turn tick(
        Plan plan, ControlState before, Readings readings, List<Request> requests, long nowMillis);
  }

  BenchRun(Plan plan, BatchBench bench, ControlState state) {
    this.plan = plan;
    this.bench = bench;
    this.guarded = new GuardedRig(bench.rig(), plan.rig().safeOutputs());
    this.state = state;
    this.readings = new Readings(plan.rig().resolutions());
  }

  /** Lets another law decide from the next tick on. */
  void follow(Law other) {
    law = other;
  }

  Plan plan() {
    return plan;
  }

  /** What a watchdog may shut at any moment. */
  GuardedRig guarded() {
    return guarded;
  }

  BatchBench bench() {
    return bench;
  }

  ControlState state() {
    return state;
  }

  /** Readings of the last tick. */
  Readings readings() {
    return readings;
  }

  /** Time of the last tick in ms since the batch began, 0 before the first. */
  long millis() {
    return Math.max(0, state.lastMillis());
  }

  Turn tick(List<Request> requests) {
    return tickAt(millis() + plan.rig().tickMillis(), requests);
  }

  /** A tick at a given time; the bench moves on to it first. */
  Turn tickAt(long nowMillis, List<Request> requests) {
    bench.pass((nowMillis - millis()) / 1000.0);
    bench.read(readings);
    return decide(nowMillis, requests);
  }

  /** A tick at a given time on a bench that has been moved on to it already. */
  Turn decideAt(long nowMillis, List<Request> requests) {
    bench.read(readings);
    return decide(nowMillis, requests);
  }

  /**
   * Goes through a recorded tick again, so that control, and a simulated bench, are as they were
   * after it. A real bench is neither read nor told anything.
   */
  void relive(RecordedTick recorded) {
    if (bench.isReal()) {
      readings.copyFrom(recorded.readings());
      state = Control.tick(plan, state, readings, recorded.requests(), recorded.millis()).state();
      return;
    }
    for (Request request : recorded.requests()) {
      if (request instanceof Request.PowerReturned) {
        guarded.write(plan.rig().safeOutputs());
      }
    }
    bench.pass((recorded.millis() - millis()) / 1000.0);
    bench.read(readings);
    readings.copyFrom(recorded.readings());
    decide(recorded.millis(), recorded.requests());
  }

  /** The first tick after an outage in which the bench stood alone with everything off. */
  Turn tickAfterOutage(Request.PowerReturned returned, List<Request> requests) {
    guarded.write(plan.rig().safeOutputs());
    long outageMillis = Math.round(returned.outageS() * 1000);
    return tickAt(millis() + Math.max(plan.rig().tickMillis(), outageMillis), requests);
  }

  private Turn decide(long nowMillis, List<Request> requests) {
    OpenQuestion question = state.question();
    Turn turn = law.tick(plan, state, readings, requests, nowMillis);
    state = turn.state();
    guarded.write(turn.outputs());
    if (question != null && isAnswered(question, turn.events())) {
      bench.answered(question);
    }
    return turn;
  }

  private static boolean isAnswered(OpenQuestion question, List<Event> events) {
    for (Event event : events) {
      if (event instanceof Event.Answered answered
          && answered.questionNumber() == question.number()) {
        return true;
      }
    }
    return false;
  }
}
