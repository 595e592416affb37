package tarnish.controller.app;

import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import tarnish.controller.control.Control;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Event;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Turn;
import tarnish.controller.control.Words;
import tarnish.controller.files.AttendedOnly;
import tarnish.controller.files.RecipeReader;
import tarnish.controller.journal.Journal;
import tarnish.controller.journal.Journal.BatchHead;
import tarnish.controller.journal.Journal.EventLine;
import tarnish.controller.journal.Journal.RecordedTick;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.RigDescription;

/** Runs control again on a recorded batch and looks for the first difference. */
final class Replay implements Consumer<RecordedTick> {
  private final Plan plan;
  private ControlState state;
  private long ticks;
  private String firstDifference = "";

  private final SetpointTrace trace = new SetpointTrace();

  private Replay(Plan plan) {
    this.plan = plan;
    state = ControlState.initial(plan);
  }

  /** Outcome of a replay; {@code firstDifference} is empty where there is none. */
  record Outcome(long ticks, String firstDifference) {}

  static Outcome of(Journal journal, int batch) {
    Replay replay = run(journal, batch);
    return new Outcome(replay.ticks, replay.firstDifference);
  }

  /** The setpoint that a recorded batch followed. */
  static SetpointTrace setpoints(Journal journal, int batch) {
    return run(journal, batch).trace;
  }

  private static Replay run(Journal journal, int batch) {
    BatchHead head = journal.head(batch);
    RigDescription rig = LoadedFiles.rig("rig of batch " + batch, head.rigText());
    Recipe recipe =
        LoadedFiles.value(
            RecipeReader.read("recipe of batch " + batch, head.recipeText(), Optional.of(rig)));
    Plan plan = Plan.of(AttendedOnly.asNoted(recipe, head.note()), rig);
    Replay replay = new Replay(plan);
    journal.playBack(batch, replay);
    return replay;
  }

  @Override
  public void accept(RecordedTick recorded) {
    if (!firstDifference.isEmpty()) {
      return;
    }
    Turn turn =
        Control.tick(plan, state, recorded.readings(), recorded.requests(), recorded.millis());
    state = turn.state();
    trace.follow(state);
    ticks++;
    if (!turn.outputs().equals(recorded.outputs())) {
      differ(recorded, "outputs " + recorded.outputs(), turn.outputs().toString());
    } else if (!sameEvents(turn.events(), recorded.events())) {
      differ(recorded, "events " + recorded.events(), turn.events().toString());
    }
  }

  private void differ(RecordedTick recorded, String was, String is) {
    firstDifference =
        "at "
            + Words.duration(recorded.millis() / 1000.0)
            + " ("
            + recorded.millis()
            + " ms): recorded "
            + was
            + ", now "
            + is;
  }

  private static boolean sameEvents(List<Event> now, List<EventLine> recorded) {
    if (now.size() != recorded.size()) {
      return false;
    }
    for (int i = 0; i < now.size(); i++) {
      if (!now.get(i).kind().equals(recorded.get(i).kind())
          || !now.get(i).sentence().equals(recorded.get(i).sentence())) {
        return false;
      }
    }
    return true;
  }
}
