package tarnish.controller.app;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.OpenQuestion;
import tarnish.controller.control.Request;
import tarnish.shared.recipe.Recipe;
import tarnish.sim.SimulatedRig;

/**
 * The person of a rehearsal: starts the batch, pauses it when the recipe's rehearsal section says
 * so, opens, grinds, weighs and closes the simulated vessel, and answers. Resets no trip: a
 * rehearsal that trips ends held.
 */
final class StandInOperator {
  static final String NAME = "stand-in operator";

  /** Walking to the bench, and then opening, grinding, weighing and closing, in s. */
  private static final double WALK_S = 300;

  private static final double HANDS_S = 900;

  private final Recipe recipe;
  private final SimulatedRig bench;
  private int pausesMade;
  private double resumeAtS = Double.MAX_VALUE;
  private int seenQuestion;
  private double answerAtS;

  StandInOperator(Recipe recipe, SimulatedRig bench) {
    this.recipe = recipe;
    this.bench = bench;
  }

  /** What the person asks for at this moment; {@code nowS} since the batch began. */
  List<Request> requests(ControlState state, double nowS) {
    if (state.phase() == BatchState.IDLE) {
      return List.of(new Request.Start(NAME));
    }
    if (state.question() == null
        && resumeAtS == Double.MAX_VALUE
        && pausesMade == recipe.rehearsal().size()) {
      return List.of();
    }
    List<Request> requests = new ArrayList<>();
    pauseOrResume(state, nowS).ifPresent(requests::add);
    if (state.question() != null && state.phase() == BatchState.RUNNING) {
      answer(state.question(), nowS).ifPresent(requests::add);
    }
    return requests;
  }

  /** Pauses and resumes only: for a demonstration in which a real person answers. */
  Optional<Request> pauseOrResume(ControlState state, double nowS) {
    if (nowS >= resumeAtS && state.phase() == BatchState.PAUSED) {
      resumeAtS = Double.MAX_VALUE;
      return Optional.of(new Request.Resume(NAME));
    }
    if (pausesMade < recipe.rehearsal().size()
        && nowS >= recipe.rehearsal().get(pausesMade).afterS()
        && state.phase() == BatchState.RUNNING
        && state.question() == null) {
      resumeAtS = nowS + recipe.rehearsal().get(pausesMade).forS();
      pausesMade++;
      return Optional.of(new Request.Pause(NAME));
    }
    return Optional.empty();
  }

  private Optional<Request> answer(OpenQuestion question, double nowS) {
    if (question.number() != seenQuestion) {
      seenQuestion = question.number();
      answerAtS =
          nowS + (question.purpose() == OpenQuestion.Purpose.READY_TO_OPEN ? WALK_S : HANDS_S);
    }
    if (nowS < answerAtS) {
      return Optional.empty();
    }
    return Optional.of(
        new Request.Answer(
            NAME, question.number(), BenchHands.values(question, bench), "as rehearsed"));
  }
}
