package tarnish.controller.control;

import tarnish.shared.recipe.Step;

/**
 * Waiting for a person.
 *
 * @param step what the recipe asks
 * @param asked whether the question has been put
 */
record AskRun(Step.Ask step, boolean asked) implements StepRun {

  @Override
  public StepRun step(TickWork work) {
    work.setpointK = ControlState.HEATER_OFF;
    if (!asked) {
      work.ask(OpenQuestion.Purpose.ASK, step.prompt(), step);
      return new AskRun(step, true);
    }
    return work.question == null ? new Done("answered") : this;
  }

  @Override
  public StepRun reentered() {
    return this;
  }

  @Override
  public String doing() {
    return "waiting for a person: " + step.prompt();
  }
}
