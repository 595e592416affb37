package tarnish.shared.recipe;

import java.util.List;
import java.util.OptionalDouble;

/** One step of a recipe, in SI units. Pressures are absolute. */
public sealed interface Step {
  StepCommon common();

  /** The word that names this kind of step in a recipe file. */
  String kind();

  /** Pump down until the pressure is at most {@code toPa}. */
  record Evacuate(StepCommon common, double toPa) implements Step {
    @Override
    public String kind() {
      return "evacuate";
    }
  }

  /**
   * Shut every valve and watch the pressure.
   *
   * @param settleS waiting time before the watch begins
   * @param durationS length of the watch
   * @param riseMaxPaPerS greatest rise, from the second half of the watch, that passes
   */
  record LeakTest(StepCommon common, double settleS, double durationS, double riseMaxPaPerS)
      implements Step {
    @Override
    public String kind() {
      return "leak test";
    }
  }

  /**
   * Fill with a gas, as often as {@code cycles} says, pumping down to {@code evacuateToPa} before
   * each fill.
   */
  record Backfill(StepCommon common, Gas gas, double toPa, int cycles, double evacuateToPa)
      implements Step {
    @Override
    public String kind() {
      return "backfill";
    }
  }

  /**
   * Admit oxygen in pulses; each waits until the heat of the last one is over and uptake has
   * slowed.
   *
   * @param pulsePa pressure step of one pulse
   * @param toPa done when the pressure stays at or above this with both waits over
   * @param pulsesMax most pulses given
   * @param heatSettledK excess of the sample over its course before the pulse that counts as over
   * @param uptakeSlowedPaPerS pressure fall that counts as slowed
   * @param waitMinS shortest wait after a pulse
   * @param waitMaxS longest wait after a pulse before the batch is held
   * @param riseMaxK how far the sample may warm above where dosing began: pulses are then planned,
   *     none larger than {@code pulsePa}; empty: pulses of {@code pulsePa}, each after the last
   */
  record Dose(
      StepCommon common,
      double pulsePa,
      double toPa,
      int pulsesMax,
      double heatSettledK,
      double uptakeSlowedPaPerS,
      double waitMinS,
      double waitMaxS,
      OptionalDouble riseMaxK)
      implements Step {

    /** Pulses of one size. */
    public Dose(
        StepCommon common,
        double pulsePa,
        double toPa,
        int pulsesMax,
        double heatSettledK,
        double uptakeSlowedPaPerS,
        double waitMinS,
        double waitMaxS) {
      this(
          common,
          pulsePa,
          toPa,
          pulsesMax,
          heatSettledK,
          uptakeSlowedPaPerS,
          waitMinS,
          waitMaxS,
          OptionalDouble.empty());
    }

    /** The same with planned pulses of at most {@code largestPa}. */
    public Dose planned(double largestPa, double riseK) {
      return new Dose(
          common,
          largestPa,
          toPa,
          pulsesMax,
          heatSettledK,
          uptakeSlowedPaPerS,
          waitMinS,
          waitMaxS,
          OptionalDouble.of(riseK));
    }

    /** The same with pulses of one size. */
    public Dose fixed(double stepPa) {
      return new Dose(
          common, stepPa, toPa, pulsesMax, heatSettledK, uptakeSlowedPaPerS, waitMinS, waitMaxS);
    }

    @Override
    public String kind() {
      return "dose";
    }
  }

  /**
   * Move the setpoint to {@code toK} at {@code rateKPerS}, above 0, and wait until it is reached.
   */
  record Ramp(StepCommon common, double toK, double rateKPerS) implements Step {
    @Override
    public String kind() {
      return "ramp";
    }
  }

  /** Stay at {@code atK} until {@code durationS} were spent within {@code bandK} of it. */
  record Soak(StepCommon common, double atK, double durationS, double bandK) implements Step {
    @Override
    public String kind() {
      return "soak";
    }
  }

  /**
   * Let the oven cool to at most {@code toK}.
   *
   * @param rateKPerS fastest cooling asked for; empty: heater off
   */
  record Cool(StepCommon common, double toK, OptionalDouble rateKPerS) implements Step {
    @Override
    public String kind() {
      return "cool";
    }
  }

  /**
   * Cool below {@code belowK}, relieve to room pressure with inert gas, keep an inert sweep running
   * while the vessel is open, and after a person has closed it, purge.
   *
   * @param purgeCycles fills with inert gas afterwards
   * @param purgeToPa pressure of each fill
   * @param evacuateToPa pressure before each fill
   * @param questions asked of the person who closes the vessel
   */
  record Open(
      StepCommon common,
      double belowK,
      int purgeCycles,
      double purgeToPa,
      double evacuateToPa,
      List<Question> questions)
      implements Step {
    public Open {
      questions = List.copyOf(questions);
    }

    @Override
    public String kind() {
      return "open";
    }
  }

  /** Wait for a person, heater off and valves shut. */
  record Ask(StepCommon common, String prompt, List<Question> questions) implements Step {
    public Ask {
      questions = List.copyOf(questions);
    }

    @Override
    public String kind() {
      return "ask";
    }
  }

  /** Do {@code steps} up to {@code timesMax} times, or until the condition holds after a pass. */
  record Repeat(StepCommon common, int timesMax, RepeatUntil until, List<Step> steps)
      implements Step {
    public Repeat {
      steps = List.copyOf(steps);
    }

    @Override
    public String kind() {
      return "repeat";
    }
  }

  /** A gas that a backfill may use. */
  enum Gas {
    INERT("inert"),
    OXYGEN("oxygen");

    private final String words;

    Gas(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }
  }
}
