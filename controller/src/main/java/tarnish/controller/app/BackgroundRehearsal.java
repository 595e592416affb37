package tarnish.controller.app;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tarnish.controller.access.Background;
import tarnish.controller.control.ExpectedCourse;
import tarnish.controller.control.Request;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.RigDescription;

/** Rehearses a batch on a thread of its own as it starts, and tells control what to expect. */
final class BackgroundRehearsal {
  private static final Logger LOG = LoggerFactory.getLogger(BackgroundRehearsal.class);
  private static final String BY = "Tarnish";

  /** So many differently drawn benches are rehearsed on. */
  private static final int BENCHES = 3;

  /** Seeds of those benches: none of them is the bench that a demonstration runs on. */
  private static final long SEED = 1_000_003;

  /** Room beyond what they did: two drifting sensors, a gauge, and the account of the gas. */
  private static final double ROOM_K = 3;

  private static final double ROOM_PA = 1500;
  private static final double ROOM_SHARE_OF_UPTAKE = 0.04;

  private BackgroundRehearsal() {}

  /** What is expected of a recipe on a rig. */
  static ExpectedCourse expected(Recipe recipe, RigDescription rig, long seed) {
    LoadedFiles files = new LoadedFiles(recipe, "", rig, "");
    List<ExpectedTrace> traces = new ArrayList<>();
    for (int i = 0; i < BENCHES; i++) {
      ExpectedTrace trace = new ExpectedTrace();
      new Rehearsal(files, seed + i, Optional.empty()).watchedBy(trace::look).run();
      traces.add(trace);
    }
    double[] room = {ROOM_K, ROOM_PA, ROOM_SHARE_OF_UPTAKE * recipe.oxygenNeededMol()};
    return ExpectedTrace.band(traces, room);
  }

  /**
   * @param isStillWanted whether the batch that this is for still runs
   */
  static void start(
      Recipe recipe,
      RigDescription rig,
      long seed,
      Consumer<Request> teller,
      BooleanSupplier isStillWanted) {
    Background.thread(
            "rehearsal",
            () -> {
              try {
                String text = expected(recipe, rig, SEED + seed).text();
                if (isStillWanted.getAsBoolean()) {
                  teller.accept(new Request.Expect(BY, text));
                }
              } catch (RuntimeException e) {
                LOG.warn("The batch could not be rehearsed: nothing is expected of it.", e);
              }
            })
        .start();
  }
}
