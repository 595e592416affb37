package tarnish.shared.planning;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.Step;
import tarnish.shared.recipe.StepCommon.Presence;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.RigDescription;

/**
 * Walks through a recipe with a solid that takes up nothing: then the pressure is highest. Keeps
 * the time of each step, what the vessel sees, and the doses and purges on the way.
 *
 * <p>Times that the recipe leaves open are rough figures of a small bench: common practice.
 */
final class StepWalk {
  private static final double SAME_PA = 1;
  private static final double PUMP_DOWN_S = 120;
  private static final double FILL_CYCLE_S = 60;
  private static final double PULSE_S = 3;
  private static final double COOLING_TIME_CONSTANT_S = 2400;

  /** A dose as it begins; {@code pulsesByPressure} reach its end pressure without any uptake. */
  record Dose(Step.Dose step, double temperatureK, double pulsesByPressure, Limits limits) {}

  /** A purge with inert gas. */
  record Purge(String title, double evacuateToPa, double toPa, int cycles, int dosesBefore) {}

  /** A pressure at a temperature of the hot zone, and the limits that then hold. */
  record Stress(double pressurePa, double temperatureK, Limits limits) {}

  /**
   * The time of a step; {@code atLeast} where uptake or a person decides how long it is, {@code
   * rough} where a rough figure stands for what the recipe leaves open.
   */
  record Time(String title, double seconds, boolean atLeast, Optional<String> rough, int passes) {}

  final List<Dose> doses = new ArrayList<>();
  final List<Purge> purges = new ArrayList<>();
  final List<Stress> stresses = new ArrayList<>();
  final List<Time> times = new ArrayList<>();
  boolean evacuates;
  boolean cleanBeforeOxygen;

  private final RigDescription rig;
  private final TwoZoneVolume volume;
  private double temperatureK = Sheet.ROOM_K;
  private double gasMol;
  private boolean atLeast;
  private boolean again;

  StepWalk(Recipe recipe, RigDescription rig) {
    this.rig = rig;
    this.volume = rig.vessel().volume();
    setPressure(rig.roomPressurePa());
    for (Step step : recipe.steps()) {
      atLeast = false;
      double seconds = seconds(step);
      int passes = step instanceof Step.Repeat repeat ? repeat.timesMax() : 1;
      times.add(new Time(step.common().title(), seconds, atLeast, rough(step), passes));
    }
  }

  /** The stress with the highest pressure, the hottest among those that are all but the same. */
  Stress highest() {
    Stress highest = stresses.get(0);
    for (Stress stress : stresses) {
      double higherPa = stress.pressurePa - highest.pressurePa;
      boolean same = StrictMath.abs(higherPa) <= SAME_PA;
      if (same ? stress.temperatureK > highest.temperatureK : higherPa > 0) {
        highest = stress;
      }
    }
    return highest;
  }

  private static Optional<String> rough(Step step) {
    if (step instanceof Step.Evacuate || step instanceof Step.Backfill) {
      return Optional.of("rough figure for a small pump, common practice");
    }
    return step instanceof Step.Cool
        ? Optional.of("rough figure for a small oven with its heater off, common practice")
        : Optional.empty();
  }

  private double pressurePa() {
    return volume.pressurePa(gasMol, temperatureK, Sheet.ROOM_K);
  }

  private void setPressure(double pressurePa) {
    gasMol = volume.amountMol(pressurePa, temperatureK, Sheet.ROOM_K);
  }

  private double seconds(Step step) {
    double seconds;
    if (step instanceof Step.Repeat repeat) {
      return repeat(repeat);
    } else if (step instanceof Step.Evacuate evacuate) {
      evacuates = true;
      cleanBeforeOxygen |= doses.isEmpty();
      setPressure(evacuate.toPa());
      seconds = PUMP_DOWN_S;
    } else if (step instanceof Step.LeakTest test) {
      seconds = test.settleS() + test.durationS();
    } else if (step instanceof Step.Backfill fill) {
      seconds = backfill(fill);
    } else if (step instanceof Step.Dose dose) {
      seconds = dose(dose);
    } else if (step instanceof Step.Ramp ramp) {
      seconds = StrictMath.abs(ramp.toK() - temperatureK) / ramp.rateKPerS();
      temperatureK = ramp.toK();
    } else if (step instanceof Step.Soak soak) {
      seconds = soak.durationS();
      temperatureK = soak.atK();
    } else if (step instanceof Step.Cool cool) {
      seconds = cool(cool.toK(), cool.rateKPerS());
    } else if (step instanceof Step.Open open) {
      seconds = open(open);
    } else {
      atLeast = true;
      seconds = 0;
    }
    step.common().holdPressurePa().ifPresent(this::hold);
    stresses.add(new Stress(pressurePa(), temperatureK, limits(step)));
    return seconds;
  }

  /** Two passes show every state; all of them take the time of the second or more. */
  private double repeat(Step.Repeat repeat) {
    double first = pass(repeat);
    boolean outer = again;
    again = true;
    double second = repeat.timesMax() > 1 ? pass(repeat) : 0;
    again = outer;
    return first + (repeat.timesMax() - 1) * second;
  }

  private double pass(Step.Repeat repeat) {
    double sum = 0;
    for (Step inner : repeat.steps()) {
      sum += seconds(inner);
    }
    return sum;
  }

  private double backfill(Step.Backfill fill) {
    if (fill.gas() == Step.Gas.INERT) {
      purge(fill.common().title(), fill.evacuateToPa(), fill.toPa(), fill.cycles());
      cleanBeforeOxygen |= doses.isEmpty();
    }
    evacuates = true;
    setPressure(fill.toPa());
    return fill.cycles() * FILL_CYCLE_S;
  }

  private void purge(String title, double fromPa, double toPa, int cycles) {
    if (!again) {
      purges.add(new Purge(title, fromPa, toPa, cycles, doses.size()));
    }
  }

  private double dose(Step.Dose dose) {
    double missingPa = StrictMath.max(0, dose.toPa() - pressurePa());
    double pulses = StrictMath.ceil(missingPa / dose.pulsePa() - 1e-9);
    if (!again) {
      doses.add(new Dose(dose, temperatureK, pulses, limits(dose)));
    }
    atLeast = true;
    double given = StrictMath.min(pulses, dose.pulsesMax());
    // The last pulse may start just below the end pressure.
    setPressure(pressurePa() + given * dose.pulsePa());
    return given * (dose.waitMinS() + PULSE_S);
  }

  private double open(Step.Open open) {
    double seconds = cool(open.belowK(), OptionalDouble.empty());
    atLeast = true;
    if (open.purgeCycles() > 0) {
      evacuates = true;
      purge(open.common().title(), open.evacuateToPa(), open.purgeToPa(), open.purgeCycles());
      setPressure(open.purgeToPa());
    } else {
      setPressure(rig.roomPressurePa());
    }
    return seconds + open.purgeCycles() * FILL_CYCLE_S;
  }

  private double cool(double toK, OptionalDouble rateKPerS) {
    if (!(temperatureK > toK)) {
      return 0;
    }
    // Heater off: T - T_room falls as exp(-t/τ).
    double awayK = StrictMath.max(1, toK - Sheet.ROOM_K);
    double free = COOLING_TIME_CONSTANT_S * StrictMath.log((temperatureK - Sheet.ROOM_K) / awayK);
    double guided = rateKPerS.isPresent() ? (temperatureK - toK) / rateKPerS.getAsDouble() : 0;
    temperatureK = toK;
    return StrictMath.max(0, StrictMath.max(free, guided));
  }

  private void hold(double pressurePa) {
    if (pressurePa() < pressurePa) {
      setPressure(pressurePa);
    }
  }

  private Limits limits(Step step) {
    return step.common().presence() == Presence.ATTENDED ? rig.attended() : rig.unattended();
  }
}
