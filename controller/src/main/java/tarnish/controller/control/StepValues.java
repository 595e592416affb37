package tarnish.controller.control;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;
import tarnish.shared.recipe.Step;
import tarnish.shared.recipe.StepCommon;

/**
 * The numbers of a step that a person may change while the batch runs, by the words of a recipe
 * file. Bands, time limits, counts and who must be there are not among them: they protect.
 */
public final class StepValues {
  private static final String CHANGED = ", changed: ";

  private final Step step;
  private final Map<String, Double> values = new LinkedHashMap<>();
  private final Map<String, Double> before;

  private StepValues(Step step) {
    this.step = step;
    if (step instanceof Step.Ramp ramp) {
      values.put("to", ramp.toK());
      values.put("rate", ramp.rateKPerS());
    } else if (step instanceof Step.Soak soak) {
      values.put("at", soak.atK());
      values.put("for", soak.durationS());
    } else if (step instanceof Step.Cool cool) {
      values.put("to", cool.toK());
      cool.rateKPerS().ifPresent(rate -> values.put("rate", rate));
    } else if (step instanceof Step.Dose dose) {
      values.put("pulse", dose.pulsePa());
      values.put("to", dose.toPa());
    }
    step.common().holdPressurePa().ifPresent(hold -> values.put("hold", hold));
    before = Map.copyOf(values);
  }

  public static StepValues of(Step step) {
    return new StepValues(step);
  }

  boolean knows(String word) {
    return values.containsKey(word);
  }

  /** The words, in the order of a recipe file. */
  public List<String> words() {
    return List.copyOf(values.keySet());
  }

  /** In SI units. */
  public double value(String word) {
    return values.get(word);
  }

  void set(String word, double value) {
    values.put(word, value);
  }

  /** With the unit that people write. */
  public String printed(String word) {
    double value = values.get(word);
    return switch (unit(word)) {
      case SECOND -> Words.duration(value);
      default -> Quantities.printShort(value, unit(word));
    };
  }

  /** The unit that people write it in. */
  public Unit unit(String word) {
    return switch (word) {
      case "for" -> Unit.SECOND;
      case "rate" -> Unit.KELVIN_PER_MINUTE;
      case "hold", "pulse" -> Unit.MILLIBAR;
      default -> step instanceof Step.Dose ? Unit.MILLIBAR : Unit.CELSIUS;
    };
  }

  /** The step with these numbers; its time limit follows, so that its margin stays. */
  Step step() {
    StepCommon common = common();
    if (step instanceof Step.Ramp) {
      return new Step.Ramp(common, values.get("to"), values.get("rate"));
    }
    if (step instanceof Step.Soak soak) {
      return new Step.Soak(common, values.get("at"), values.get("for"), soak.bandK());
    }
    if (step instanceof Step.Cool) {
      OptionalDouble rate =
          knows("rate") ? OptionalDouble.of(values.get("rate")) : OptionalDouble.empty();
      return new Step.Cool(common, values.get("to"), rate);
    }
    Step.Dose dose = (Step.Dose) step;
    return new Step.Dose(
        common,
        values.get("pulse"),
        values.get("to"),
        dose.pulsesMax(),
        dose.heatSettledK(),
        dose.uptakeSlowedPaPerS(),
        dose.waitMinS(),
        dose.waitMaxS(),
        dose.riseMaxK());
  }

  private StepCommon common() {
    StepCommon was = step.common();
    String title = was.title();
    int mark = title.indexOf(CHANGED);
    StringBuilder words = new StringBuilder(mark < 0 ? title : title.substring(0, mark));
    words.append(CHANGED);
    String between = "";
    for (String word : values.keySet()) {
      if (mark >= 0 || !values.get(word).equals(before.get(word))) {
        words.append(between).append(word).append(' ').append(printed(word));
        between = ", ";
      }
    }
    OptionalDouble hold =
        knows("hold") ? OptionalDouble.of(values.get("hold")) : OptionalDouble.empty();
    OptionalDouble limit =
        was.timeLimitS().isPresent()
            ? OptionalDouble.of(
                was.timeLimitS().getAsDouble()
                    + StrictMath.max(0, planned(values) - planned(before)))
            : was.timeLimitS();
    return new StepCommon(words.toString(), hold, was.presence(), limit);
  }

  /** Time the step asks for by itself, as the reader of recipes reckons it, in s. */
  private double planned(Map<String, Double> of) {
    if (step instanceof Step.Soak) {
      return of.get("for");
    }
    if (step instanceof Step.Ramp) {
      return 2 * StrictMath.max(0, of.get("to") - 293.15) / of.get("rate");
    }
    return 0;
  }
}
