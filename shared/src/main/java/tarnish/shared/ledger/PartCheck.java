package tarnish.shared.ledger;

import tarnish.shared.estimate.Estimate;

/** Refuses a part of the solid with less than no mass. */
final class PartCheck {
  private PartCheck() {}

  static void check(String what, Estimate massKg) {
    if (!(massKg.value() >= 0)) {
      throw new IllegalArgumentException(
          what + " must be at least 0 kg, got " + massKg.value() + " kg");
    }
  }
}
