package tarnish.controller.files;

import static tarnish.shared.quantity.Quantities.printShort;

import java.util.List;
import tarnish.shared.quantity.Unit;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Step;
import tarnish.shared.recipe.StepCommon.Presence;
import tarnish.shared.rig.GasSource;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;
import tarnish.shared.vessel.PressureRating;

/** Holds each step by itself against what the rig can and may do while those people are there. */
final class StepLimits {
  private final RigDescription rig;

  StepLimits(RigDescription rig) {
    this.rig = rig;
  }

  void check(List<StepDraft> drafts) {
    for (StepDraft draft : drafts) {
      check(draft, draft.step());
      check(draft.inner());
    }
  }

  private void check(StepDraft draft, Step step) {
    if (step instanceof Step.Evacuate evacuate) {
      reachable(draft, "to", evacuate.toPa());
    } else if (step instanceof Step.LeakTest test) {
      checkLeakTest(draft, test);
    } else if (step instanceof Step.Backfill backfill) {
      checkBackfill(draft, backfill);
    } else if (step instanceof Step.Dose dose) {
      checkDose(draft, dose);
    } else if (step instanceof Step.Ramp ramp) {
      checkTemperature(draft, "to", ramp.toK());
      checkRate(draft, ramp.rateKPerS());
      checkHold(draft, ramp.toK());
    } else if (step instanceof Step.Soak soak) {
      checkTemperature(draft, "at", soak.atK());
      checkHold(draft, soak.atK());
    } else if (step instanceof Step.Cool cool) {
      cool.rateKPerS().ifPresent(rate -> checkRate(draft, rate));
      checkHold(draft, cool.toK());
    } else if (step instanceof Step.Open open) {
      checkPressure(draft, "purge to", open.purgeToPa(), open.purgeToPa());
      checkSupply(draft, "purge to", open.purgeToPa(), rig.inert());
      reachable(draft, "evacuate to", open.evacuateToPa());
    }
  }

  /** p = rise × half the watch must be at least one step of the gauge, or nothing is proved. */
  private void checkLeakTest(StepDraft draft, Step.LeakTest test) {
    double smallestPa =
        rig.sensor(Channel.VESSEL_PRESSURE).map(SensorDescription::resolution).orElse(0.0);
    if (test.riseMaxPaPerS() * test.durationS() / 2 < smallestPa) {
      draft
          .fields()
          .fault(
              "watch",
              draft.fields().written("watch"),
              "a longer watch: half of it must show a rise of "
                  + draft.fields().written("rise at most")
                  + " on a gauge with steps of "
                  + mbar(smallestPa));
    }
  }

  private void checkBackfill(StepDraft draft, Step.Backfill backfill) {
    checkPressure(draft, "to", backfill.toPa(), backfill.toPa());
    GasSource source = backfill.gas() == Step.Gas.OXYGEN ? rig.oxygen() : rig.inert();
    checkSupply(draft, "to", backfill.toPa(), source);
    reachable(draft, "evacuate to", backfill.evacuateToPa());
  }

  private void checkDose(StepDraft draft, Step.Dose dose) {
    double pulseMaxPa = limits(draft).pulseMaxPa();
    if (dose.pulsePa() > pulseMaxPa) {
      exceeds(draft, "pulse", mbar(pulseMaxPa), "for a pulse");
    }
    // The last pulse may start just below the goal.
    checkPressure(draft, "to", dose.toPa(), dose.toPa() + dose.pulsePa());
    checkSupply(draft, "to", dose.toPa(), rig.oxygen());
  }

  private void checkTemperature(StepDraft draft, String key, double temperatureK) {
    double limitK = limits(draft).sampleMaxK();
    double glassK = PressureRating.highestK(rig.vessel().glass());
    if (temperatureK > glassK) {
      draft
          .fields()
          .fault(
              key,
              draft.fields().written(key),
              "at most " + celsius(glassK) + ", which " + rig.vessel().glass().words() + " bears");
    } else if (temperatureK > limitK) {
      exceeds(draft, key, celsius(limitK), "for the sample");
    }
  }

  private void checkRate(StepDraft draft, double rateKPerS) {
    double limit = limits(draft).rampMaxKPerS();
    if (rateKPerS > limit) {
      exceeds(draft, "rate", printShort(limit, Unit.KELVIN_PER_MINUTE), "for a ramp");
    }
  }

  private void checkHold(StepDraft draft, double temperatureK) {
    if (draft.common().holdPressurePa().isEmpty()) {
      return;
    }
    double holdPa = draft.common().holdPressurePa().getAsDouble();
    checkPressure(draft, "hold", holdPa, holdPa);
    checkSupply(draft, "hold", holdPa, rig.oxygen());
    double ratedPa = ratedPa(rig, temperatureK);
    if (holdPa > ratedPa) {
      draft
          .fields()
          .fault(
              "hold",
              draft.fields().written("hold") + " with the vessel at " + celsius(temperatureK),
              "at most " + mbar(ratedPa) + ", which the vessel bears there");
    }
  }

  /** Absolute pressure that the vessel bears at a temperature, rounded down to whole mbar. */
  static double ratedPa(RigDescription rig, double temperatureK) {
    if (!(temperatureK > 0)) {
      // The temperature itself was refused already.
      return Double.POSITIVE_INFINITY;
    }
    double overpressurePa = PressureRating.allowedGaugePa(rig.vessel(), temperatureK);
    return StrictMath.floor((rig.roomPressurePa() + overpressurePa) / 100) * 100;
  }

  private void checkPressure(StepDraft draft, String key, double askedPa, double reachedPa) {
    double limitPa = limits(draft).pressureMaxPa();
    if (askedPa > limitPa) {
      exceeds(draft, key, mbar(limitPa), "for the vessel pressure");
    } else if (reachedPa > limitPa) {
      draft
          .fields()
          .fault(
              key,
              draft.fields().written(key)
                  + ", which the last pulse may carry to "
                  + mbar(reachedPa),
              "at most "
                  + mbar(limitPa)
                  + " with it, the rig's "
                  + presence(draft)
                  + " limit for the vessel pressure");
    }
  }

  private void checkSupply(StepDraft draft, String key, double pressurePa, GasSource source) {
    if (pressurePa >= source.supplyPressurePa()) {
      draft
          .fields()
          .fault(
              key,
              draft.fields().written(key),
              "less than "
                  + mbar(source.supplyPressurePa())
                  + ", the supply pressure of '"
                  + source.name()
                  + "'");
    }
  }

  private void reachable(StepDraft draft, String key, double pressurePa) {
    if (pressurePa <= rig.pumpUltimatePa()) {
      draft
          .fields()
          .fault(
              key,
              draft.fields().written(key),
              "more than "
                  + mbar(rig.pumpUltimatePa())
                  + ", the pump's ultimate pressure: it would never be reached");
    }
  }

  private void exceeds(StepDraft draft, String key, String limit, String whatFor) {
    draft
        .fields()
        .fault(
            key,
            draft.fields().written(key),
            "at most " + limit + ", the rig's " + presence(draft) + " limit " + whatFor);
  }

  private Limits limits(StepDraft draft) {
    return draft.common().presence() == Presence.ATTENDED ? rig.attended() : rig.unattended();
  }

  private static String presence(StepDraft draft) {
    return draft.common().presence().words();
  }

  private static String mbar(double pa) {
    return printShort(pa, Unit.MILLIBAR);
  }

  private static String celsius(double k) {
    return printShort(k, Unit.CELSIUS);
  }
}
