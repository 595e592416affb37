package tarnish.controller.service;

import java.util.List;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.Request;

/** What the scripted bench shows. */
public enum Scene {
  IDLE(BatchState.IDLE, "Nothing runs. The bench is in its safe state.", List.of("start")),
  RUNNING(
      BatchState.RUNNING,
      "Soak at 250 °C: 1 h 40 min of 6 h within the band.",
      List.of("pause", "stop", "abort")),
  PAUSED(
      BatchState.PAUSED,
      "Paused: heater off, oxygen shut in, 1 h 40 min of the soak kept.",
      List.of("resume", "stop", "abort")),
  ASKING(
      BatchState.RUNNING,
      "The vessel is open under a sweep of inert gas.",
      List.of("pause", "stop", "abort")),
  TRIPPED(
      BatchState.HELD,
      "Held by a trip: heater off, oxygen shut.",
      List.of("restart", "stop", "abort")),
  ABORTED(BatchState.ABORTED, "Aborted: everything is off.", List.of("start"));

  final BatchState state;
  final String sentence;
  final List<String> mayAsk;

  Scene(BatchState state, String sentence, List<String> mayAsk) {
    this.state = state;
    this.sentence = sentence;
    this.mayAsk = mayAsk;
  }

  Scene after(Request request) {
    if (request instanceof Request.Abort) {
      return ABORTED;
    } else if (request instanceof Request.Pause) {
      return PAUSED;
    } else if (request instanceof Request.Stop) {
      return IDLE;
    } else if (request instanceof Request.Resume
        || request instanceof Request.Answer
        || request instanceof Request.Reset
        || request instanceof Request.Restart) {
      return RUNNING;
    }
    return this;
  }
}
