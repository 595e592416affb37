package tarnish.controller.files;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import tarnish.shared.recipe.Step;
import tarnish.shared.recipe.StepCommon;
import tarnish.shared.recipe.StepCommon.Presence;

/**
 * A step as read, with the places of its values and what presence still has to be settled.
 *
 * @param fields its keys, for places and texts
 * @param who as written; empty if the recipe leaves it to the rules
 * @param common as it stands
 * @param inner the steps of a repeat
 * @param build makes the step from the common part and the inner steps
 */
record StepDraft(
    Fields fields,
    Optional<Presence> who,
    StepCommon common,
    List<StepDraft> inner,
    Builder build) {

  /** Makes the step once everything about it is known. */
  interface Builder {
    Step build(StepCommon common, List<Step> inner);
  }

  /** A step without inner steps. */
  static StepDraft of(
      Fields fields, Optional<Presence> who, StepCommon common, Function<StepCommon, Step> build) {
    return new StepDraft(fields, who, common, List.of(), (settled, none) -> build.apply(settled));
  }

  Step step() {
    return build.build(common, inner.stream().map(StepDraft::step).toList());
  }

  StepDraft with(Presence presence, List<StepDraft> settledInner) {
    StepCommon settled =
        new StepCommon(common.title(), common.holdPressurePa(), presence, common.timeLimitS());
    return new StepDraft(fields, who, settled, settledInner, build);
  }
}
