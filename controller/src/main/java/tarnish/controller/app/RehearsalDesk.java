package tarnish.controller.app;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tarnish.controller.files.ReadResult;
import tarnish.controller.files.RecipeReader;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.RigDescription;

/**
 * Rehearses recipes that the page asks about, one at a time, on a thread of its own with the least
 * priority: the control loop does not feel it. Safe from any thread.
 */
final class RehearsalDesk {
  private static final Logger LOG = LoggerFactory.getLogger(RehearsalDesk.class);
  private static final int BENCHES = 3;

  private final RigDescription rig;
  private final long seed;
  private final AtomicBoolean busy = new AtomicBoolean();
  private volatile String words = "";

  RehearsalDesk(RigDescription rig, long seed) {
    this.rig = rig;
    this.seed = seed;
  }

  /** What there is to read: of the rehearsal that runs, or of the last one; empty before. */
  String words() {
    return words;
  }

  boolean isBusy() {
    return busy.get();
  }

  /** Begins a rehearsal; empty, or why not. */
  Optional<String> begin(String recipeText) {
    ReadResult<Recipe> read = RecipeReader.read("recipe", recipeText, Optional.of(rig));
    if (!read.isGood()) {
      return Optional.of("The recipe has faults: read the check first.");
    }
    if (!busy.compareAndSet(false, true)) {
      return Optional.of("A rehearsal is running: wait until it has ended.");
    }
    words = "Being rehearsed …";
    Thread thread = new Thread(() -> rehearse(read.value(), recipeText), "rehearsal for the page");
    thread.setDaemon(true);
    thread.setPriority(Thread.MIN_PRIORITY);
    thread.start();
    return Optional.empty();
  }

  private void rehearse(Recipe recipe, String recipeText) {
    try {
      LoadedFiles files = new LoadedFiles(recipe, recipeText, rig, "");
      List<RehearsalResult> all = new ArrayList<>();
      for (int i = 0; i < BENCHES; i++) {
        all.add(new Rehearsal(files, seed + i, Optional.empty()).run());
      }
      String sofar = all.get(0).among(all).words();
      words = sofar + "Single faults are being tried …";
      words = sofar + FaultLines.words(new FaultRehearsal(files, seed).run());
    } catch (RuntimeException e) {
      LOG.error("The rehearsal failed.", e);
      words = "The rehearsal failed; the log says more.";
    } finally {
      busy.set(false);
    }
  }
}
