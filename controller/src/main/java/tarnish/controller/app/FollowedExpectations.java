package tarnish.controller.app;

import java.util.List;
import java.util.function.BooleanSupplier;
import tarnish.controller.control.ControlState;
import tarnish.controller.service.Status;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.RigDescription;

/** What a rehearsal expects of the batch in hand. One thread follows, any looks. */
final class FollowedExpectations {
  private final RigDescription rig;
  private final long seed;
  private final RequestQueue queue;
  private volatile boolean rehearsing;
  private volatile ExpectedFollower follower = new ExpectedFollower();

  /**
   * @param queue where control is told what to expect
   */
  FollowedExpectations(RigDescription rig, long seed, RequestQueue queue) {
    this.rig = rig;
    this.seed = seed;
    this.queue = queue;
  }

  /** From now on each batch is rehearsed as it begins. */
  void rehearseEach() {
    rehearsing = true;
  }

  /** Begins anew, for another batch. */
  void begin(Recipe recipe, BooleanSupplier isStillInHand) {
    follower = new ExpectedFollower();
    if (rehearsing) {
      BackgroundRehearsal.start(recipe, rig, seed, queue::offer, isStillInHand);
    }
  }

  void follow(ControlState state) {
    follower.follow(state);
  }

  /**
   * @param inHand number of the batch in hand; null where there is none
   */
  List<Status.BandLine> of(int number, Integer inHand) {
    return inHand != null && inHand == number ? follower.band() : List.of();
  }
}
