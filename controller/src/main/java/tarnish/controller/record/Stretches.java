package tarnish.controller.record;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.OpenQuestion;
import tarnish.controller.record.BatchStory.Interruption;
import tarnish.controller.record.BatchStory.Stretch;

/** Follows when a batch is paused, held, or its vessel may be open. */
final class Stretches {
  private final List<Stretch> ended = new ArrayList<>();
  private final Map<Interruption, Long> begun = new EnumMap<>(Interruption.class);

  void tick(ControlState state) {
    follow(Interruption.PAUSED, state.phase() == BatchState.PAUSED, state.lastMillis());
    boolean held = state.phase() == BatchState.HOLDING || state.phase() == BatchState.HELD;
    follow(Interruption.HELD, held, state.lastMillis());
    boolean open =
        state.question() != null && state.question().purpose() == OpenQuestion.Purpose.CLOSED_AGAIN;
    follow(Interruption.OPEN, open, state.lastMillis());
  }

  private void follow(Interruption what, boolean lasts, long nowMillis) {
    if (lasts) {
      begun.putIfAbsent(what, nowMillis);
    } else if (begun.containsKey(what)) {
      ended.add(new Stretch(what, begun.remove(what), nowMillis));
    }
  }

  /** All of them, those that still last as ending now. */
  List<Stretch> upTo(long nowMillis) {
    List<Stretch> all = new ArrayList<>(ended);
    begun.forEach((what, from) -> all.add(new Stretch(what, from, nowMillis)));
    return List.copyOf(all);
  }
}
