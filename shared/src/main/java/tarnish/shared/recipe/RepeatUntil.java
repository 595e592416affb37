package tarnish.shared.recipe;

/** When a repeat ends before its count is used up. */
public sealed interface RepeatUntil {

  /** Only the count ends it. */
  record CountOnly() implements RepeatUntil {}

  /** Conversion to the target has reached {@code fraction}, 0 to 1. */
  record ConversionAtLeast(double fraction) implements RepeatUntil {}

  /** Uptake in the last pass stayed below {@code amountMol} of O₂. */
  record PassUptakeBelow(double amountMol) implements RepeatUntil {}

  /**
   * Nothing more happens: uptake of the last pass is below what the account could have detected,
   * and the last {@code weighings} agree within the balance's uncertainty.
   */
  record Finished(int weighings) implements RepeatUntil {}
}
