package tarnish.sim;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Switch;
import tarnish.sim.ThermalSpec.Coupling;

/** Cases simple enough to be solved on paper. */
class ClosedFormTest {
  private static final RigDescription RIG = TestBench.rig();

  /** Barium oxide: in the cold it takes up nothing that would hide a leak. */
  private static final BenchSpec NOMINAL = BenchSpec.nominal(RIG, TestBench.bariumOxide());

  private static final double VOLUME_M3 = 3.5e-4;

  @Test
  void pumpDownIsExponentialToTheUltimatePressure() {
    SimulatedRig bench = new SimulatedRig(NOMINAL.withGas(gas(0, 0)), RIG);
    double start = bench.truth().pressurePa();
    bench.write(Outputs.of(0, Switch.PUMP, Switch.VACUUM));
    for (int second = 1; second <= 20; second++) {
      bench.advance(1);
      double expected = 50 + (start - 50) * StrictMath.exp(-2e-4 * second / VOLUME_M3);
      assertEquals(expected, bench.truth().pressurePa(), 1e-4 * expected);
    }
  }

  @Test
  void aPumpNeitherDrawsNorFeedsBelowItsUltimatePressure() {
    SimulatedRig bench = new SimulatedRig(NOMINAL.withGas(gas(0, 0)), RIG);
    bench.state()[Plant.INERT] = 1e-6;
    double before = bench.truth().pressurePa();
    bench.write(Outputs.of(0, Switch.PUMP, Switch.VACUUM));
    bench.advance(60);
    assertTrue(before < 50);
    assertEquals(before, bench.truth().pressurePa(), 1e-6 * before);
  }

  @Test
  void leakRisesInAStraightLineAndOutgassingLevelsOff() {
    double firstOfLeak = evacuated(gas(1e-10, 0)).riseOver(600);
    double[] leak = twoRises(gas(1e-10, 0));
    double[] outgassing = twoRises(gas(0, 2e-6));
    assertEquals(1, leak[1] / leak[0], 0.01);
    assertEquals(StrictMath.exp(-600.0 / 1200), outgassing[1] / outgassing[0], 1e-4);
    // dp/dt = L (room - p)/V
    assertEquals(1e-10 * 101_325 / VOLUME_M3 * 600, firstOfLeak, 0.005 * firstOfLeak);
  }

  @Test
  void oneWarmMassCoolsExponentially() {
    ThermalSpec t = NOMINAL.thermal();
    Coupling none = new Coupling(0, 0);
    ThermalSpec alone =
        new ThermalSpec(
            t.elementJPerK(),
            1100,
            t.vesselJPerK(),
            t.sampleJPerK(),
            t.sealJPerK(),
            none,
            none,
            none,
            0,
            0,
            0.65,
            0);
    BenchSpec spec =
        new BenchSpec(
            0,
            800,
            alone,
            NOMINAL.gas(),
            NOMINAL.solid(),
            NOMINAL.room(),
            NOMINAL.sensorErrors(),
            0);
    SimulatedRig bench = new SimulatedRig(spec, RIG);
    bench.state()[Plant.WALL] = 800;
    bench.advance(1500);
    double expected = 295.15 + (800 - 295.15) * StrictMath.exp(-0.65 * 1500 / 1100);
    assertEquals(expected, bench.truth().wallK(), 1e-6);
    assertEquals(295.15, bench.truth().vesselK(), 1e-9);
  }

  @Test
  void heatingAClosedVesselRaisesThePressureByTheGasLaw() {
    SimulatedRig bench = new SimulatedRig(NOMINAL.withGas(gas(0, 0)), RIG);
    double amount = bench.truth().inertMol();
    bench.write(Outputs.of(200, Switch.HEATER));
    bench.advance(7200);
    Truth hot = bench.truth();
    double hotK = (hot.vesselK() + hot.sampleK()) / 2;
    double expected = amount * TwoZoneVolume.GAS_CONSTANT / (2.5e-4 / hotK + 1.0e-4 / 295.15);
    assertTrue(hotK > 450);
    assertEquals(expected, hot.pressurePa(), 1e-6 * expected);
  }

  private static double[] twoRises(GasSpec gas) {
    Rising bench = evacuated(gas);
    return new double[] {bench.riseOver(600), bench.riseOver(600)};
  }

  /** A bench with its vessel just pumped empty. */
  private static Rising evacuated(GasSpec gas) {
    SimulatedRig bench = new SimulatedRig(NOMINAL.withGas(gas), RIG);
    bench.state()[Plant.INERT] = 1e-7;
    return seconds -> {
      double before = bench.truth().pressurePa();
      bench.advance(seconds);
      return bench.truth().pressurePa() - before;
    };
  }

  private interface Rising {
    double riseOver(double seconds);
  }

  private static GasSpec gas(double leakM3PerS, double adsorbedMol) {
    GasSpec g = NOMINAL.gas();
    return new GasSpec(
        g.volume(),
        g.oxygenPath(),
        g.oxygenSupplyPa(),
        g.oxygenFraction(),
        g.inertPath(),
        g.inertSupplyPa(),
        g.inertOxygenFraction(),
        g.inertKgPerMol(),
        g.vent(),
        g.pumpM3PerS(),
        g.pumpUltimatePa(),
        leakM3PerS,
        adsorbedMol,
        g.outgassingS(),
        g.openingM3PerS(),
        g.openingReliefPerS());
  }
}
