package tarnish.sim;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Switch;

/** The demonstration charges behave as their stories need, under a simple stand-in regulator. */
class ScenarioTest {
  private static final RigDescription RIG = TestBench.rig();
  private static final double HELD_PA = 90_000;

  @Test
  void groundCopperBecomesCopperOxide() {
    SimulatedRig bench = evacuated(TestBench.copper());
    soak(bench, 150, 4);
    soak(bench, 200, 4);
    soak(bench, 250, 4);
    coolAndGrind(bench);
    soak(bench, 300, 4);
    System.out.println("ground copper: " + bench.truth());
    assertTrue(bench.truth().oxygenPerUnit() > 0.97, bench.truth().toString());
  }

  @Test
  void copperThatIsNotGroundStaysShort() {
    SimulatedRig bench = evacuated(TestBench.copper());
    soak(bench, 150, 4);
    soak(bench, 200, 4);
    soak(bench, 250, 4);
    soak(bench, 300, 4);
    System.out.println("copper not ground: " + bench.truth());
    assertTrue(bench.truth().oxygenPerUnit() < 0.88, bench.truth().toString());
  }

  @Test
  void copperIsSlowAndGentleAtOneHundredDegrees() {
    SimulatedRig bench = evacuated(TestBench.copper());
    double excess = soak(bench, 100, 6);
    assertTrue(bench.truth().oxygenPerUnit() > 0.02 && bench.truth().oxygenPerUnit() < 0.12);
    assertTrue(excess < 4, "excess " + excess);
  }

  @Test
  void anEarlyPulseWarmsTheSampleAndTheHeatPasses() {
    SimulatedRig bench = evacuated(TestBench.copper());
    for (int i = 0; i < 2 * 3600 * 4; i++) {
      regulate(bench, 150, false);
    }
    double before = excess(bench);
    double peak = 0;
    for (int i = 0; i < 3600 * 4; i++) {
      regulate(bench, 150, i < 1);
      peak = StrictMath.max(peak, excess(bench) - before);
    }
    System.out.printf("pulse at 150 °C: peak %.2f K%n", peak);
    assertTrue(peak > 2 && peak < 15, "peak " + peak);
    assertEquals(before, excess(bench), 0.7);
  }

  @Test
  void bariumPeroxideInAClosedVesselSettlesAtItsEquilibriumPressure() {
    SimulatedRig bench = evacuated(TestBench.bariumOxide());
    bench.state()[Plant.FIRST_STEP] = 1;
    bench.write(Outputs.of(500, Switch.HEATER));
    bench.advance(3 * 86_400);
    Truth end = bench.truth();
    double kelvin = end.sampleK();
    double oxygenPa = end.pressurePa() * end.oxygenMol() / (end.oxygenMol() + end.inertMol());
    // Fit to Mayorova et al., Thermochim. Acta 217 (1993) 241.
    double expected = 101_325 * StrictMath.exp((142.689 - 154_521 / kelvin) / 8.314462618);
    assertTrue(kelvin > 850, "too cold to mean anything: " + kelvin);
    assertEquals(expected, oxygenPa, 0.01 * expected);
    assertTrue(end.oxygenPerUnit() < 1);
  }

  @Test
  void bariumOxideBecomesPeroxideUnderOxygenAndGivesItBackInVacuum() {
    SimulatedRig bench = evacuated(TestBench.bariumOxide());
    soak(bench, 520, 8);
    double peroxide = bench.truth().oxygenPerUnit();
    bench.write(Outputs.of(430, Switch.HEATER, Switch.PUMP, Switch.VACUUM));
    bench.advance(24 * 3600);
    System.out.printf("BaO2: %.3f, after vacuum %s%n", peroxide, bench.truth());
    assertTrue(peroxide > 0.9, "peroxide " + peroxide);
    assertTrue(bench.truth().oxygenPerUnit() < 0.5 * peroxide, bench.truth().toString());
  }

  @Test
  void aReducedCatalystFlaresAtTheFirstPulsesAndThenIsPassive() {
    SimulatedRig bench = evacuated(TestBench.nickel());
    double first = 0;
    double last = 0;
    for (int pulse = 0; pulse < 40; pulse++) {
      bench.write(Outputs.of(0, Switch.OXYGEN));
      bench.advance(0.25);
      bench.write(Outputs.OFF);
      last = 0;
      for (int i = 0; i < 1200 * 4; i++) {
        bench.advance(0.25);
        last = StrictMath.max(last, excess(bench));
      }
      first = pulse == 0 ? last : first;
    }
    System.out.printf("catalyst: first %.1f K, last %.2f K, %s%n", first, last, bench.truth());
    assertTrue(first > 5 && first < 40, "first " + first);
    assertTrue(last < 0.2 * first, "last " + last);
    assertTrue(bench.truth().oxygenPerUnit() < 0.15, bench.truth().toString());
  }

  private static SimulatedRig evacuated(Recipe recipe) {
    SimulatedRig bench = new SimulatedRig(BenchSpec.nominal(RIG, recipe), RIG);
    bench.write(Outputs.of(0, Switch.PUMP, Switch.VACUUM));
    bench.advance(30);
    return bench;
  }

  private static double excess(SimulatedRig bench) {
    return bench.truth().sampleK() - bench.truth().vesselK();
  }

  /** Ramps at 2 K/min to the temperature, stays there under oxygen; gives the largest excess. */
  private static double soak(SimulatedRig bench, double celsius, double hours) {
    double peak = 0;
    double setpoint = bench.truth().wallK() - 273.15;
    while (setpoint < celsius) {
      setpoint += 2.0 / 60 * SimulatedRig.TICK_S;
      regulate(bench, setpoint, bench.truth().pressurePa() < HELD_PA);
      peak = StrictMath.max(peak, excess(bench));
    }
    for (int i = 0; i < hours * 3600 / SimulatedRig.TICK_S; i++) {
      regulate(bench, celsius, bench.truth().pressurePa() < HELD_PA);
      peak = StrictMath.max(peak, excess(bench));
    }
    return peak;
  }

  private static void coolAndGrind(SimulatedRig bench) {
    bench.write(Outputs.OFF);
    bench.advance(5 * 3600);
    bench.grind();
  }

  /** Holds the wall with the steady loss known and a proportional part: good enough here. */
  private static void regulate(SimulatedRig bench, double celsius, boolean oxygen) {
    double kelvin = celsius + 273.15;
    double duty = (0.67 * (kelvin - 295) + 20 * (kelvin - bench.truth().wallK())) / 800;
    int perMille = (int) (1000 * StrictMath.max(0, StrictMath.min(0.8, duty)));
    bench.write(Outputs.of(perMille, Switch.HEATER).with(Switch.OXYGEN, oxygen));
    bench.advance(SimulatedRig.TICK_S);
  }
}
