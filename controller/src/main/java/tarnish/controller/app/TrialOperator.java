package tarnish.controller.app;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.OpenQuestion;
import tarnish.controller.control.Request;
import tarnish.sim.SimulatedRig;

/**
 * A person with bad luck, who is always there: pauses at random moments, and sometimes spills solid
 * while the vessel is open, weighs what is left and enters the loss.
 */
final class TrialOperator {
  private static final String NAME = "trial operator";
  private static final double SHIFT_HOURS = 8;

  /** A check-in is renewed so long before it runs out, in s. */
  private static final double RENEW_S = 600;

  private static final double WALK_S = 300;
  private static final double HANDS_S = 900;
  private static final double HOUR_S = 3600;
  private static final double SPILL_PROBABILITY = 0.5;

  private final SimulatedRig bench;
  private final Chance chance;
  private double nextPauseS;
  private double resumeAtS = Double.MAX_VALUE;
  private int seenQuestion;
  private double answerAtS;
  private double lostShare;

  TrialOperator(SimulatedRig bench, Chance chance) {
    this.bench = bench;
    this.chance = chance;
    nextPauseS = chance.between(1 * HOUR_S, 20 * HOUR_S);
  }

  /** Share of the solid that was spilled in the whole batch. */
  double lostShare() {
    return lostShare;
  }

  List<Request> requests(ControlState state, double nowS) {
    if (state.phase() == BatchState.IDLE) {
      return List.of(new Request.Start(NAME));
    }
    double untilS = state.presence().untilMillis() / 1000.0;
    if (!state.presence().attended() || nowS > untilS - RENEW_S) {
      return List.of(new Request.CheckIn(NAME, SHIFT_HOURS));
    }
    if (state.phase() == BatchState.PAUSED && nowS >= resumeAtS) {
      resumeAtS = Double.MAX_VALUE;
      return List.of(new Request.Resume(NAME));
    }
    if (state.phase() != BatchState.RUNNING) {
      return List.of();
    }
    if (state.question() != null) {
      return answer(state.question(), nowS);
    }
    if (nowS >= nextPauseS) {
      nextPauseS = nowS + chance.between(4 * HOUR_S, 30 * HOUR_S);
      resumeAtS = nowS + chance.between(0.2 * HOUR_S, 3 * HOUR_S);
      return List.of(new Request.Pause(NAME));
    }
    return List.of();
  }

  private List<Request> answer(OpenQuestion question, double nowS) {
    if (question.number() != seenQuestion) {
      seenQuestion = question.number();
      answerAtS =
          nowS + (question.purpose() == OpenQuestion.Purpose.READY_TO_OPEN ? WALK_S : HANDS_S);
    }
    if (nowS < answerAtS) {
      return List.of();
    }
    List<Request> requests = new ArrayList<>();
    if (question.purpose() == OpenQuestion.Purpose.CLOSED_AGAIN
        && chance.happens(SPILL_PROBABILITY)) {
      double share = chance.between(0.02, 0.7);
      bench.spill(share);
      lostShare = 1 - (1 - lostShare) * (1 - share);
      requests.add(new Request.Loss(NAME, bench.weigh(), 0, "spilled while grinding"));
    }
    Map<String, Double> values = new HashMap<>(BenchHands.values(question, bench));
    requests.add(new Request.Answer(NAME, question.number(), values, "trial"));
    return requests;
  }
}
