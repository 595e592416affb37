package tarnish.controller.app;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
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
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.Control;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Plan;
import tarnish.controller.files.RecipeReader;
import tarnish.shared.reading.Readings;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.Outputs;
import tarnish.sim.SimulatedRig;

/**
 * Time and allocation of one tick in the steady state of a soak: the plant with its sensors alone,
 * and both with control, whose share is the difference: readings that do not follow its outputs
 * would soon trip it. Run by {@code .ci/figures}.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class TickBenchmark {
  /** Well in the second soak, and before the first pause of the rehearsal. */
  private static final long FROM_MILLIS = 28 * 3_600_000L;

  private Plan plan;
  private SimulatedRig bench;
  private Readings readings;
  private ControlState state;
  private Outputs outputs;

  /** Brings the demonstration batch into its second soak, made long enough for any run. */
  @Setup
  public void soak() {
    LoadedFiles files =
        LoadedFiles.read(
            Path.of("../sim/demo/copper-oxide-two-weeks.recipe.yaml"),
            Path.of("../sim/demo/bench.rig.yaml"));
    String longer = files.recipeText().replace("for: 24 h", "for: 60 d");
    Recipe recipe =
        LoadedFiles.value(RecipeReader.read("longer", longer, Optional.of(files.rig())));
    plan = Plan.of(recipe, files.rig());
    bench = new SimulatedRig(files.rig(), recipe, 1);
    BenchRun run = new BenchRun(plan, new SimulatedBench(bench), ControlState.initial(plan));
    StandInOperator operator = new StandInOperator(plan, bench);
    while (run.millis() < FROM_MILLIS) {
      long next = run.millis() + plan.rig().tickMillis();
      run.tickAt(next, operator.requests(run.state(), next / 1000.0));
    }
    readings = run.readings().copy();
    state = run.state();
    outputs = state.outputs();
  }

  /** A batch that has left its soak would be quicker, and measured for nothing. */
  @TearDown
  public void stillSoaks() {
    if (state.phase() != BatchState.RUNNING || state.stepVisit() != 1) {
      throw new IllegalStateException("no soak any more: " + state.phase());
    }
  }

  /** The bench in equations and its sensors. */
  @Benchmark
  public Readings plant() {
    bench.advance(SimulatedRig.TICK_S);
    bench.read(readings);
    return readings;
  }

  /** Bench and control, closed: a tick of a rehearsal. */
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
