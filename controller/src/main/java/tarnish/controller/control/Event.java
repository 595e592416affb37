package tarnish.controller.control;

import tarnish.shared.estimate.Estimate;

/** Something that happened in a tick and belongs into the record. */
public sealed interface Event {
  /** One sentence for the record and the page. */
  String sentence();

  /** The word under which the journal files it. */
  default String kind() {
    return getClass().getSimpleName();
  }

  record StateChanged(BatchState from, BatchState to, String why) implements Event {
    @Override
    public String sentence() {
      return "Batch " + from.words() + " → " + to.words() + ": " + why;
    }
  }

  record StepStarted(int position, String title) implements Event {
    @Override
    public String sentence() {
      return "Step " + (position + 1) + " begins: " + title;
    }
  }

  record StepEnded(int position, String title, String how) implements Event {
    @Override
    public String sentence() {
      return "Step " + (position + 1) + " ends (" + title + "): " + how;
    }
  }

  /** One oxygen pulse, with the pressure before and after and the amount of gas admitted. */
  record PulseGiven(int number, double beforePa, double afterPa, Estimate admittedMol)
      implements Event {
    @Override
    public String sentence() {
      return "Oxygen pulse "
          + number
          + ": "
          + Words.pressure(beforePa)
          + " → "
          + Words.pressure(afterPa)
          + ", "
          + Words.amount(admittedMol)
          + " admitted";
    }
  }

  /**
   * Gas was let out, pumped off or let in by other valves than the oxygen valve.
   *
   * @param fromMol gas before
   * @param toMol gas after
   * @param oxygenFraction oxygen's share of what is in the vessel now
   */
  record GasExchanged(Estimate fromMol, Estimate toMol, Estimate oxygenFraction) implements Event {
    @Override
    public String sentence() {
      return "Gas exchanged: from "
          + Words.amount(fromMol)
          + " to "
          + Words.amount(toMol)
          + ", of which "
          + Words.percent(oxygenFraction)
          + " oxygen";
    }
  }

  /** A line of the ledger: what happened to the solid, the vessel or the gas source. */
  record LedgerEntered(String by, String what, Estimate oxygenPerUnit) implements Event {
    @Override
    public String sentence() {
      String solid = Words.estimate(oxygenPerUnit) + " O per formula unit";
      return "Ledger, " + by + " (" + solid + "): " + what;
    }
  }

  /** The witnesses disagree by more than they may. */
  record WitnessesDisagree(String what, double deviations, String likely) implements Event {
    @Override
    public String sentence() {
      return what + " Likely: " + likely;
    }
  }

  record LeakTested(double risePaPerS, double firstHalfPaPerS, boolean passed) implements Event {
    @Override
    public String sentence() {
      return "Leak test "
          + (passed ? "passed" : "failed")
          + ": rise "
          + Words.pressureRate(risePaPerS)
          + " in the second half, "
          + Words.pressureRate(firstHalfPaPerS)
          + " in the first";
    }
  }

  record SoakEarned(double setpointK, double inBandS) implements Event {
    @Override
    public String sentence() {
      return "Soak at "
          + Words.temperature(setpointK)
          + " done: "
          + Words.duration(inBandS)
          + " within its band";
    }
  }

  /** A person is asked for something. */
  record Asked(int questionNumber, String prompt) implements Event {
    @Override
    public String sentence() {
      return "Asked: " + prompt;
    }
  }

  record Answered(int questionNumber, String by, String answer) implements Event {
    @Override
    public String sentence() {
      return by + " answered: " + answer;
    }
  }

  /** A weighing with the composition it gives. */
  record Weighed(Estimate massKg, Estimate oxygenPerUnit) implements Event {
    @Override
    public String sentence() {
      return "Weighed "
          + Words.mass(massKg)
          + ": "
          + Words.estimate(oxygenPerUnit)
          + " O per formula unit by all witnesses";
    }
  }

  record AlarmRaised(String alarm, String text, boolean firstOut) implements Event {
    @Override
    public String sentence() {
      return (firstOut ? "Alarm (first out): " : "Alarm: ") + text;
    }
  }

  record AlarmChanged(String alarm, AlarmState to, String why) implements Event {
    @Override
    public String sentence() {
      return "Alarm '" + alarm + "' is " + to.words() + ": " + why;
    }
  }

  /** One point of the list before the start, as a person answered it. */
  record PreflightAnswered(String by, String item, String answer) implements Event {
    @Override
    public String sentence() {
      return "Before the start, " + item + ": " + answer + " (" + by + ")";
    }
  }

  /**
   * A person changed what the recipe asks.
   *
   * @param what each difference in words
   * @param rehearsed how the changed batch went on a simulated bench
   */
  record StepChanged(String by, int position, String what, String reason, String rehearsed)
      implements Event {
    @Override
    public String sentence() {
      return by
          + " changed step "
          + (position + 1)
          + ": "
          + what
          + ". Reason: "
          + reason
          + (rehearsed.isBlank() ? "" : ". Rehearsed: " + rehearsed);
    }
  }

  /** A person came, left, handed over or did not come back. */
  record PresenceChanged(String person, String what) implements Event {
    @Override
    public String sentence() {
      return person + " " + what;
    }
  }

  /** An alarm was shelved or an interlock defeated, or that has ended. */
  record AlarmSetAside(String alarm, String what) implements Event {
    @Override
    public String sentence() {
      return "Alarm '" + alarm + "' " + what;
    }
  }

  /**
   * Time in which nobody was in control.
   *
   * @param outageS how long, by the wall clock
   * @param beforeK last sample temperature known before; 0 where none was
   * @param afterK first one after; 0 where it was not believable
   * @param timeConstantS of an exponential fall from one to the other towards the room: an
   *     estimate; 0 where it cannot be estimated
   */
  record Outage(double outageS, double beforeK, double afterK, double timeConstantS)
      implements Event {
    /** Whether there is an estimate of how it cooled. */
    public boolean isEstimated() {
      return timeConstantS > 0;
    }

    /**
     * Sample temperature {@code sinceS} after the beginning: the exponential that goes through both
     * ends, towards the room temperature that its time constant was taken with. An estimate; NaN
     * where there is none.
     */
    public double estimateK(double sinceS) {
      if (!isEstimated()) {
        return Double.NaN;
      }
      double left = StrictMath.exp(-outageS / timeConstantS);
      double roomK = (afterK - beforeK * left) / (1 - left);
      return roomK + (beforeK - roomK) * StrictMath.exp(-sinceS / timeConstantS);
    }

    @Override
    public String sentence() {
      String words = "Nobody was in control for " + Words.duration(outageS) + ", heater off";
      if (beforeK > 0 && afterK > 0) {
        words +=
            "; the sample went from "
                + Words.temperature(beforeK)
                + " to "
                + Words.temperature(afterK);
      }
      return isEstimated()
          ? words
              + " (estimate in between: exponential cooling, time constant "
              + Words.duration(StrictMath.rint(timeConstantS))
              + ")"
          : words + " (how it cooled in between is not known)";
    }
  }

  /** The record itself was found damaged; {@code noticedAt} in ISO 8601. */
  record RecordDamaged(String noticedAt, String what) implements Event {
    @Override
    public String sentence() {
      return "Damaged record, noticed at " + noticedAt + ": " + what;
    }
  }

  record RequestDone(String by, String what) implements Event {
    @Override
    public String sentence() {
      return by + ": " + what;
    }
  }

  record RequestRefused(String by, String what, String why) implements Event {
    @Override
    public String sentence() {
      return "Refused to " + by + ": " + what + ". " + why;
    }
  }

  /** Something worth knowing that asks for no act. */
  record Advisory(String text) implements Event {
    @Override
    public String sentence() {
      return text;
    }
  }
}
