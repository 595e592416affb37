package tarnish.controller.app;

import tarnish.shared.oven.OvenModel;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.RigDescription;
import tarnish.sim.BenchSpec;
import tarnish.sim.ThermalSpec;

/**
 * The bench that a recipe is rehearsed on: drawn around the rig file, and where a real rig's oven
 * was identified, with that oven.
 */
final class RehearsedBench {
  private RehearsedBench() {}

  static BenchSpec spec(RigDescription rig, Recipe recipe, long seed) {
    BenchSpec drawn = BenchSpec.drawn(rig, recipe, seed);
    boolean real = rig.connection() == RigDescription.Connection.DEVICES;
    return real && rig.regulation().model().isPresent()
        ? drawn.withOven(
            rig.heater().ratedPowerW(),
            oven(rig.regulation().model().get().model(), rig.heater().ratedPowerW()))
        : drawn;
  }

  /**
   * The heat capacities and couplings that behave as a fitted model does. A model knows ratios
   * only: the rated power gives the scale, and sample, element's coupling and head are those of a
   * small tube oven. The oven's loss by radiation is taken as conduction that is as great at the
   * model's reference temperature.
   */
  static ThermalSpec oven(OvenModel m, double ratedPowerW) {
    ThermalSpec usual = ThermalSpec.smallTubeOven();
    double wallJPerK = ratedPowerW / m.heatingKPerS();
    double vesselJPerK = Math.max(1, m.vesselLoad() * wallJPerK);
    double neckWPerK = vesselJPerK / m.neckS();
    double headWPerK = usual.sealRoomWPerK();
    double toHeadWPerK =
        neckWPerK < 0.9 * headWPerK ? 1 / (1 / neckWPerK - 1 / headWPerK) : 9 * headWPerK;
    return new ThermalSpec(
        m.elementS() * usual.elementWall().wattPerKAt(OvenModel.REFERENCE_K),
        wallJPerK,
        vesselJPerK,
        usual.sampleJPerK(),
        usual.sealJPerK(),
        usual.elementWall(),
        ThermalSpec.Coupling.of(
            vesselJPerK / m.vesselS(), m.vesselRadiation(), OvenModel.REFERENCE_K),
        ThermalSpec.Coupling.of(
            usual.sampleJPerK() / m.sampleS(), m.sampleRadiation(), OvenModel.REFERENCE_K),
        toHeadWPerK,
        headWPerK,
        wallJPerK / m.lossS(),
        usual.doorOpenWPerK(),
        m.deadTimeS());
  }
}
