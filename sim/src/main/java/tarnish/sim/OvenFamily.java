package tarnish.sim;

import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.RigDescription;

/**
 * Ovens that differ widely: power, every heat capacity, dead time and loss each within half and one
 * and a half times those of the small tube oven. Sensors read true but for their noise and lag, so
 * that what is found wanting is the regulation. Invented.
 */
public final class OvenFamily {
  /** Delay from the heater's output to its element in the middle of the family, in s. */
  public static final double DEAD_TIME_S = 10;

  private static final double SPREAD = 0.5;

  /** Stream of the seed's noise that draws ovens; 3 is the balance's. */
  private static final long OVENS = 17;

  private OvenFamily() {}

  /** The oven of a seed: the same seed gives the same oven. */
  public static BenchSpec draw(RigDescription rig, Recipe recipe, long seed) {
    SeededNoise random = new SeededNoise(seed, OVENS);
    BenchSpec nominal = BenchSpec.nominal(rig, recipe);
    ThermalSpec t = nominal.thermal();
    double powerW = nominal.heaterRatedW() * factor(random);
    ThermalSpec drawn =
        new ThermalSpec(
            t.elementJPerK() * factor(random),
            t.wallJPerK() * factor(random),
            t.vesselJPerK() * factor(random),
            t.sampleJPerK() * factor(random),
            t.sealJPerK(),
            t.elementWall(),
            t.wallVessel(),
            t.vesselSample(),
            t.vesselSealWPerK(),
            t.sealRoomWPerK(),
            t.wallRoomWPerK() * factor(random),
            t.doorOpenWPerK(),
            DEAD_TIME_S * factor(random));
    return nominal.withOven(powerW, drawn).withSeed(seed);
  }

  private static double factor(SeededNoise random) {
    return 1 + SPREAD * (2 * random.uniform() - 1);
  }
}
