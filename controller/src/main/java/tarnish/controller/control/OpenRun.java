package tarnish.controller.control;

import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Switch;

/**
 * Opening the vessel: cool, relieve, wait for a person, sweep while open, purge after closing.
 *
 * @param step what the recipe asks
 * @param stage how far it has come
 * @param purge the purge after closing; null before
 */
record OpenRun(Step.Open step, Stage stage, StepRun purge) implements StepRun {
  enum Stage {
    COOLING,
    RELIEVING,
    WAITING,
    SWEEPING,
    PURGING
  }

  /** How near to room pressure counts as relieved, in Pa. */
  private static final double RELIEVED_PA = 1000;

  /** The sweep stops so far below the limit of pressure, in Pa: a tick of it is less. */
  private static final double SWEEP_STOPS_PA = 1500;

  private static final double SWEEP_GOES_ON_PA = 2000;

  private static final String READY =
      "The vessel is cold and at room pressure. When you stand at the bench with gloves and eye"
          + " protection, answer here: the inert sweep starts, then open the vessel.";
  private static final String CLOSED =
      "Inert gas is sweeping. Open, grind, weigh, close and clamp the vessel, then answer here:"
          + " it will be purged.";

  static OpenRun begin(Step.Open step) {
    return new OpenRun(step, Stage.COOLING, null);
  }

  @Override
  public StepRun step(TickWork work) {
    work.setpointK = ControlState.HEATER_OFF;
    return switch (stage) {
      case COOLING ->
          work.sampleK() <= step.belowK() && work.presence.attended() ? in(Stage.RELIEVING) : this;
      case RELIEVING -> relieve(work);
      case WAITING -> waitForPerson(work);
      case SWEEPING -> sweep(work);
      case PURGING -> purge(work);
    };
  }

  private StepRun relieve(TickWork work) {
    double overPa = work.pressurePa() - work.roomPa();
    if (overPa > RELIEVED_PA) {
      work.demand(Switch.VENT);
      return this;
    }
    if (overPa < -RELIEVED_PA) {
      work.demand(Switch.INERT);
      return this;
    }
    work.ask(OpenQuestion.Purpose.READY_TO_OPEN, READY, step);
    return in(Stage.WAITING);
  }

  private StepRun waitForPerson(TickWork work) {
    if (work.question != null) {
      return this;
    }
    work.ask(OpenQuestion.Purpose.CLOSED_AGAIN, CLOSED, step);
    sweepOn(work);
    return in(Stage.SWEEPING);
  }

  private StepRun sweep(TickWork work) {
    sweepOn(work);
    if (work.question != null) {
      return this;
    }
    return new OpenRun(
        step,
        Stage.PURGING,
        BackfillRun.begin(
            Step.Gas.INERT, step.purgeToPa(), step.evacuateToPa(), step.purgeCycles()));
  }

  /**
   * A vessel that is still or again closed fills faster than it is vented; the gas waits then until
   * some of it is gone, so that a person who takes a while is not met by a trip.
   */
  private static void sweepOn(TickWork work) {
    work.demand(Switch.VENT);
    double shownPa = work.readings.valueOr(Channel.VESSEL_PRESSURE, 0);
    double belowLimitPa = work.pressureLimits().pressureMaxPa() - shownPa;
    boolean flows = work.outputsBefore.isOn(Switch.INERT);
    if (belowLimitPa > (flows ? SWEEP_STOPS_PA : SWEEP_GOES_ON_PA)) {
      work.demand(Switch.INERT);
    }
  }

  private StepRun purge(TickWork work) {
    StepRun next = purge.step(work);
    return next instanceof Done ? new Done("closed and purged") : new OpenRun(step, stage, next);
  }

  /** Cold, but nobody is there: bringing the vessel to room pressure is the person's business. */
  boolean waitsForPerson(TickWork work) {
    return stage == Stage.COOLING
        && work.readings.valueOr(Channel.SAMPLE_TEMPERATURE, Double.MAX_VALUE) <= step.belowK()
        && !work.presence.attended();
  }

  private OpenRun in(Stage next) {
    return new OpenRun(step, next, purge);
  }

  /** While the vessel may be open the sweep must come back, so a hold there changes nothing. */
  @Override
  public StepRun reentered() {
    return stage == Stage.PURGING ? new OpenRun(step, stage, purge.reentered()) : this;
  }

  @Override
  public String doing() {
    return switch (stage) {
      case COOLING -> "cooling below " + Words.temperature(step.belowK()) + " to open the vessel";
      case RELIEVING -> "bringing the vessel to room pressure";
      case WAITING -> "waiting for a person to open the vessel";
      case SWEEPING -> "sweeping with inert gas while the vessel is open";
      case PURGING -> "purging after closing: " + purge.doing();
    };
  }
}
