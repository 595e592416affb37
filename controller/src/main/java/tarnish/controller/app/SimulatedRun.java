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
import tarnish.sim.SimulatedRig;

/**
 * A batch on a simulated bench, tick by tick: the bench moves on, is read, control decides, the
 * bench is told. One thread at a time.
 */
final class SimulatedRun {
  private final Plan plan;
  private final SimulatedRig bench;
  private final Readings readings;
  private ControlState state;

  SimulatedRun(Plan plan, SimulatedRig bench, ControlState state) {
    this.plan = plan;
    this.bench = bench;
    this.state = state;
    this.readings = new Readings(plan.rig().resolutions());
  }

  Plan plan() {
    return plan;
  }

  SimulatedRig bench() {
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
    bench.advance((nowMillis - millis()) / 1000.0);
    bench.read(readings);
    return decide(nowMillis, requests);
  }

  /** A tick at a given time on a bench that has been moved on to it already. */
  Turn decideAt(long nowMillis, List<Request> requests) {
    bench.read(readings);
    return decide(nowMillis, requests);
  }

  /** Goes through a recorded tick again, so that bench and control are as they were after it. */
  void relive(RecordedTick recorded) {
    for (Request request : recorded.requests()) {
      if (request instanceof Request.PowerReturned) {
        bench.write(plan.rig().safeOutputs());
      }
    }
    bench.advance((recorded.millis() - millis()) / 1000.0);
    bench.read(readings);
    readings.copyFrom(recorded.readings());
    decide(recorded.millis(), recorded.requests());
  }

  /** The first tick after an outage in which the bench stood alone with everything off. */
  Turn tickAfterOutage(Request.PowerReturned returned, List<Request> requests) {
    bench.write(plan.rig().safeOutputs());
    long outageMillis = Math.round(returned.outageS() * 1000);
    return tickAt(millis() + Math.max(plan.rig().tickMillis(), outageMillis), requests);
  }

  private Turn decide(long nowMillis, List<Request> requests) {
    OpenQuestion question = state.question();
    Turn turn = Control.tick(plan, state, readings, requests, nowMillis);
    state = turn.state();
    bench.write(turn.outputs());
    if (question != null && isAnswered(question, turn.events())) {
      BenchHands.act(question, bench);
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
