package tarnish.controller.app;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import tarnish.controller.control.Control;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Plan;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;
import tarnish.sim.SimulatedRig;

/**
 * Time and allocation of one tick in the steady state of a soak: the plant with its sensors alone,
 * and control alone on the readings that the plant gives. Run by {@code .ci/figures}.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
@Fork(1)
public class TickBenchmark {
  private Plan plan;
  private SimulatedRig bench;
  private Readings readings;
  private ControlState state;
  private Outputs outputs;

  /** Brings the demonstration batch into its last soak, which is then long enough for any run. */
  @Setup
  public void soak() {
    LoadedFiles files =
        LoadedFiles.read(
            Path.of("../sim/demo/copper-oxide-two-weeks.recipe.yaml"),
            Path.of("../sim/demo/bench.rig.yaml"));
    plan = Plan.of(files.recipe(), files.rig());
    bench = new SimulatedRig(files.rig(), files.recipe(), 1);
    BenchRun run = new BenchRun(plan, new SimulatedBench(bench), ControlState.initial(plan));
    StandInOperator operator = new StandInOperator(plan, bench);
    while (run.millis() < 30 * 3_600_000L) {
      long next = run.millis() + plan.rig().tickMillis();
      run.tickAt(next, operator.requests(run.state(), next / 1000.0));
    }
    readings = new Readings(plan.rig().resolutions());
    readings.copyFrom(run.readings());
    state = run.state();
    outputs = state.outputs();
  }

  /** The bench in equations and its sensors. */
  @Benchmark
  public Readings plant() {
    bench.advance(SimulatedRig.TICK_S);
    bench.read(readings);
    return readings;
  }

  /** The control law on fresh noise, outputs not given back: the soak stays where it is. */
  @Benchmark
  public ControlState control() {
    state =
        Control.tick(
                plan, state, readings, List.of(), state.lastMillis() + plan.rig().tickMillis())
            .state();
    return state;
  }

  /** Both, closed: a tick of a rehearsal. */
  @Benchmark
  public ControlState rehearsal() {
    bench.write(outputs);
    bench.advance(SimulatedRig.TICK_S);
    bench.read(readings);
    state =
        Control.tick(
                plan, state, readings, List.of(), state.lastMillis() + plan.rig().tickMillis())
            .state();
    outputs = state.outputs();
    return state;
  }
}
