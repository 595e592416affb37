package tarnish.controller.control;

import java.util.List;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;

/**
 * Everything about a batch that does not change while it runs.
 *
 * @param recipe as checked
 * @param rig as checked
 * @param program the recipe's steps in one line
 * @param interlocks the cause-and-effect table enforced on this rig
 * @param gasGain relative standard uncertainty of every amount of gas from volume, gauge and
 *     temperature
 * @param topSoakK highest soak temperature of the recipe, 0 where it has none
 * @param gaugeNoisePa standard deviation of one pressure reading
 * @param regulator of the temperature without a model
 * @param modelRegulator of the temperature by the rig's model; null where it has none
 */
public record Plan(
    Recipe recipe,
    RigDescription rig,
    Program program,
    List<InterlockRow> interlocks,
    double gasGain,
    double topSoakK,
    double gaugeNoisePa,
    Regulator regulator,
    ModelRegulator modelRegulator) {

  /** How well the mean temperature of the hot gas is known, in K: common practice, not measured. */
  private static final double HOT_GAS_STANDARD_UNCERTAINTY_K = 4;

  private static final double TYPICAL_HOT_K = 500;

  public static Plan of(Recipe recipe, RigDescription rig) {
    return new Plan(
        recipe,
        rig,
        Program.of(recipe.steps(), rig.unattended().rampMaxKPerS()),
        InterlockTable.of(rig),
        gasGain(rig),
        topSoakK(recipe.steps()),
        rig.sensor(Channel.VESSEL_PRESSURE).map(SensorDescription::noise).orElse(0.0),
        new Regulator(rig.regulation(), rig.heater()),
        rig.regulation()
            .model()
            .map(model -> new ModelRegulator(rig.regulation(), model.model(), rig.heater()))
            .orElse(null));
  }

  /** The limits in force in a state: attended while its step asks for a person. */
  public Limits limitsInForce(ControlState state) {
    return new TickWork(this, state).limits();
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

  private static double gasGain(RigDescription rig) {
    double total = rig.vessel().volume().hotM3() + rig.vessel().volume().coldM3();
    double volume =
        StrictMath.hypot(
                rig.vessel().hotStandardUncertaintyM3(), rig.vessel().coldStandardUncertaintyM3())
            / total;
    double gauge =
        rig.sensor(Channel.VESSEL_PRESSURE)
            .map(SensorDescription::gainStandardUncertainty)
            .orElse(0.0);
    double temperature = HOT_GAS_STANDARD_UNCERTAINTY_K / TYPICAL_HOT_K;
    return StrictMath.sqrt(volume * volume + gauge * gauge + temperature * temperature);
  }
}
