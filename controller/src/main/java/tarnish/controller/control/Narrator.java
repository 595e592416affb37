package tarnish.controller.control;

import tarnish.shared.recipe.Step;

/**
 * Says what is happening, why, and what comes next.
 *
 * @param sentence what is happening
 * @param why it is so
 * @param next what comes next
 */
public record Narrator(String sentence, String why, String next) {

  /** The words for a state of a batch. */
  public static Narrator of(Plan plan, ControlState state) {
    return new Narrator(sentence(plan, state), why(plan, state), next(plan, state));
  }

  private static String sentence(Plan plan, ControlState state) {
    return switch (state.phase()) {
      case IDLE -> "Idle: heater off, oxygen shut. No batch is running.";
      case RUNNING -> running(plan, state);
      case PAUSING, PAUSED -> "Paused: heater off, oxygen shut in; what was earned is kept.";
      case HOLDING, HELD -> "Held in the safe state: heater off, oxygen shut.";
      case RESTARTING -> "Going on after the hold.";
      case STOPPING -> "Stopping: heater off, oxygen shut, cooling down.";
      case STOPPED -> "Stopped: heater off, oxygen shut.";
      case ABORTING, ABORTED -> "Aborted: heater off, oxygen shut.";
      case COMPLETE -> "Complete: heater off, oxygen shut.";
    };
  }

  private static String running(Plan plan, ControlState state) {
    if (state.run() == null) {
      return PersonNeed.waits(plan, state)
          ? "Waiting: a person must check in for the next step; heater off."
          : "Going to the next step.";
    }
    String doing = state.run().doing();
    String capital = doing.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + doing.substring(1);
    Step step = present(plan, state);
    boolean holds = step != null && step.common().holdPressurePa().isPresent();
    return capital
        + (holds
            ? ", oxygen kept at " + Words.pressure(step.common().holdPressurePa().getAsDouble())
            : "")
        + ".";
  }

  private static String why(Plan plan, ControlState state) {
    if (state.phase() == BatchState.RUNNING) {
      return "Step " + (state.cursor().position() + 1) + " of the recipe.";
    }
    String why = state.phaseWhy();
    return why.isEmpty()
        ? ""
        : why.substring(0, 1).toUpperCase(java.util.Locale.ROOT)
            + why.substring(1)
            + (why.endsWith(".") ? "" : ".");
  }

  private static String next(Plan plan, ControlState state) {
    if (state.question() == null && PersonNeed.waits(plan, state)) {
      return "A person must check in; then it goes on by itself.";
    }
    if (state.question() != null) {
      return "A person is needed: check in and answer the open question.";
    }
    return switch (state.phase()) {
      case IDLE -> "Choose a recipe and start.";
      case PAUSED -> "Resume when you are ready; it ramps back at the recipe's rate.";
      case HOLDING, HELD ->
          state.alarms().holding(plan.interlocks()) >= 0
              ? "See the alarms: mend the cause, reset with a reason, then restart or stop."
              : "Restart or stop.";
      case STOPPED, ABORTED, COMPLETE -> "The record is kept; a new batch may be started.";
      case RUNNING, PAUSING, RESTARTING, STOPPING, ABORTING -> nextStep(plan, state);
    };
  }

  private static String nextStep(Plan plan, ControlState state) {
    for (int at = state.cursor().position() + 1; at < state.program().size(); at++) {
      if (state.program().at(at) instanceof Instruction.Do doing) {
        return "Next: " + doing.step().common().title() + ".";
      }
    }
    return "Next: the end of the recipe.";
  }

  private static Step present(Plan plan, ControlState state) {
    int at = state.cursor().position();
    return at < state.program().size() && state.program().at(at) instanceof Instruction.Do doing
        ? doing.step()
        : null;
  }
}
