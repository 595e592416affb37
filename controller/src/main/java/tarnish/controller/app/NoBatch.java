package tarnish.controller.app;

import java.util.List;
import java.util.OptionalDouble;
import tarnish.shared.recipe.Charge;
import tarnish.shared.recipe.OxideMember;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.RigDescription;

/** What stands in place of a recipe while none is run. */
final class NoBatch {
  private NoBatch() {}

  /** A recipe without steps, for a bench that is only watched. */
  static Recipe recipe(RigDescription rig) {
    return new Recipe(
        "No batch",
        rig.invented(),
        new Charge("Cu", 1e-3, 1e-6),
        63.546e-3,
        List.of(new OxideMember("Cu", 0), new OxideMember("CuO", 1)),
        new OxideMember("CuO", 1),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        rig.vessel().name(),
        rig.oxygen().name(),
        List.of(),
        List.of());
  }
}
