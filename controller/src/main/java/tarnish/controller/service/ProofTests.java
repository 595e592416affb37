package tarnish.controller.service;

import java.util.List;
import java.util.Optional;

/** The proof tests of a rig's interlocks, as a page may see and note them. */
public interface ProofTests {
  /**
   * One row of the interlock table.
   *
   * @param row its name
   * @param last date of its last test; empty where there was none
   * @param result of that: acted, did not act, or never tested
   * @param how it was done, and by whom
   * @param due date of the next one; empty where it is due now
   * @param overdue whether it is not proved today
   * @param instruction what a person does at the bench to provoke it, safely
   * @param simulated whether the simulator can provoke it here and now
   */
  record Line(
      String row,
      String last,
      String result,
      String how,
      String due,
      boolean overdue,
      String instruction,
      boolean simulated) {}

  /** Every row in the order of the table. */
  List<Line> lines();

  /** What overdue tests cost on this rig, in a sentence. */
  String rule();

  /** Notes what a person found; empty if it was taken, else why not. */
  Optional<String> note(String row, boolean acted, String by, String remark);

  /** Provokes a row on a simulated bench and notes the result; empty if done, else why not. */
  Optional<String> simulate(String row, String by);
}
