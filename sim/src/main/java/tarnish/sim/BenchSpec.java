package tarnish.sim;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tarnish.shared.gas.Iso6358;
import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.GasSource;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;
import tarnish.shared.rig.Vessel;

/**
 * The physical truth of one simulated bench, which the rig file only knows within its
 * uncertainties.
 *
 * @param seed of everything random on this bench
 * @param heaterRatedW true power at full duty
 * @param thermal oven
 * @param gas vessel and gas paths
 * @param solid charge
 * @param room surroundings
 * @param sensorErrors systematic error of each fitted sensor
 * @param balanceNoiseKg standard deviation of one weighing, handling included
 */
public record BenchSpec(
    long seed,
    double heaterRatedW,
    ThermalSpec thermal,
    GasSpec gas,
    SolidSpec solid,
    RoomSpec room,
    List<SensorError> sensorErrors,
    double balanceNoiseKg) {

  /** Amount fraction of O₂ in dry air (US Standard Atmosphere 1976; from memory). */
  public static final double AIR_OXYGEN_FRACTION = 0.20946;

  private static final double VENT_CRITICAL_RATIO = 0.3;
  private static final double NITROGEN_KG_PER_MOL = 0.028014;
  private static final double ARGON_KG_PER_MOL = 0.039948;

  public BenchSpec {
    sensorErrors = List.copyOf(sensorErrors);
  }

  /** The bench exactly as the rig file and the recipe describe it, in a room that never changes. */
  public static BenchSpec nominal(RigDescription rig, Recipe recipe) {
    List<SensorError> errors = new ArrayList<>();
    for (SensorDescription sensor : rig.sensors()) {
      errors.add(new SensorError(sensor.channel(), 0, 0));
    }
    return new BenchSpec(
        0,
        rig.heater().ratedPowerW(),
        ThermalSpec.smallTubeOven(),
        gas(rig),
        KineticsPresets.forRecipe(recipe),
        new RoomSpec(295.15, 0, rig.roomPressurePa(), 0),
        errors,
        rig.balanceStandardUncertaintyKg());
  }

  /**
   * A bench whose true values are drawn around the description within its standard uncertainties,
   * and whose thermal constants and rates vary by a few per cent.
   */
  public static BenchSpec drawn(RigDescription rig, Recipe recipe, long seed) {
    return new SpecDraw(rig, recipe, seed).draw(nominal(rig, recipe));
  }

  public BenchSpec withRoom(RoomSpec other) {
    return new BenchSpec(
        seed, heaterRatedW, thermal, gas, solid, other, sensorErrors, balanceNoiseKg);
  }

  public BenchSpec withOven(double newHeaterRatedW, ThermalSpec other) {
    return new BenchSpec(
        seed, newHeaterRatedW, other, gas, solid, room, sensorErrors, balanceNoiseKg);
  }

  public BenchSpec withSeed(long other) {
    return new BenchSpec(
        other, heaterRatedW, thermal, gas, solid, room, sensorErrors, balanceNoiseKg);
  }

  public BenchSpec withGas(GasSpec other) {
    return new BenchSpec(
        seed, heaterRatedW, thermal, other, solid, room, sensorErrors, balanceNoiseKg);
  }

  public BenchSpec withSolid(SolidSpec other) {
    return new BenchSpec(
        seed, heaterRatedW, thermal, gas, other, room, sensorErrors, balanceNoiseKg);
  }

  private static GasSpec gas(RigDescription rig) {
    Vessel vessel = rig.vessel();
    TwoZoneVolume volume = vessel.volume();
    GasSource inert = rig.inert();
    boolean argon = inert.name().toLowerCase(Locale.ROOT).contains("argon");
    return new GasSpec(
        volume,
        path(rig.oxygen()),
        rig.oxygen().supplyPressurePa(),
        rig.oxygen().oxygenFraction(),
        path(inert),
        inert.supplyPressurePa(),
        inert.oxygenFraction(),
        argon ? ARGON_KG_PER_MOL : NITROGEN_KG_PER_MOL,
        new Iso6358(rig.ventConductance(), VENT_CRITICAL_RATIO),
        rig.pumpSpeedM3PerS(),
        rig.pumpUltimatePa(),
        5e-13,
        2e-6,
        1200,
        (volume.hotM3() + volume.coldM3()) / 120,
        2);
  }

  private static Iso6358 path(GasSource source) {
    return new Iso6358(source.sonicConductance(), source.criticalRatio());
  }
}
