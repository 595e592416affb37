package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Plan;
import tarnish.shared.oven.OvenModel;
import tarnish.sim.BenchSpec;
import tarnish.sim.SimulatedRig;
import tarnish.sim.ThermalSpec;

class DriftTest {
  private static final LoadedFiles FILES = Demo.copper();

  /** A batch of the demonstration on a bench whose oven is other than the rig file's model says. */
  private static DriftWatch run(double power, double loss, double sampleCapacity) {
    BenchSpec nominal = BenchSpec.nominal(FILES.rig(), FILES.recipe());
    ThermalSpec t = nominal.thermal();
    ThermalSpec other =
        new ThermalSpec(
            t.elementJPerK(),
            t.wallJPerK(),
            t.vesselJPerK(),
            t.sampleJPerK() * sampleCapacity,
            t.sealJPerK(),
            t.elementWall(),
            t.wallVessel(),
            t.vesselSample(),
            t.vesselSealWPerK(),
            t.sealRoomWPerK(),
            t.wallRoomWPerK() * loss,
            t.doorOpenWPerK(),
            t.heaterDelayS());
    BenchSpec spec = nominal.withOven(nominal.heaterRatedW() * power, other).withSeed(5);
    Plan plan = Plan.of(FILES.recipe(), FILES.rig());
    SimulatedRig bench = new SimulatedRig(spec, FILES.rig());
    BenchRun run = new BenchRun(plan, new SimulatedBench(bench), ControlState.initial(plan));
    StandInOperator operator = new StandInOperator(plan, bench);
    DriftWatch watch = new DriftWatch(FILES.rig());
    while (!run.state().phase().isFinal() && run.millis() < 60L * 3_600_000) {
      long next = run.millis() + plan.rig().tickMillis();
      run.tickAt(next, operator.requests(run.state(), next / 1000.0));
      watch.look(run.readings(), run.state().outputs());
    }
    bench.close();
    return watch;
  }

  @Test
  void anOvenAsIdentifiedIsNotRemarkedUpon() {
    DriftWatch watch = run(1, 1, 1);
    assertTrue(watch.isEnough());
    assertEquals(List.of(), watch.sentences(), watch::figures);
  }

  @Test
  void anAgeingElementIsNoticedAndTheAdaptedModelHasItsPower() {
    DriftWatch watch = run(0.85, 1, 1);
    assertEquals(1, watch.sentences().size(), watch::figures);
    assertTrue(watch.sentences().get(0).startsWith("The heater gives 8"), watch::figures);
    OvenModel before = FILES.rig().regulation().model().orElseThrow().model();
    assertEquals(0.85, watch.adapted().heatingKPerS() / before.heatingKPerS(), 0.03);
  }

  @Test
  void aLeakyDoorIsNoticed() {
    DriftWatch watch = run(1, 1.4, 1);
    assertEquals(1, watch.sentences().size(), watch::figures);
    assertTrue(watch.sentences().get(0).startsWith("The oven loses 1"), watch::figures);
  }

  @Test
  void anotherBoatIsNoticed() {
    DriftWatch watch = run(1, 1, 2);
    assertEquals(1, watch.sentences().size(), watch::figures);
    assertTrue(watch.sentences().get(0).startsWith("The sample follows"), watch::figures);
  }
}
