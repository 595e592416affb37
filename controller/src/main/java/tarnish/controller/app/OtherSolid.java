package tarnish.controller.app;

import java.util.List;
import tarnish.sim.BenchSpec;
import tarnish.sim.SolidSpec;

/**
 * The same charge with a rate law that no fitted law has: its crust closes, steeper in pressure.
 */
final class OtherSolid {
  private OtherSolid() {}

  static BenchSpec on(BenchSpec bench) {
    SolidSpec solid = bench.solid();
    List<SolidSpec.OxideStep> steps = solid.steps().stream().map(OtherSolid::changed).toList();
    return bench.withSolid(solid.withSteps(steps));
  }

  private static SolidSpec.OxideStep changed(SolidSpec.OxideStep step) {
    SolidSpec.Arrhenius fast =
        new SolidSpec.Arrhenius(
            8 * step.diffusion().value(),
            step.diffusion().referenceK(),
            step.diffusion().energyJPerMol());
    return new SolidSpec.OxideStep(
        step.oxygenPerUnit(),
        step.surface(),
        fast,
        0.55,
        step.gasTransportPerS(),
        4,
        step.equilibrium(),
        step.heatJPerMolO2());
  }
}
