package tarnish.controller.control;

/** Whether a batch needs a person at the bench now; for those outside. */
public final class PersonNeed {
  private PersonNeed() {}

  /** True while a question is open, or a step runs or waits that only runs with a person. */
  public static boolean isNeeded(Plan plan, ControlState state) {
    if (state.phase() != BatchState.RUNNING) {
      return false;
    }
    if (state.run() instanceof OpenRun) {
      return true;
    }
    int at = state.cursor().position();
    boolean attended =
        at < state.program().size()
            && state.program().at(at) instanceof Instruction.Do doing
            && Presences.needsPerson(doing.step());
    return attended || state.question() != null || waits(plan, state);
  }

  /** True while the batch cannot go on before somebody checks in. */
  public static boolean waits(Plan plan, ControlState state) {
    if (state.alarms().allNormal() || state.presence().attended()) {
      return false;
    }
    int row = AlarmBoard.indexOf(InterlockTable.PERSON_NEEDED, plan.interlocks());
    return row >= 0 && state.alarms().state(row) != AlarmState.NORMAL;
  }
}
