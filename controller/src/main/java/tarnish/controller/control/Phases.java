package tarnish.controller.control;

import java.util.ArrayList;
import java.util.List;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.RepeatUntil;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Switch;

/** Moves the batch through its states and its steps. */
final class Phases {
  private Phases() {}

  static void step(TickWork work) {
    holdIfTripped(work);
    switch (work.phase) {
      case RUNNING -> run(work);
      case RESTARTING -> {
        goOn(work, "restarted");
        keepSweep(work);
      }
      case PAUSING -> settleInto(BatchState.PAUSED, work);
      case HOLDING -> settleInto(BatchState.HELD, work);
      case ABORTING -> settleInto(BatchState.ABORTED, work);
      case STOPPING -> stop(work);
      case IDLE, PAUSED, HELD, STOPPED, ABORTED, COMPLETE -> standStill(work);
    }
    if (standsSafe(work.phase) && work.plan.rig().ventOpenWhenSafe() && !vesselMayBeOpen(work)) {
      work.demand(Switch.VENT);
    }
  }

  /** Goes on running; every way back enters the step anew. */
  static void goOn(TickWork work, String why) {
    if (work.run != null) {
      work.run = work.run.reentered();
      work.stepS = work.run.startsOver() ? 0 : work.stepS;
    }
    work.enter(BatchState.RUNNING, why);
  }

  private static void holdIfTripped(TickWork work) {
    if (!work.phase.mayHold()) {
      return;
    }
    int row = work.alarms.holding(work.plan.interlocks());
    if (row >= 0) {
      work.tally = work.tally.withTrip();
      work.enter(BatchState.HOLDING, work.plan.interlocks().get(row).what());
    }
  }

  private static boolean standsSafe(BatchState phase) {
    return phase == BatchState.IDLE || phase == BatchState.HELD || phase.isFinal();
  }

  private static void settleInto(BatchState next, TickWork work) {
    standStill(work);
    work.enter(next, work.phaseWhy);
  }

  private static void standStill(TickWork work) {
    work.setpointK = ControlState.HEATER_OFF;
    work.pulse = work.pulse.shut();
    keepSweep(work);
  }

  private static void keepSweep(TickWork work) {
    if (vesselMayBeOpen(work)) {
      work.demand(Switch.INERT);
      work.demand(Switch.VENT);
    }
  }

  /**
   * An open vessel keeps its sweep through a pause, a hold or a lost reading: air must not reach
   * the solid.
   */
  private static boolean vesselMayBeOpen(TickWork work) {
    return work.run instanceof OpenRun open
        && open.stage() == OpenRun.Stage.SWEEPING
        && !work.phase.isFinal();
  }

  private static void stop(TickWork work) {
    standStill(work);
    boolean cool =
        work.readings.isGood(Channel.SAMPLE_TEMPERATURE)
            && work.readings.value(Channel.SAMPLE_TEMPERATURE) <= Control.COOL_ENOUGH_K;
    if (cool) {
      work.enter(BatchState.STOPPED, work.phaseWhy);
    }
  }

  private static void run(TickWork work) {
    if (!work.believable()) {
      work.pulse = work.pulse.shut();
      keepSweep(work);
      return;
    }
    if (work.run == null && !beginNext(work)) {
      return;
    }
    Instruction.Do doing = work.doing();
    StepRun next = work.run.step(work);
    work.stepS += work.tickS;
    keepPressure(doing.step(), work);
    work.pulse = work.pulse.step(work.pressurePa(), work);
    if (next instanceof StepRun.Done done) {
      end(doing, done.how(), work);
    } else {
      work.run = next;
      double limitS = doing.step().common().timeLimitS().orElse(Double.MAX_VALUE);
      if (work.stepS > limitS && work.question == null) {
        work.report(InterlockTable.STEP_OVERDUE, "Its limit is " + Words.duration(limitS) + ".");
        work.stepS = 0;
      }
    }
  }

  private static void keepPressure(Step step, TickWork work) {
    if (step.common().holdPressurePa().isPresent()) {
      PressureKeeper.step(step.common().holdPressurePa().getAsDouble(), step, work);
    }
  }

  private static void end(Instruction.Do doing, String how, TickWork work) {
    if (doing.step() instanceof Step.Soak soak && work.run instanceof SoakRun soaked) {
      List<SoakRecord> soaks = new ArrayList<>(work.soaks);
      double earnedS = StrictMath.max(soaked.inBandS(), soak.durationS());
      soaks.add(new SoakRecord(work.cursor.position(), soak.atK(), soak.durationS(), earnedS));
      work.soaks = List.copyOf(soaks);
    }
    work.event(new Event.StepEnded(work.cursor.position(), doing.step().common().title(), how));
    work.pulse = work.pulse.shut();
    work.run = null;
    work.cursor = work.cursor.at(work.cursor.position() + 1);
  }

  /** Finds and begins the next step; false if the recipe has come to its end. */
  private static boolean beginNext(TickWork work) {
    while (work.cursor.position() < work.program.size()) {
      Instruction next = work.program.at(work.cursor.position());
      if (next instanceof Instruction.Do doing) {
        if (Presences.waitsForPerson(work)) {
          work.setpointK = ControlState.HEATER_OFF;
          return false;
        }
        work.run = StepRun.begin(doing);
        work.stepS = 0;
        work.event(new Event.StepStarted(work.cursor.position(), doing.step().common().title()));
        return true;
      }
      work.cursor = next instanceof Instruction.LoopStart ? enterLoop(work) : endPass(next, work);
    }
    work.setpointK = ControlState.HEATER_OFF;
    work.enter(BatchState.COMPLETE, "every step of the recipe is done");
    return false;
  }

  private static Cursor enterLoop(TickWork work) {
    return work.cursor.intoPass(work.cursor.position(), 1, work.gas);
  }

  private static Cursor endPass(Instruction instruction, TickWork work) {
    Instruction.LoopEnd end = (Instruction.LoopEnd) instruction;
    int pass = work.cursor.passes()[end.start()];
    boolean over = pass >= end.repeat().timesMax() || reached(end, work);
    if (over) {
      work.event(
          new Event.Advisory(
              "Repeat ends after " + pass + " passes: " + end.repeat().common().title()));
      return work.cursor.at(work.cursor.position() + 1);
    }
    return work.cursor.intoPass(end.start(), pass + 1, work.gas);
  }

  /**
   * Detection limit of an amount with standard uncertainty u: (1.645 + 1.645) u, which is missed
   * and found by chance in 5 % of cases each (ISO 11843-1; IUPAC, Currie 1995; from memory).
   */
  private static final double DETECTION = 3.29;

  /** Less is the rounding of sums, in mol. */
  private static final double ROUNDING_MOL = 1e-9;

  private static boolean isFinished(
      RepeatUntil.Finished wanted, GasAccount atStart, TickWork work) {
    GasAccount.Change pass = work.gas.since(atStart);
    double limitMol = StrictMath.max(ROUNDING_MOL, DETECTION * pass.standardUncertainty());
    boolean nothingSeen = pass.mol() < limitMol;
    boolean steady = work.composition.massIsSteady(wanted.weighings());
    if (nothingSeen && steady) {
      work.event(
          new Event.Advisory(
              "Uptake of this pass, "
                  + Words.amount(
                      new tarnish.shared.estimate.Estimate(pass.mol(), pass.standardUncertainty()))
                  + ", is below what could have been seen, and the last "
                  + wanted.weighings()
                  + " weighings agree: it is finished."));
    }
    return nothingSeen && steady;
  }

  private static boolean reached(Instruction.LoopEnd end, TickWork work) {
    RepeatUntil until = end.repeat().until();
    if (until instanceof RepeatUntil.ConversionAtLeast wanted) {
      double perUnit = Accounts.oxygenPerUnit(work).value();
      return perUnit >= wanted.fraction() * work.recipe().target().oxygenPerUnit();
    }
    if (until instanceof RepeatUntil.PassUptakeBelow wanted) {
      double atStartMol = work.cursor.gasAtPassStart()[end.start()].uptakeMol();
      return work.gas.uptakeMol() - atStartMol < wanted.amountMol();
    }
    if (until instanceof RepeatUntil.Finished wanted) {
      return isFinished(wanted, work.cursor.gasAtPassStart()[end.start()], work);
    }
    return false;
  }
}
