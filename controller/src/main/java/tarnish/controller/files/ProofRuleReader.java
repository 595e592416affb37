package tarnish.controller.files;

import java.util.List;
import tarnish.shared.quantity.Unit;

/** Reads how often the interlocks of a rig are proved, and what an overdue test costs. */
final class ProofRuleReader {
  private static final int DAY_S = 86_400;
  private static final Bound EVERY = Bound.of(Unit.SECOND, DAY_S, 3660.0 * DAY_S);

  private ProofRuleReader() {}

  static ProofRule read(Node node, Faults faults) {
    Fields fields = new Fields(node, "proof tests", faults, List.of("every", "when overdue"));
    double everyS =
        fields.has("every")
            ? fields.quantity("every", EVERY, "90 d")
            : ProofRule.USUAL.everyDays() * DAY_S;
    ProofRule.WhenOverdue overdue =
        fields.has("when overdue")
            ? fields.word(
                "when overdue", ProofRule.WhenOverdue.values(), ProofRule.WhenOverdue::words)
            : ProofRule.USUAL.whenOverdue();
    return new ProofRule((int) StrictMath.max(1, everyS / DAY_S), overdue);
  }
}
