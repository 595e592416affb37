package tarnish.controller.control;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import tarnish.shared.recipe.Step;

/**
 * What a wanted change of the steps would do. Asked before it is confirmed and again when it is
 * taken, so that both say the same.
 *
 * @param refusal why it may not be, or empty
 * @param program the steps so changed; as they were where refused
 * @param differences each number that changes
 */
public record StepChange(String refusal, Program program, List<Difference> differences) {

  /**
   * One number before and after.
   *
   * @param position place of the step
   * @param what the word of a recipe file
   */
  public record Difference(int position, String title, String what, String was, String becomes) {
    String words() {
      return title + ", " + what + " " + was + " → " + becomes;
    }
  }

  String words() {
    return differences.stream().map(Difference::words).collect(Collectors.joining("; "));
  }

  /** What {@code request}, a change or a skipped soak, would do now. */
  public static StepChange of(Request request, Plan plan, ControlState state) {
    if (request instanceof Request.SkipSoak skip) {
      return skip(skip, state);
    }
    if (request instanceof Request.ChangeStep change) {
      return change(change, plan, state);
    }
    throw new IllegalArgumentException("not a change of a step: " + request);
  }

  /** The state as it would be at once; the state itself where the change is refused. */
  public static ControlState apply(Request request, Plan plan, ControlState state) {
    TickWork work = new TickWork(plan, state);
    ChangeDesk.take(request, work);
    return work.state();
  }

  private static StepChange refused(String why, ControlState state) {
    return new StepChange(why, state.program(), List.of());
  }

  private static StepChange skip(Request.SkipSoak skip, ControlState state) {
    if (!(state.run() instanceof SoakRun soaking) || state.stepPosition() != skip.position()) {
      return refused("That soak is not the step under way.", state);
    }
    if (state.phase() != BatchState.RUNNING && state.phase() != BatchState.PAUSED) {
      return refused("The batch is " + state.phase().words() + ".", state);
    }
    if (!state.presence().attended()) {
      return refused(PresenceDesk.CHECK_IN_FIRST, state);
    }
    if (skip.reason().isBlank()) {
      return refused("A skipped soak needs a reason for the record.", state);
    }
    Step.Soak soak = soaking.step();
    String earned = Words.duration(StrictMath.rint(soaking.inBandS()));
    Step.Soak shortened =
        new Step.Soak(
            soak.common(), soak.atK(), StrictMath.max(1, soaking.inBandS()), soak.bandK());
    return new StepChange(
        "",
        state.program().with(skip.position(), shortened),
        List.of(
            new Difference(
                skip.position(),
                soak.common().title(),
                "for",
                Words.duration(soak.durationS()),
                "skipped after " + earned)));
  }

  private static StepChange change(Request.ChangeStep change, Plan plan, ControlState state) {
    int at = change.position();
    Program program = state.program();
    if (state.phase() == BatchState.IDLE || state.phase().isFinal()) {
      return refused("No batch is running.", state);
    }
    if (at < 0 || at >= program.size() || !(program.at(at) instanceof Instruction.Do doing)) {
      return refused("There is no such step.", state);
    }
    if (change.reason().isBlank()) {
      return refused("A change needs a reason for the record.", state);
    }
    String begun = refusalIfBegun(change, state);
    if (!begun.isEmpty()) {
      return refused(begun, state);
    }
    StepValues values = StepValues.of(doing.step());
    List<Difference> differences = new ArrayList<>();
    for (String word : change.values().keySet().stream().sorted().toList()) {
      if (!values.knows(word)) {
        return refused(
            "Of this step only " + String.join(", ", values.words()) + " may change.", state);
      }
      double wanted = change.values().get(word);
      if (!(wanted > 0) || !Double.isFinite(wanted)) {
        return refused("'" + word + "' must be a number above 0.", state);
      }
      String was = values.printed(word);
      values.set(word, wanted);
      String becomes = values.printed(word);
      if (!was.equals(becomes)) {
        differences.add(new Difference(at, doing.step().common().title(), word, was, becomes));
      }
    }
    if (differences.isEmpty()) {
      return refused("Nothing would change.", state);
    }
    Step changed = values.step();
    String beyond = ChangeLimits.refusal(changed, plan.rig());
    return beyond.isEmpty()
        ? new StepChange("", program.with(at, changed), List.copyOf(differences))
        : refused(beyond, state);
  }

  /** Only what has not begun may change; of the soak under way only its time, and only upwards. */
  private static String refusalIfBegun(Request.ChangeStep change, ControlState state) {
    int now = state.stepPosition();
    boolean toCome = change.position() > now || (change.position() == now && state.run() == null);
    if (toCome) {
      return "";
    }
    if (change.position() == now && state.run() instanceof SoakRun soaking) {
      Double durationS = change.values().get("for");
      boolean onlyTime = change.values().size() == 1 && durationS != null;
      return onlyTime && durationS > soaking.step().durationS()
          ? ""
          : "The soak under way can only be made longer, or be skipped.";
    }
    return "Step " + (change.position() + 1) + " has begun; only steps to come may change.";
  }
}
