package tarnish.controller.control;

import tarnish.shared.recipe.Step;

/**
 * What a running step remembers, with what it does in a tick. {@link #step} gives the memory for
 * the next tick, or a {@link Done}.
 */
sealed interface StepRun
    permits StepRun.Done,
        EvacuateRun,
        LeakTestRun,
        BackfillRun,
        DoseRun,
        RampRun,
        SoakRun,
        CoolRun,
        OpenRun,
        AskRun {

  /** One tick; every reading that {@link TickWork#believable} names is good. */
  StepRun step(TickWork work);

  /** The memory with which the step goes on after a pause or a hold. */
  StepRun reentered();

  /** Whether a pause or a hold undoes all that it did, so that its time limit begins anew, too. */
  default boolean startsOver() {
    return false;
  }

  /** What it is doing, in words. */
  String doing();

  /** The step has reached its end. */
  record Done(String how) implements StepRun {
    @Override
    public StepRun step(TickWork work) {
      return this;
    }

    @Override
    public StepRun reentered() {
      return this;
    }

    @Override
    public String doing() {
      return how;
    }
  }

  static StepRun begin(Instruction.Do instruction) {
    Step step = instruction.step();
    if (step instanceof Step.Evacuate evacuate) {
      return EvacuateRun.begin(evacuate.toPa());
    }
    if (step instanceof Step.LeakTest test) {
      return LeakTestRun.begin(test);
    }
    if (step instanceof Step.Backfill fill) {
      return BackfillRun.begin(fill.gas(), fill.toPa(), fill.evacuateToPa(), fill.cycles());
    }
    if (step instanceof Step.Dose dose) {
      return DoseRun.begin(dose);
    }
    if (step instanceof Step.Ramp ramp) {
      return new RampRun(ramp);
    }
    if (step instanceof Step.Soak soak) {
      return new SoakRun(soak, instruction.rampRateKPerS(), 0);
    }
    if (step instanceof Step.Cool cool) {
      return new CoolRun(cool);
    }
    if (step instanceof Step.Open open) {
      return OpenRun.begin(open);
    }
    if (step instanceof Step.Ask ask) {
      return new AskRun(ask, false);
    }
    throw new IllegalArgumentException("a repeat is not a step to run: " + step);
  }
}
