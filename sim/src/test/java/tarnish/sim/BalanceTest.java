package tarnish.sim;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Switch;

/**
 * Nothing is made of nothing: heat, oxygen, inert gas and mass over a run with everything in it.
 */
class BalanceTest {
  private static final RigDescription RIG = TestBench.rig();
  private final SimulatedRig bench = new SimulatedRig(RIG, TestBench.copper(), 11);
  private final double[] y = bench.state();

  @Test
  void heatAndGasAndMassAreKept() {
    double energy = bench.plant().energyJ(y);
    double inert = y[Plant.INERT] + y[Plant.ADSORBED];
    double mass = bench.truth().solidMassKg();

    runEverything();

    Truth end = bench.truth();
    double gained = bench.plant().energyJ(y) - energy;
    double heatResidual = (gained - y[Plant.HEAT_GAINED]) / gained;
    double oxygenIn = y[Plant.OXYGEN] + bench.plant().solid.oxygenMol(y, Plant.FIRST_STEP);
    double oxygenResidual = (oxygenIn - y[Plant.OXYGEN_GAINED]) / oxygenIn;
    double inertResidual =
        (y[Plant.INERT] + y[Plant.ADSORBED] - inert - y[Plant.INERT_GAINED]) / inert;
    double massResidual =
        (end.solidMassKg() - mass - 0.031998 * end.uptakeMol()) / end.solidMassKg();
    System.out.printf(
        "residuals: heat %.1e, oxygen %.1e, inert %.1e, mass %.1e%n",
        heatResidual, oxygenResidual, inertResidual, massResidual);
    assertTrue(end.oxygenPerUnit() > 0.3, "the run must hold a reaction");
    assertEquals(0, heatResidual, 1e-6);
    assertEquals(0, oxygenResidual, 1e-6);
    assertEquals(0, inertResidual, 1e-6);
    assertEquals(0, massResidual, 1e-6);
  }

  @Test
  void aSpillScalesTheAmountAndNotTheComposition() {
    runEverything();
    Truth before = bench.truth();
    bench.spill(0.1);
    Truth after = bench.truth();
    assertEquals(before.oxygenPerUnit(), after.oxygenPerUnit());
    assertEquals(0.9 * before.solidMassKg(), after.solidMassKg(), 1e-15);
    assertEquals(before.uptakeMol(), after.uptakeMol());
  }

  private void runEverything() {
    run(Outputs.of(0, Switch.PUMP, Switch.VACUUM), 60);
    run(Outputs.of(250, Switch.HEATER), 5400);
    for (int i = 0; i < 60; i++) {
      run(Outputs.of(250, Switch.HEATER, Switch.OXYGEN), 2);
      run(Outputs.of(250, Switch.HEATER), 600);
    }
    run(Outputs.of(0, Switch.VENT), 600);
    run(Outputs.OFF, 7200);
    bench.setVesselOpen(true);
    run(Outputs.of(0, Switch.INERT), 300);
    bench.grind();
    bench.setVesselOpen(false);
    run(Outputs.of(300, Switch.HEATER, Switch.OXYGEN), 7200);
  }

  private void run(Outputs outputs, double seconds) {
    bench.write(outputs);
    bench.advance(seconds);
  }
}
