package tarnish.shared.planning;

import java.util.List;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.RigDescription;

/**
 * What to know before a batch is begun: how much oxygen, how large a dose, what the glass and the
 * seal must bear, how long it takes.
 *
 * @param recipe title of the recipe
 * @param rig name of the bench
 * @param lines in reading order
 */
public record PlanningSheet(String recipe, String rig, List<PlanLine> lines) {
  /**
   * Oxygen fraction that a purge should reach, where nothing else is said: common practice for
   * powders that only tarnish; a pyrophoric solid asks for less.
   */
  public static final double WANTED_RESIDUAL = 1e-4;

  public PlanningSheet {
    lines = List.copyOf(lines);
  }

  /**
   * Plans a recipe, already checked against the rig.
   *
   * @param wantedResidual oxygen fraction that a purge should reach, above 0 and below 1
   */
  public static PlanningSheet of(Recipe recipe, RigDescription rig, double wantedResidual) {
    if (!(wantedResidual > 0 && wantedResidual < 1)) {
      throw new IllegalArgumentException(
          "a wanted residual lies above 0 and below 1, got " + wantedResidual);
    }
    Sheet sheet = new Sheet();
    StepWalk walk = new StepWalk(recipe, rig);
    OxygenLines.add(sheet, recipe, rig);
    DoseLines.add(sheet, recipe, rig, walk);
    PurgeLines.add(sheet, walk, rig, wantedResidual);
    VesselLines.add(sheet, recipe, rig, walk);
    DurationLines.add(sheet, walk);
    return new PlanningSheet(recipe.title(), rig.name(), sheet.lines());
  }

  /** The same with {@link #WANTED_RESIDUAL}. */
  public static PlanningSheet of(Recipe recipe, RigDescription rig) {
    return of(recipe, rig, WANTED_RESIDUAL);
  }

  /** How many lines have this verdict. */
  public long count(PlanLine.Verdict verdict) {
    return lines.stream().filter(line -> line.verdict() == verdict).count();
  }
}
