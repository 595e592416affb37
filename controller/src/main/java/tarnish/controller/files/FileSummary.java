package tarnish.controller.files;

import static tarnish.shared.quantity.Quantities.print;
import static tarnish.shared.quantity.Quantities.printDuration;
import static tarnish.shared.quantity.Quantities.printShort;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import tarnish.shared.quantity.Unit;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.Step;
import tarnish.shared.recipe.StepCommon.Presence;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Vessel;

/** A good file in a few lines, so that a person sees whether it says what was meant. */
final class FileSummary {
  private FileSummary() {}

  static List<String> of(Recipe recipe, Optional<RigDescription> rig) {
    List<String> lines = new ArrayList<>();
    lines.add("recipe: " + recipe.title() + invented(recipe.invented()));
    lines.add(
        "charge: "
            + print(recipe.charge().massKg(), Unit.GRAM, 3)
            + " of "
            + recipe.charge().formula()
            + ", which takes up "
            + print(recipe.oxygenNeededMol(), Unit.MILLIMOLE, 2)
            + " of O2 to become "
            + recipe.target().formula());
    lines.add("steps: " + StepCount.steps(recipe.steps()) + " if every repeat runs out");
    lines.add(
        "soaks: "
            + StepCount.soaks(recipe.steps())
            + ", "
            + printDuration(StepCount.soakS(recipe.steps()))
            + " in all");
    List<String> attended = new ArrayList<>();
    collectAttended(recipe.steps(), attended);
    lines.add("needs a person: " + (attended.isEmpty() ? "no" : String.join("; ", attended)));
    lines.add(
        rig.map(bench -> "held against the limits of the rig '" + bench.name() + "'")
            .orElse("not held against a rig: give a rig file to check its limits too"));
    return lines;
  }

  private static void collectAttended(List<Step> steps, List<String> titles) {
    for (Step step : steps) {
      if (step.common().presence() == Presence.ATTENDED) {
        titles.add(step.common().title());
      }
      if (step instanceof Step.Repeat repeat) {
        collectAttended(repeat.steps(), titles);
      }
    }
  }

  static List<String> of(RigDescription rig) {
    Vessel vessel = rig.vessel();
    return List.of(
        "rig: " + rig.name() + invented(rig.invented()) + ", " + rig.connection().words(),
        "vessel: "
            + vessel.name()
            + ", "
            + vessel.glass().words()
            + ", "
            + printShort(vessel.volume().hotM3(), Unit.MILLILITRE)
            + " hot, "
            + printShort(vessel.volume().coldM3(), Unit.MILLILITRE)
            + " cold",
        "gases: "
            + rig.oxygen().name()
            + " ("
            + printShort(rig.oxygen().oxygenFraction(), Unit.PERCENT)
            + " oxygen), "
            + rig.inert().name(),
        "a weighing is known to: "
            + printShort(rig.balanceStandardUncertaintyKg(), Unit.MILLIGRAM)
            + ", handling included",
        "limits attended: " + limits(rig.attended()),
        "limits unattended: " + limits(rig.unattended()),
        "sensors: "
            + rig.sensors().stream()
                .map(sensor -> sensor.channel().words())
                .collect(Collectors.joining(", ")));
  }

  private static String limits(Limits limits) {
    return "sample "
        + printShort(limits.sampleMaxK(), Unit.CELSIUS)
        + ", oven "
        + printShort(limits.ovenMaxK(), Unit.CELSIUS)
        + ", seal "
        + printShort(limits.sealMaxK(), Unit.CELSIUS)
        + ", pressure "
        + printShort(limits.pressureMaxPa(), Unit.MILLIBAR)
        + ", ramp "
        + printShort(limits.rampMaxKPerS(), Unit.KELVIN_PER_MINUTE)
        + ", pulse "
        + printShort(limits.pulseMaxPa(), Unit.MILLIBAR);
  }

  private static String invented(boolean invented) {
    return invented ? " (invented demonstration data)" : "";
  }
}
