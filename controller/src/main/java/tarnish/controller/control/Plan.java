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
 * @param gasModel how pressure and temperatures tell the amount of gas
 * @param topSoakK highest soak temperature of the recipe, 0 where it has none
 * @param gaugeNoisePa standard deviation of one pressure reading
 * @param plausibility what can be believed of each sensor
 * @param regulator of the temperature without a model
 * @param modelRegulator of the temperature by the rig's model; null where it has none
 * @param equivalent what time at a temperature is worth; null where the recipe does not say
 * @param glance whether a row of {@code interlocks} may have to act
 */
public record Plan(
    Recipe recipe,
    RigDescription rig,
    Program program,
    List<InterlockRow> interlocks,
    GasModel gasModel,
    double topSoakK,
    double gaugeNoisePa,
    PlausibilityRules plausibility,
    Regulator regulator,
    ModelRegulator modelRegulator,
    EquivalentTime equivalent,
    TableGlance glance) {

  public static Plan of(Recipe recipe, RigDescription rig) {
    return of(recipe, rig, RegulatorTuning.USUAL);
  }

  /** The same with another tuning of the regulation by a model: only to try it out. */
  public static Plan of(Recipe recipe, RigDescription rig, RegulatorTuning tuning) {
    List<InterlockRow> interlocks = InterlockTable.of(rig);
    return new Plan(
        recipe,
        rig,
        Program.of(recipe.steps(), rig.unattended().rampMaxKPerS()),
        interlocks,
        GasModel.of(rig),
        topSoakK(recipe.steps()),
        rig.sensor(Channel.VESSEL_PRESSURE).map(SensorDescription::noise).orElse(0.0),
        PlausibilityRules.of(rig),
        new Regulator(rig.regulation(), rig.heater()),
        rig.regulation()
            .model()
            .map(model -> new ModelRegulator(rig.regulation(), model.model(), rig.heater(), tuning))
            .orElse(null),
        equivalent(recipe),
        TableGlance.at(interlocks, rig));
  }

  private static EquivalentTime equivalent(Recipe recipe) {
    double topK = topSoakK(recipe.steps());
    return topK > 0 && recipe.activationEnergyJPerMol().isPresent()
        ? new EquivalentTime(recipe.activationEnergyJPerMol().getAsDouble(), topK)
        : null;
  }

  /** The same without one row of the interlock table: only to show that a campaign misses it. */
  public Plan without(String interlock) {
    return with(
        interlocks.stream().filter(row -> !row.id().equals(interlock)).toList(), plausibility);
  }

  /** The same with another table and other rules of what to believe. */
  Plan with(List<InterlockRow> otherInterlocks, PlausibilityRules otherPlausibility) {
    return new Plan(
        recipe,
        rig,
        program,
        otherInterlocks,
        gasModel,
        topSoakK,
        gaugeNoisePa,
        otherPlausibility,
        regulator,
        modelRegulator,
        equivalent,
        TableGlance.at(otherInterlocks, rig));
  }

  /** The step at a place of the program; null where there is none to be done. */
  public Step stepAt(int position) {
    return position < program.size() && program.at(position) instanceof Instruction.Do doing
        ? doing.step()
        : null;
  }

  /** The limits in force in a state: attended while its step asks for a person. */
  public Limits limitsInForce(ControlState state) {
    return limits(state.presence());
  }

  /** Attended while a person is checked in, whatever the recipe says. */
  Limits limits(Presence presence) {
    return presence.attended() ? rig.attended() : rig.unattended();
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
