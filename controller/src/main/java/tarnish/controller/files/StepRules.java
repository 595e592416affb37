package tarnish.controller.files;

import java.util.List;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.recipe.Step;

/** What a step must be in itself, on any rig, to make sense and to end. */
final class StepRules {
  /** The oven only cools to the room, which may be warm: 15 °C is as low as is worth asking. */
  private static final double COOLEST_K = 288.15;

  private StepRules() {}

  static void check(List<StepDraft> drafts) {
    for (StepDraft draft : drafts) {
      check(draft.fields(), draft.step());
      check(draft.inner());
    }
  }

  private static void check(Fields fields, Step step) {
    refuseHold(fields, step);
    if (step instanceof Step.Backfill backfill) {
      below(fields, "evacuate to", backfill.evacuateToPa(), "to", backfill.toPa());
    } else if (step instanceof Step.Dose dose) {
      below(fields, "pulse", dose.pulsePa(), "to", dose.toPa());
    } else if (step instanceof Step.Ramp ramp) {
      reachable(fields, "to", ramp.toK());
    } else if (step instanceof Step.Cool cool) {
      reachable(fields, "to", cool.toK());
    } else if (step instanceof Step.Open open) {
      reachable(fields, "below", open.belowK());
      below(fields, "evacuate to", open.evacuateToPa(), "purge to", open.purgeToPa());
    }
    enoughTime(fields, step);
  }

  /** Only a heating, soaking or cooling vessel can be topped up: the others use the valves. */
  private static void refuseHold(Fields fields, Step step) {
    boolean toppedUp =
        step instanceof Step.Ramp || step instanceof Step.Soak || step instanceof Step.Cool;
    if (!toppedUp && fields.has("hold")) {
      fields.fault(
          "hold",
          "'hold' in a step of the kind " + step.kind(),
          "it only in ramp, soak or cool, which keep oxygen topped up");
    }
  }

  private static void reachable(Fields fields, String key, double temperatureK) {
    if (temperatureK < COOLEST_K) {
      fields.fault(
          key,
          fields.written(key),
          "at least 15 °C: the oven cools only to the room, so the step would never end");
    }
  }

  private static void below(Fields fields, String key, double pa, String limitKey, double limitPa) {
    if (pa >= limitPa) {
      fields.fault(
          key,
          fields.written(key),
          "less than " + fields.written(limitKey) + " of '" + limitKey + "'");
    }
  }

  /** A time limit shorter than the step itself would hold the batch every time. */
  private static void enoughTime(Fields fields, Step step) {
    double least = 0;
    if (step instanceof Step.Soak soak) {
      least = soak.durationS();
    } else if (step instanceof Step.LeakTest test) {
      least = test.settleS() + test.durationS();
    }
    if (step.common().timeLimitS().isPresent()
        && fields.has("time limit")
        && step.common().timeLimitS().getAsDouble() <= least) {
      fields.fault(
          "time limit",
          fields.written("time limit"),
          "more than the " + Quantities.printDuration(least) + " that the step takes");
    }
  }
}
