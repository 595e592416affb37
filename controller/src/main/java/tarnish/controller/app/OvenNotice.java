package tarnish.controller.app;

import java.time.LocalDate;
import java.util.Optional;
import tarnish.shared.oven.IdentifiedOven;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;
import tarnish.shared.rig.RigDescription;

/** What a person must be told about the rig's oven model. */
final class OvenNotice {
  private OvenNotice() {}

  /** Empty where the rig has no model, or a good one of these days. */
  static Optional<String> of(RigDescription rig, LocalDate today) {
    Optional<IdentifiedOven> oven = rig.regulation().model();
    if (oven.isEmpty()) {
      return Optional.empty();
    }
    if (!oven.get().isGood()) {
      return Optional.of(
          "The oven model fits badly ("
              + Quantities.print(oven.get().residualK(), Unit.KELVIN, 1)
              + "): regulation by it may be poor. Look for a draught or a loose sensor, then"
              + " identify the oven again.");
    }
    return oven.get().isOld(today)
        ? Optional.of(
            "The oven model is from "
                + oven.get().identified()
                + ", more than "
                + IdentifiedOven.OLD_AFTER_DAYS
                + " days ago: heater elements age, so identify the oven again.")
        : Optional.empty();
  }
}
