package tarnish.controller.control;

import java.util.List;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;

/**
 * Everything about a batch that does not change while it runs.
 *
 * @param recipe as checked
 * @param rig as checked
 * @param program the recipe's steps in one line
 * @param interlocks the cause-and-effect table enforced on this rig
 * @param gasModel how pressure and temperatures tell the amount of gas
 * @param topSoakK highest soak temperature of the recipe, 0 where it has none
 * @param gaugeNoisePa standard deviation of one pressure reading
 * @param plausibility what can be believed of each sensor
 */
public record Plan(
    Recipe recipe,
    RigDescription rig,
    Program program,
    List<InterlockRow> interlocks,
    GasModel gasModel,
    double topSoakK,
    double gaugeNoisePa,
    PlausibilityRules plausibility) {

  public static Plan of(Recipe recipe, RigDescription rig) {
    return new Plan(
        recipe,
        rig,
        Program.of(recipe.steps(), rig.unattended().rampMaxKPerS()),
        InterlockTable.of(rig),
        GasModel.of(rig),
        topSoakK(recipe.steps()),
        rig.sensor(Channel.VESSEL_PRESSURE).map(SensorDescription::noise).orElse(0.0),
        PlausibilityRules.of(rig));
  }

  /** The same without one row of the interlock table: only to show that a campaign misses it. */
  public Plan without(String interlock) {
    return new Plan(
        recipe,
        rig,
        program,
        interlocks.stream().filter(row -> !row.id().equals(interlock)).toList(),
        gasModel,
        topSoakK,
        gaugeNoisePa,
        plausibility);
  }

  private static double topSoakK(List<Step> steps) {
    double top = 0;
    for (Step step : steps) {
      if (step instanceof Step.Soak soak) {
        top = StrictMath.max(top, soak.atK());
      } else if (step instanceof Step.Repeat repeat) {
        top = StrictMath.max(top, topSoakK(repeat.steps()));
      }
    }
    return top;
  }
}
