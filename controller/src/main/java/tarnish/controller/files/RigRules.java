package tarnish.controller.files;

import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;
import tarnish.shared.rig.RigDescription;

/** What the parts of a rig must be to each other. */
final class RigRules {
  private RigRules() {}

  static void check(RigDescription rig, Fields top) {
    if (rig.oxygen().oxygenFraction() <= rig.inert().oxygenFraction()
        && rig.oxygen().oxygenFraction() > 0) {
      top.fault(
          "oxygen",
          "an oxygen source with no more oxygen than the inert gas",
          "more oxygen in 'oxygen' than in 'inert'");
    }
    if (rig.oxygen().name().equals(rig.inert().name()) && !rig.oxygen().name().isEmpty()) {
      top.fault("inert", "the name '" + rig.inert().name() + "' for both gases", "two names");
    }
    if (rig.pumpUltimatePa() >= rig.roomPressurePa()) {
      top.fault(
          "pump",
          "an ultimate pressure of " + Quantities.printShort(rig.pumpUltimatePa(), Unit.MILLIBAR),
          "less than the room pressure");
    }
    if (rig.inert().supplyPressurePa() <= rig.roomPressurePa()) {
      top.fault(
          "inert",
          "an inert supply of "
              + Quantities.printShort(rig.inert().supplyPressurePa(), Unit.MILLIBAR),
          "more than the room pressure, or the vessel could not be opened under inert gas");
    }
  }
}
