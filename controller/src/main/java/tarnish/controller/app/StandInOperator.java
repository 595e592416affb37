package tarnish.controller.app;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.OpenQuestion;
import tarnish.controller.control.PersonNeed;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Request;
import tarnish.shared.recipe.Recipe;
import tarnish.sim.SimulatedRig;

/**
 * The person of a rehearsal: starts the batch, checks in while a step needs a person and out again
 * afterwards, pauses it when the recipe's rehearsal section says so, opens, grinds, weighs and
 * closes the simulated vessel, and answers. Resets no trip: a rehearsal that trips ends held.
 */
final class StandInOperator {
  static final String NAME = "stand-in operator";

  /** Walking to the bench, and then opening, grinding, weighing and closing, in s. */
  private static final double WALK_S = 300;

  private static final double HANDS_S = 900;

  private static final double SHIFT_HOURS = 8;

  /** Somebody who may not leave yet does not ask again at once, in s. */
  private static final double ASK_AGAIN_S = 60;

  private final Plan plan;
  private final Recipe recipe;
  private final SimulatedRig bench;
  private int pausesMade;
  private double resumeAtS = Double.MAX_VALUE;
  private int seenQuestion;
  private double answerAtS;
  private double leaveAtS;

  StandInOperator(Plan plan, SimulatedRig bench) {
    this.plan = plan;
    this.recipe = plan.recipe();
    this.bench = bench;
  }

  /** What the person asks for at this moment; {@code nowS} since the batch began. */
  List<Request> requests(ControlState state, double nowS) {
    if (state.phase() == BatchState.IDLE) {
      return List.of(new Request.Start(NAME));
    }
    Optional<Request> comesOrGoes = comesOrGoes(state, nowS);
    if (comesOrGoes.isPresent()) {
      return List.of(comesOrGoes.get());
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

  /** Is there as long as the batch needs a person, and no longer. */
  private Optional<Request> comesOrGoes(ControlState state, double nowS) {
    boolean needed = PersonNeed.isNeeded(plan, state);
    if (needed && !state.presence().attended()) {
      return Optional.of(new Request.CheckIn(NAME, SHIFT_HOURS));
    }
    boolean mine = state.presence().by().equals(NAME);
    if (needed || !mine || state.phase() != BatchState.RUNNING || nowS < leaveAtS) {
      return Optional.empty();
    }
    leaveAtS = nowS + ASK_AGAIN_S;
    return Optional.of(new Request.CheckOut(NAME));
  }

  /** For a demonstration: is always there in place of the person who looks on. */
  Optional<Request> staysIn(ControlState state) {
    return state.presence().attended()
        ? Optional.empty()
        : Optional.of(new Request.CheckIn(NAME, SHIFT_HOURS));
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
