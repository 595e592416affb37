package tarnish.controller.app;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import tarnish.controller.control.Event;
import tarnish.controller.control.Identification;
import tarnish.controller.control.Plan;
import tarnish.shared.oven.Experiment;
import tarnish.shared.oven.OvenFit;
import tarnish.shared.oven.OvenFitter;
import tarnish.shared.oven.OvenTrace;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.recipe.Charge;
import tarnish.shared.recipe.OxideMember;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Heater;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;
import tarnish.shared.rig.Switch;
import tarnish.sim.SimulatedRig;

/** A whole identification on a simulated bench, as fast as the processor goes. */
final class OvenIdentification {
  private static final double STEP_S = 1;

  /** Distance of the top temperature from the unattended limits, in K. */
  private static final double BELOW_LIMIT_K = 40;

  /** No oven needs to be known hotter than this for the recipes it runs: 450 °C. */
  private static final double TOP_K = 723.15;

  private final RigDescription rig;
  private final Plan plan;
  private final Experiment experiment;
  private final List<String> log = new ArrayList<>();
  private OvenTrace trace;
  private Experiment.State end;

  /**
   * @param topK highest oven temperature wanted, empty for as hot as the limits let it be, at most
   *     450 °C
   * @param dutyMax of the heater during it, 0 to 1
   */
  OvenIdentification(RigDescription rig, OptionalDouble topK, double dutyMax) {
    this.rig = rig;
    plan = Plan.of(nothingToDo(rig), rig);
    double limitK = Math.min(rig.unattended().sampleMaxK(), rig.unattended().ovenMaxK());
    double top = topK.orElse(Math.min(TOP_K, limitK - BELOW_LIMIT_K));
    if (!(top <= limitK - BELOW_LIMIT_K)) {
      throw new CommandFailure(
          "The top temperature must stay "
              + Math.round(BELOW_LIMIT_K)
              + " K below the rig's unattended limits for oven and sample.");
    }
    double riseK = top - 295;
    if (!(riseK >= 50)) {
      throw new CommandFailure("The top temperature must be at least 72 °C to tell anything.");
    }
    experiment =
        new Experiment(
            Math.min(dutyMax, rig.heater().dutyMax()),
            riseK,
            rig.unattended().ovenMaxK(),
            rig.unattended().sampleMaxK());
  }

  /** A charge under inert gas and no steps: what the bench needs to know of a batch. */
  static Recipe nothingToDo(RigDescription rig, Step... steps) {
    OxideMember copper = new OxideMember("Cu", 0);
    OxideMember oxide = new OxideMember("CuO", 1);
    return new Recipe(
        "Getting to know the oven",
        rig.invented(),
        new Charge("Cu", 4e-3, 1e-6),
        0.063546,
        List.of(copper, oxide),
        oxide,
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        rig.vessel().name(),
        rig.oxygen().name(),
        List.of(steps),
        List.of());
  }

  /** Runs to the end, done or aborted. */
  void run(SimulatedRig bench) {
    Readings readings = new Readings(rig.resolutions());
    Identification.State state = Identification.State.begin(plan);
    int ticks = Math.max(1, (int) Math.round(STEP_S * 1000 / rig.tickMillis()));
    trace = new OvenTrace(ticks * rig.tickMillis() / 1000.0, (ticks + 1) / (2.0 * ticks));
    double[] sums = new double[4];
    double given = 0;
    long millis = 0;
    int inStep = 0;
    while (!state.experiment().stage().isFinal()) {
      millis += rig.tickMillis();
      sums[0] += given / ticks;
      bench.advance(rig.tickMillis() / 1000.0);
      bench.read(readings);
      sums[1] += readings.valueOr(Channel.OVEN_TEMPERATURE, 0) / ticks;
      sums[2] += readings.valueOr(Channel.SAMPLE_TEMPERATURE, 0) / ticks;
      sums[3] += readings.valueOr(Channel.ROOM_TEMPERATURE, 295) / ticks;
      inStep++;
      if (inStep == ticks) {
        trace.add(sums[0], sums[1], sums[2], sums[3]);
        sums = new double[4];
        inStep = 0;
      }
      Experiment.Stage before = state.experiment().stage();
      Identification.Turn turn = Identification.tick(plan, experiment, state, readings, millis);
      bench.write(turn.outputs());
      given = given(turn.outputs());
      state = turn.state();
      note(before, state.experiment(), readings, turn.events());
    }
    bench.close();
    end = state.experiment();
  }

  /** Duty that a tick's outputs give: a relay is on or off. */
  private double given(Outputs outputs) {
    boolean relay = rig.heater().actuator() == Heater.Actuator.RELAY;
    double duty = relay ? 1 : outputs.heaterPerMille() / 1000.0;
    return outputs.isOn(Switch.HEATER) ? duty : 0;
  }

  private void note(
      Experiment.Stage before, Experiment.State now, Readings readings, List<Event> events) {
    if (now.stage() != before) {
      log.add(
          String.format(
              "%6.0f s  %-40s oven %5.1f °C, sample %5.1f °C %s",
              now.totalS(),
              now.stage().words(),
              readings.valueOr(Channel.OVEN_TEMPERATURE, 0) - 273.15,
              readings.valueOr(Channel.SAMPLE_TEMPERATURE, 0) - 273.15,
              now.why()));
    }
    for (Event event : events) {
      log.add(String.format("%6.0f s  %s", now.totalS(), event.sentence()));
    }
  }

  boolean isDone() {
    return end.stage() == Experiment.Stage.DONE;
  }

  String why() {
    return end.why();
  }

  List<String> log() {
    return log;
  }

  OvenTrace trace() {
    return trace;
  }

  int restSteps() {
    return (int) (Experiment.REST_S / trace.stepS());
  }

  OvenFit fit() {
    return OvenFitter.fit(trace, Experiment.guess(), sigmaK(), restSteps());
  }

  /** Standard deviation of a point of the trace: noise and steps of the sensors, averaged. */
  private double sigmaK() {
    double worst = 0.01;
    for (Channel channel : List.of(Channel.OVEN_TEMPERATURE, Channel.SAMPLE_TEMPERATURE)) {
      SensorDescription sensor = rig.sensor(channel).orElseThrow();
      double single = Math.hypot(sensor.noise(), sensor.resolution() / Math.sqrt(12));
      worst = Math.max(worst, single / Math.sqrt(trace.stepS() * 1000 / rig.tickMillis()));
    }
    return worst;
  }
}
