package tarnish.controller.app;

import java.util.Set;
import tarnish.controller.control.ControlState;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Switch;
import tarnish.sim.SimulatedRig;
import tarnish.sim.Truth;

/**
 * When the plant itself is in breach of what a row guards: not when a sensor shows it, and not when
 * the fault behind it began, if that did no harm yet.
 */
final class LatencyBreach {
  /** Two sensors of one oven that are this far apart are wrong, in K. */
  private static final double PAIR_K = 20;

  /** What a gauge cannot tell from an even pressure, in Pa. */
  private static final double EVEN_PA = 1000;

  /** Time limit of the step that is made to take too long, see {@link ProofRecipe}. */
  private static final double STEP_LIMIT_S = 120;

  private static final Set<String> HEATS_UNTOLD = Set.of("heater stuck on");

  private static final Set<String> FLOWS_UNTOLD = Set.of("gas comes in", "supply valve passes");

  private LatencyBreach() {}

  static boolean isThere(
      String row, RigDescription rig, SimulatedRig bench, ControlState state, Readings raw) {
    Outputs told = state.outputs();
    Truth truth = bench.truth();
    Limits limits = rig.unattended();
    boolean off = !told.isOn(Switch.HEATER) && told.heaterPerMille() == 0;
    if (HEATS_UNTOLD.contains(row)) {
      return off && bench.heaterW() > 0;
    }
    if (FLOWS_UNTOLD.contains(row)) {
      boolean flows = !told.isOn(Switch.OXYGEN) && bench.oxygenOpening() > 0;
      double room = raw.valueOr(Channel.ROOM_PRESSURE, rig.roomPressurePa());
      return flows && (row.equals("gas comes in") || truth.pressurePa() > room);
    }
    double roomPa = raw.valueOr(Channel.ROOM_PRESSURE, rig.roomPressurePa());
    return switch (row) {
      case "person needed" -> state.run() == null;
      case "glass over its rating" -> truth.pressurePa() > roomPa + EVEN_PA;
      case "step overdue" -> state.stepS() > STEP_LIMIT_S - rig.tickMillis() / 1000.0;
      case "heater dead" -> told.isOn(Switch.HEATER) && bench.heaterW() == 0;
      case "no pressure step" -> told.isOn(Switch.OXYGEN) && bench.oxygenOpening() == 0;
      case "pump fails" -> told.isOn(Switch.PUMP);
      case "no filling" -> told.isOn(Switch.INERT);
      case "vent blocked" -> told.isOn(Switch.VENT);
      case "sample too hot" -> truth.sampleK() > limits.sampleMaxK();
      case "oven too hot", "second oven sensor too hot" -> truth.wallK() > limits.ovenMaxK();
      case "seal too hot" -> truth.sealK() > limits.sealMaxK();
      case "pressure too high", "second gauge pressure too high" ->
          truth.pressurePa() > limits.pressureMaxPa();
      case "oven sensors disagree" ->
          Math.abs(raw.valueOr(Channel.OVEN_TEMPERATURE, 0) - truth.wallK()) > PAIR_K;
      case "operator overdue" -> state.presence().overdue();
      default -> true;
    };
  }
}
