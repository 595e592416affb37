package tarnish.controller.record;

import java.util.List;
import tarnish.controller.journal.Journal.Act;

/** The part of the page that tells who did or tried what at the page, and from where. */
final class ActsPart {
  private ActsPart() {}

  static void write(List<Act> acts, Paper paper) {
    if (acts.isEmpty()) {
      return;
    }
    paper.paragraph("Everything done or tried at the page during the batch, by its clock.");
    paper.table(
        Paper.Setting.LINES,
        List.of("When", "Who", "From", "What", "Outcome"),
        acts.stream()
            .map(
                act ->
                    List.of(
                        Clock.minute(act.wallTime()),
                        act.by().isEmpty() ? "nobody signed in" : act.by(),
                        act.whence(),
                        act.what(),
                        act.outcome()))
            .toList());
  }
}
