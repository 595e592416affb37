package tarnish.sim;

import java.util.ArrayList;
import java.util.List;
import tarnish.shared.gas.Iso6358;
import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.GasSource;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;
import tarnish.sim.SolidSpec.Arrhenius;
import tarnish.sim.SolidSpec.OxideStep;

/** Draws the hidden truth of a bench around its description. */
final class SpecDraw {
  private static final double THERMAL_SPREAD = 0.03;
  private static final double VALVE_SPREAD = 0.05;
  private static final double RATE_SPREAD = 0.05;

  /** Pores, and tables that differ. */
  private static final double DENSITY_SPREAD = 0.03;

  private final RigDescription rig;
  private final Recipe recipe;
  private final long seed;
  private final SeededNoise noise;

  SpecDraw(RigDescription rig, Recipe recipe, long seed) {
    this.rig = rig;
    this.recipe = recipe;
    this.seed = seed;
    this.noise = new SeededNoise(seed, 1);
  }

  BenchSpec draw(BenchSpec nominal) {
    return new BenchSpec(
        seed,
        near(nominal.heaterRatedW(), 0.02),
        thermal(nominal.thermal()),
        gas(nominal.gas()),
        solid(nominal.solid()),
        new RoomSpec(
            nominal.room().temperatureK() + noise.gaussian(),
            0.8,
            nominal.room().pressurePa() + 300 * bounded(),
            400),
        sensorErrors(),
        nominal.balanceNoiseKg());
  }

  private ThermalSpec thermal(ThermalSpec t) {
    return new ThermalSpec(
        near(t.elementJPerK(), THERMAL_SPREAD),
        near(t.wallJPerK(), THERMAL_SPREAD),
        near(t.vesselJPerK(), THERMAL_SPREAD),
        near(t.sampleJPerK(), THERMAL_SPREAD),
        near(t.sealJPerK(), THERMAL_SPREAD),
        t.elementWall().times(near(1, THERMAL_SPREAD)),
        t.wallVessel().times(near(1, THERMAL_SPREAD)),
        t.vesselSample().times(near(1, THERMAL_SPREAD)),
        near(t.vesselSealWPerK(), THERMAL_SPREAD),
        near(t.sealRoomWPerK(), THERMAL_SPREAD),
        near(t.wallRoomWPerK(), THERMAL_SPREAD),
        t.doorOpenWPerK(),
        t.heaterDelayS());
  }

  private GasSpec gas(GasSpec g) {
    double hot = g.volume().hotM3() + rig.vessel().hotStandardUncertaintyM3() * bounded();
    double cold = g.volume().coldM3() + rig.vessel().coldStandardUncertaintyM3() * bounded();
    return new GasSpec(
        new TwoZoneVolume(
            StrictMath.max(hot, 0.2 * g.volume().hotM3()),
            StrictMath.max(cold, 0.2 * g.volume().coldM3())),
        near(g.oxygenPath()),
        near(g.oxygenSupplyPa(), 0.01),
        purity(rig.oxygen()),
        near(g.inertPath()),
        near(g.inertSupplyPa(), 0.01),
        purity(rig.inert()),
        g.inertKgPerMol(),
        near(g.vent()),
        near(g.pumpM3PerS(), 0.1),
        near(g.pumpUltimatePa(), 0.1),
        near(g.leakM3PerS(), 0.3),
        near(g.adsorbedMol(), 0.2),
        near(g.outgassingS(), 0.1),
        g.openingM3PerS(),
        g.openingReliefPerS());
  }

  private SolidSpec solid(SolidSpec s) {
    double massKg =
        recipe.charge().massKg() + recipe.charge().massStandardUncertaintyKg() * bounded();
    List<OxideStep> steps = new ArrayList<>();
    for (OxideStep step : s.steps()) {
      steps.add(
          new OxideStep(
              step.oxygenPerUnit(),
              near(step.surface()),
              near(step.diffusion()),
              step.closingCrust(),
              step.gasTransportPerS(),
              step.orderQuarters(),
              step.equilibrium(),
              step.heatJPerMolO2()));
    }
    return new SolidSpec(
        massKg / s.unitKgPerMol(),
        s.unitKgPerMol(),
        steps,
        s.grindingEfficiency(),
        densities(s.densitiesKgPerM3()));
  }

  /** From a stream of its own, so that a seed keeps the rest of its bench. */
  private List<Double> densities(List<Double> table) {
    SeededNoise grains = new SeededNoise(seed, 4);
    List<Double> drawn = new ArrayList<>();
    for (double density : table) {
      double deviation = StrictMath.max(-3, StrictMath.min(3, grains.gaussian()));
      drawn.add(density * (1 + DENSITY_SPREAD * deviation));
    }
    return drawn;
  }

  private List<SensorError> sensorErrors() {
    List<SensorError> errors = new ArrayList<>();
    for (SensorDescription sensor : rig.sensors()) {
      errors.add(
          new SensorError(
              sensor.channel(),
              sensor.standardUncertainty() * noise.gaussian(),
              sensor.gainStandardUncertainty() * noise.gaussian()));
    }
    return errors;
  }

  private double purity(GasSource source) {
    double drawn =
        source.oxygenFraction() + source.oxygenFractionStandardUncertainty() * noise.gaussian();
    return StrictMath.min(1, StrictMath.max(0, drawn));
  }

  private Arrhenius near(Arrhenius law) {
    return new Arrhenius(near(law.value(), RATE_SPREAD), law.referenceK(), law.energyJPerMol());
  }

  private Iso6358 near(Iso6358 path) {
    return new Iso6358(near(path.sonicConductance(), VALVE_SPREAD), path.criticalRatio());
  }

  private double near(double value, double relativeSpread) {
    return value * (1 + relativeSpread * bounded());
  }

  /** Normal, cut at three standard deviations: no bench is absurd. */
  private double bounded() {
    return StrictMath.max(-3, StrictMath.min(3, noise.gaussian()));
  }
}
