package tarnish.controller.files;

import java.util.ArrayList;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Set;
import tarnish.shared.recipe.Step;
import tarnish.shared.recipe.StepCommon.Presence;

/**
 * Settles who must be there. Opening and asking need a person; so does the first dose after the
 * start or an opening, because fresh surface may react hard. Everything else goes unattended unless
 * the recipe says otherwise.
 */
final class PresenceRules {
  private final Faults faults;
  private final Set<StepDraft> firstDoses = Collections.newSetFromMap(new IdentityHashMap<>());
  private boolean opened = true;

  private PresenceRules(Faults faults) {
    this.faults = faults;
  }

  static List<StepDraft> settle(List<StepDraft> drafts, Faults faults) {
    PresenceRules rules = new PresenceRules(faults);
    rules.findFirstDoses(drafts);
    return rules.settle(drafts);
  }

  private void findFirstDoses(List<StepDraft> drafts) {
    for (StepDraft draft : drafts) {
      Step step = draft.step();
      if (step instanceof Step.Open) {
        opened = true;
      } else if (step instanceof Step.Dose) {
        if (opened) {
          firstDoses.add(draft);
        }
        opened = false;
      } else if (step instanceof Step.Repeat repeat) {
        findFirstDoses(draft.inner());
        if (repeat.timesMax() > 1) {
          // A second pass begins as the first one ended: perhaps with an opened vessel.
          findFirstDoses(draft.inner());
        }
      }
    }
  }

  private List<StepDraft> settle(List<StepDraft> drafts) {
    List<StepDraft> settled = new ArrayList<>();
    for (StepDraft draft : drafts) {
      String reason = reasonForPerson(draft);
      Presence presence = draft.who().orElse(Presence.UNATTENDED);
      if (!reason.isEmpty()) {
        if (draft.who().isPresent() && presence == Presence.UNATTENDED) {
          draft.fields().fault("who", "'unattended' for " + reason, "attended: it needs a person");
        }
        presence = Presence.ATTENDED;
      }
      settled.add(draft.with(presence, settle(draft.inner())));
    }
    return settled;
  }

  private String reasonForPerson(StepDraft draft) {
    Step step = draft.step();
    if (step instanceof Step.Open) {
      return "an opening";
    }
    if (step instanceof Step.Ask) {
      return "a question to a person";
    }
    return firstDoses.contains(draft) ? "the first dose after the start or an opening" : "";
  }
}
