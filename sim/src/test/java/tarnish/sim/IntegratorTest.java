package tarnish.sim;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.hipparchus.ode.ODEState;
import org.hipparchus.ode.OrdinaryDifferentialEquation;
import org.hipparchus.ode.nonstiff.DormandPrince853Integrator;
import org.junit.jupiter.api.Test;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Switch;

/** The stepper against a general-purpose integrator on the same right-hand side. */
class IntegratorTest {
  private static final RigDescription RIG = TestBench.rig();

  @Test
  void aDayOfHeatingPulsesAndReactionAgreesWithDormandPrince() {
    SimulatedRig bench = bench(TestBench.copper());
    Reference reference = new Reference(bench);
    double worst = 0;
    worst = both(bench, reference, Outputs.of(0, Switch.PUMP, Switch.VACUUM), 40, worst);
    worst = both(bench, reference, Outputs.of(700, Switch.HEATER), 900, worst);
    for (int hour = 0; hour < 23; hour++) {
      Outputs warm = Outputs.of(80 + 12 * hour, Switch.HEATER);
      worst = both(bench, reference, warm.with(Switch.OXYGEN, true), 0.75 + 0.25 * hour, worst);
      worst = both(bench, reference, warm, 1800, worst);
      worst = both(bench, reference, warm.with(Switch.VENT, hour % 4 == 3), 20, worst);
      worst = both(bench, reference, Outputs.of(0), 300, worst);
      worst = both(bench, reference, warm, 1400, worst);
    }
    System.out.printf("worst relative difference over a day: %.2e%n", worst);
    assertTrue(bench.truth().timeS() > 80_000);
    assertTrue(bench.truth().oxygenPerUnit() > 0.2, "the day must hold a reaction");
    assertTrue(worst < 1e-4, "worst relative difference " + worst);
  }

  @Test
  void anInertSweepThroughTheOpenVesselAgreesWithDormandPrince() {
    SimulatedRig bench = bench(TestBench.copper());
    Reference reference = new Reference(bench);
    bench.setVesselOpen(true);
    double worst = both(bench, reference, Outputs.of(0, Switch.INERT), 600, 0);
    worst = both(bench, reference, Outputs.of(0), 600, worst);
    System.out.printf("worst relative difference, open vessel: %.2e%n", worst);
    assertTrue(worst < 1e-4, "worst relative difference " + worst);
  }

  @Test
  void halvingTheStepQuartersTheErrorOfTheMidpointRule() {
    double coarse = elementError(0.25);
    double fine = elementError(0.125);
    assertEquals(4, coarse / fine, 0.4);
  }

  @Test
  void halvingTheStepDividesTheErrorOfTheFourthOrderRuleBySixteen() {
    double coarse = pumpDownError(0.24);
    double fine = pumpDownError(0.12);
    assertEquals(16, coarse / fine, 3);
  }

  private static double elementError(double stepS) {
    SimulatedRig bench = bench(TestBench.copper());
    Reference reference = new Reference(bench);
    bench.write(Outputs.of(1000, Switch.HEATER));
    for (int i = 0; i < (int) (30 / stepS); i++) {
      bench.advance(stepS);
    }
    reference.advance(bench.inputs(), 30);
    return StrictMath.abs(bench.state()[Plant.ELEMENT] - reference.y[Plant.ELEMENT]);
  }

  private static double pumpDownError(double stepS) {
    SimulatedRig bench = bench(TestBench.copper());
    Reference reference = new Reference(bench);
    bench.write(Outputs.of(0, Switch.PUMP, Switch.VACUUM));
    for (int i = 0; i < 10; i++) {
      bench.advance(stepS);
    }
    reference.advance(bench.inputs(), 10 * stepS);
    return StrictMath.abs(bench.state()[Plant.INERT] - reference.y[Plant.INERT]);
  }

  private static SimulatedRig bench(Recipe recipe) {
    return new SimulatedRig(BenchSpec.nominal(RIG, recipe), RIG);
  }

  /** Runs both and gives the larger of {@code worst} and the relative differences at the end. */
  private static double both(
      SimulatedRig bench, Reference reference, Outputs outputs, double seconds, double worst) {
    bench.write(outputs);
    bench.advance(seconds);
    reference.advance(bench.inputs(), seconds);
    double largest = worst;
    double[] y = bench.state();
    double gasMol = y[Plant.OXYGEN] + y[Plant.INERT];
    for (int i = 0; i < y.length; i++) {
      boolean sum = i >= Plant.HEAT_GAINED && i <= Plant.INERT_GAINED;
      double difference = StrictMath.abs(y[i] - reference.y[i]);
      // A gas that is a trace is measured against all the gas; a conversion or an uptake against 1
      // %.
      double scale = StrictMath.abs(reference.y[i]);
      if (i == Plant.OXYGEN || i == Plant.INERT) {
        scale = StrictMath.max(scale, gasMol);
      } else if (i == Plant.UPTAKE) {
        scale = StrictMath.max(scale, 3e-4);
      } else if (i >= Plant.FIRST_STEP) {
        scale = StrictMath.max(scale, 0.01);
      }
      if (!sum) {
        largest = StrictMath.max(largest, difference / scale);
      }
    }
    return largest;
  }

  /** The same equations carried by the library's integrator. */
  private static final class Reference implements OrdinaryDifferentialEquation {
    private final Plant plant;
    private final DormandPrince853Integrator integrator =
        new DormandPrince853Integrator(1e-9, 60, 1e-13, 1e-11);
    private double[] y;

    Reference(SimulatedRig bench) {
      plant = new Plant(bench.spec());
      y = bench.state().clone();
    }

    void advance(PlantInputs inputs, double seconds) {
      plant.prepare(inputs);
      integrator.setInitialStepSize(StrictMath.min(0.01, seconds / 10));
      y = integrator.integrate(this, new ODEState(0, y), seconds).getPrimaryState();
    }

    @Override
    public int getDimension() {
      return plant.size();
    }

    @Override
    public double[] computeDerivatives(double t, double[] state) {
      double[] dy = new double[state.length];
      plant.derivatives(state, dy);
      return dy;
    }
  }
}
