package tarnish.controller.files;

import static tarnish.shared.quantity.Quantities.printShort;

import java.util.List;
import java.util.Optional;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;
import tarnish.shared.recipe.Step;
import tarnish.shared.recipe.StepCommon.Presence;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.RigDescription;

/**
 * Goes through a recipe in order, as if no oxygen were taken up, and refuses what cannot work after
 * the steps before it. NaN stands for what is not known.
 */
final class StepWalk {
  private static final double ROOM_K = 293.15;
  private static final double SAME_K = 1e-6;

  /** The setpoint while the oven is off. */
  private static final double OFF_K = 0;

  private final Optional<RigDescription> rig;
  private double setpointK = OFF_K;
  private double vesselK = ROOM_K;
  private double pressurePa = Double.NaN;

  private StepWalk(Optional<RigDescription> rig) {
    this.rig = rig;
  }

  static void check(List<StepDraft> drafts, Optional<RigDescription> rig) {
    new StepWalk(rig).walk(drafts);
  }

  private void walk(List<StepDraft> drafts) {
    for (StepDraft draft : drafts) {
      Step step = draft.step();
      if (step instanceof Step.Repeat repeat) {
        walk(draft.inner());
        if (repeat.timesMax() > 1) {
          walk(draft.inner());
        }
      } else {
        take(draft, step);
      }
    }
  }

  private void take(StepDraft draft, Step step) {
    if (step instanceof Step.Evacuate evacuate) {
      pressurePa = evacuate.toPa();
    } else if (step instanceof Step.Backfill backfill) {
      pressurePa = backfill.toPa();
    } else if (step instanceof Step.Dose dose) {
      dose(draft, dose);
    } else if (step instanceof Step.Ramp ramp) {
      moveTo(draft, ramp.toK());
      setpointK = ramp.toK();
    } else if (step instanceof Step.Soak soak) {
      soak(draft, soak);
    } else if (step instanceof Step.Cool cool) {
      moveTo(draft, cool.toK());
      setpointK = OFF_K;
    } else if (step instanceof Step.Open open) {
      pressurePa = open.purgeToPa();
      vesselK = open.belowK();
      setpointK = OFF_K;
    } else if (step instanceof Step.Ask) {
      setpointK = OFF_K;
    }
    draft.common().holdPressurePa().ifPresent(this::toppedUp);
  }

  /** All pulses together must at least fill the vessel, even if the solid takes up nothing. */
  private void dose(StepDraft draft, Step.Dose dose) {
    double missingPa = dose.toPa() - pressurePa;
    if (dose.pulsesMax() > 0 && dose.pulsesMax() * dose.pulsePa() < missingPa) {
      long needed = (long) StrictMath.ceil(missingPa / dose.pulsePa());
      draft
          .fields()
          .fault(
              "at most",
              draft.fields().written("at most"),
              "at least "
                  + needed
                  + " pulses, which it takes from "
                  + mbar(pressurePa)
                  + " to "
                  + mbar(dose.toPa())
                  + " even without uptake");
    }
    pressurePa = dose.toPa() + dose.pulsePa();
  }

  private void soak(StepDraft draft, Step.Soak soak) {
    if (StrictMath.abs(soak.atK() - setpointK) > SAME_K) {
      String before =
          setpointK == OFF_K
              ? "with the oven off before it"
              : "after a ramp to " + printShort(setpointK, Unit.CELSIUS);
      draft
          .fields()
          .fault(
              "at",
              "a soak at " + draft.fields().written("at") + " " + before,
              "a ramp to that temperature before it");
    }
  }

  /** p₂ = p₁ Σ(V/T₁) / Σ(V/T₂): heating the closed vessel raises the pressure by itself. */
  private void moveTo(StepDraft draft, double toK) {
    if (rig.isEmpty()) {
      return;
    }
    RigDescription bench = rig.get();
    double before = bench.vessel().volume().volumeOverTemperature(vesselK, ROOM_K);
    double after = bench.vessel().volume().volumeOverTemperature(toK, ROOM_K);
    pressurePa *= before / after;
    vesselK = toK;
    boolean attended = draft.common().presence() == Presence.ATTENDED;
    Limits limits = attended ? bench.attended() : bench.unattended();
    double mostPa = StrictMath.min(limits.pressureMaxPa(), StepLimits.ratedPa(bench, toK));
    if (pressurePa > mostPa && toK <= limits.sampleMaxK()) {
      draft
          .fields()
          .fault(
              "to",
              draft.fields().written("to")
                  + ", which heats the gas in the closed vessel to "
                  + wholeMbar(pressurePa)
                  + " without uptake",
              "at most "
                  + mbar(mostPa)
                  + " ("
                  + draft.common().presence().words()
                  + "): fill it less while it is cold");
      pressurePa = Double.NaN; // Told once is enough.
    }
  }

  private void toppedUp(double holdPa) {
    if (!(pressurePa >= holdPa)) {
      pressurePa = holdPa;
    }
  }

  private static String wholeMbar(double pa) {
    return Quantities.print(pa, Unit.MILLIBAR, 0);
  }

  private static String mbar(double pa) {
    return printShort(pa, Unit.MILLIBAR);
  }
}
