package tarnish.controller.control;

import java.util.ArrayList;
import java.util.List;
import tarnish.shared.recipe.Step;

/** Takes changes of the steps: what {@link StepChange} allows is done and recorded. */
final class ChangeDesk {
  private ChangeDesk() {}

  /** Whether the request was one of these. */
  static boolean take(Request request, TickWork work) {
    if (request instanceof Request.ChangeStep change) {
      apply(change, change.position(), change.reason(), change.rehearsed(), work);
      return true;
    }
    if (request instanceof Request.SkipSoak skip) {
      apply(skip, skip.position(), skip.reason(), skip.rehearsed(), work);
      return true;
    }
    return false;
  }

  private static void apply(
      Request request, int position, String reason, String rehearsed, TickWork work) {
    StepChange change = StepChange.of(request, work.plan, work.state());
    if (!change.refusal().isEmpty()) {
      work.event(
          new Event.RequestRefused(
              request.by(), "change of step " + (position + 1), change.refusal()));
      return;
    }
    work.program = change.program();
    work.event(
        new Event.StepChanged(request.by(), position, change.words(), reason.strip(), rehearsed));
    if (request instanceof Request.SkipSoak) {
      endSoak(work);
    } else if (work.run instanceof SoakRun soaking && work.cursor.position() == position) {
      Step.Soak longer = (Step.Soak) work.doing().step();
      work.run = new SoakRun(longer, soaking.rateKPerS(), soaking.inBandS());
    }
  }

  private static void endSoak(TickWork work) {
    SoakRun soaked = (SoakRun) work.run;
    int position = work.cursor.position();
    Step.Soak step = soaked.step();
    List<SoakRecord> soaks = new ArrayList<>(work.soaks);
    soaks.add(new SoakRecord(position, step.atK(), step.durationS(), soaked.inBandS()));
    work.soaks = List.copyOf(soaks);
    work.event(
        new Event.StepEnded(
            position,
            step.common().title(),
            "skipped after " + Words.duration(soaked.inBandS()) + " at temperature"));
    work.pulse = work.pulse.shut();
    work.run = null;
    work.cursor = work.cursor.at(position + 1);
  }
}
