package tarnish.controller.control;

import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;
import tarnish.shared.recipe.Step;
import tarnish.shared.recipe.StepCommon.Presence;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.vessel.PressureRating;

/**
 * Holds a changed step against the rig and the vessel, as the reader of recipes holds every step:
 * the limits of the presence that the recipe gave the step, attended or not.
 */
final class ChangeLimits {
  /** The oven only cools to the room, which may be warm: 15 °C is as low as is worth asking. */
  private static final double COOLEST_K = 288.15;

  /** 100 days: longer than any soak, and far from where sums lose their seconds. */
  private static final double LONGEST_S = 100 * 86_400.0;

  private final RigDescription rig;
  private final Limits limits;
  private final String presence;

  private ChangeLimits(Step step, RigDescription rig) {
    this.rig = rig;
    boolean attended = step.common().presence() == Presence.ATTENDED;
    limits = attended ? rig.attended() : rig.unattended();
    presence = step.common().presence().words();
  }

  /** Why the step may not be, or empty. */
  static String refusal(Step step, RigDescription rig) {
    ChangeLimits check = new ChangeLimits(step, rig);
    String why = "";
    double hottestK = 0;
    if (step instanceof Step.Ramp ramp) {
      hottestK = ramp.toK();
      why = first(check.temperature(ramp.toK()), check.rate(ramp.rateKPerS()));
    } else if (step instanceof Step.Soak soak) {
      hottestK = soak.atK();
      why = first(check.temperature(soak.atK()), check.duration(soak.durationS()));
    } else if (step instanceof Step.Cool cool) {
      hottestK = cool.toK();
      why =
          first(
              check.temperature(cool.toK()),
              cool.rateKPerS().isPresent() ? check.rate(cool.rateKPerS().getAsDouble()) : "");
    } else if (step instanceof Step.Dose dose) {
      why = check.dose(dose);
    }
    return why.isEmpty() ? check.hold(step, hottestK) : why;
  }

  private static String first(String why, String other) {
    return why.isEmpty() ? other : why;
  }

  private String temperature(double temperatureK) {
    double mostK =
        StrictMath.min(limits.sampleMaxK(), PressureRating.highestK(rig.vessel().glass()));
    return temperatureK >= COOLEST_K && temperatureK <= mostK
        ? ""
        : "The temperature must be from 15 °C to "
            + Quantities.printShort(mostK, Unit.CELSIUS)
            + ", the "
            + presence
            + " limit of the rig and its vessel.";
  }

  private String rate(double rateKPerS) {
    return rateKPerS > 0 && rateKPerS <= limits.rampMaxKPerS()
        ? ""
        : "The rate must be above 0 and at most "
            + Quantities.printShort(limits.rampMaxKPerS(), Unit.KELVIN_PER_MINUTE)
            + ", the "
            + presence
            + " limit of the rig.";
  }

  private String duration(double durationS) {
    return durationS >= 1 && durationS <= LONGEST_S
        ? ""
        : "A soak must be from 1 s to 100 days long; one that runs may be skipped.";
  }

  private String dose(Step.Dose dose) {
    if (!(dose.pulsePa() > 0 && dose.pulsePa() <= limits.pulseMaxPa())) {
      return "A pulse must be above 0 and at most " + mbar(limits.pulseMaxPa()) + ".";
    }
    boolean below = dose.pulsePa() < dose.toPa();
    return below ? pressure(dose.toPa(), dose.toPa() + dose.pulsePa()) : "A pulse must be less.";
  }

  private String hold(Step step, double hottestK) {
    if (step.common().holdPressurePa().isEmpty()) {
      return "";
    }
    double holdPa = step.common().holdPressurePa().getAsDouble();
    if (!(holdPa > 0)) {
      return "A pressure must be above 0.";
    }
    double ratedPa = rig.roomPressurePa() + PressureRating.allowedGaugePa(rig.vessel(), hottestK);
    return holdPa <= ratedPa
        ? pressure(holdPa, holdPa)
        : "The vessel bears at most "
            + mbar(StrictMath.floor(ratedPa / 100) * 100)
            + " at that temperature.";
  }

  private String pressure(double askedPa, double reachedPa) {
    if (!(reachedPa <= limits.pressureMaxPa())) {
      return "The pressure must stay at or below "
          + mbar(limits.pressureMaxPa())
          + ", the "
          + presence
          + " limit of the rig, the last pulse included.";
    }
    return askedPa < rig.oxygen().supplyPressurePa()
        ? ""
        : "The oxygen source gives only " + mbar(rig.oxygen().supplyPressurePa()) + ".";
  }

  private static String mbar(double pa) {
    return Quantities.printShort(pa, Unit.MILLIBAR);
  }
}
