package tarnish.controller.app;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Plan;
import tarnish.controller.control.RegulatorTuning;
import tarnish.controller.control.Request;
import tarnish.shared.oven.IdentifiedOven;
import tarnish.shared.oven.OvenFit;
import tarnish.shared.oven.OvenModel;
import tarnish.shared.oven.Simc;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.Step;
import tarnish.shared.recipe.StepCommon;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.Regulation;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;
import tarnish.sim.BenchSpec;
import tarnish.sim.OvenFamily;
import tarnish.sim.SimulatedRig;

/**
 * One oven of the family: identified, then regulated through two ramps, two soaks and an exotherm,
 * once by its model and once by a plain PID with SIMC tuning from the same identification.
 */
final class OvenTrial {
  private static final double NOISE_K = 0.1;
  private static final double RATE_K_PER_S = 3 / 60.0;
  private static final double LOW_K = 423.15;
  private static final double HIGH_K = 573.15;
  private static final double BAND_K = 3;
  private static final double LIMIT_ABOVE_K = 25;
  private static final double HEAT_W = 1;
  private static final double HEAT_S = 900;
  private static final double DAY_S = 86_400;

  private static final int FULL_PER_MILLE = 1000;

  /** What a heater at its limit does to the sample shows for so long, in s. */
  private static final double LIMITED_FOR_S = 60;

  /** Time in band after which a soak counts as settled, in s. */
  private static final double SETTLED_S = 1200;

  private final RigDescription rig;
  private final BenchSpec spec;
  private final OvenFit fit;

  /**
   * How a regulated batch went; temperatures are the plant's own, not the noisy readings.
   *
   * @param overshootK beyond a soak temperature, before the exotherm
   * @param soakSpreadK standard deviation in settled soaks
   * @param lagK greatest distance from the setpoint in force on a ramp while the oven could follow:
   *     the setpoint not held back, and the heater neither fully on nor off in the last minute
   * @param absoluteErrorKS integral of the distance from the recipe's own straight ramps
   * @param heldBackS time in which the setpoint was held back because the heater was at its limit
   * @param exothermK greatest rise above the soak under the test heat
   * @param recovered whether it came back into 1 K, without a trip
   */
  record Course(
      boolean complete,
      double overshootK,
      double soakSpreadK,
      double lagK,
      double absoluteErrorKS,
      double heldBackS,
      double exothermK,
      boolean recovered,
      double hours) {}

  OvenTrial(RigDescription given, long seed) {
    rig = prepared(given);
    spec = OvenFamily.draw(rig, recipe(), seed);
    OvenIdentification identification = identified(given, seed);
    fit = identification.fit();
  }

  /** An oven too strong for full duty is identified with half of it, as the guide says. */
  private OvenIdentification identified(RigDescription given, long seed) {
    OvenIdentification identification = null;
    for (double duty = 1; duty > 0.2; duty /= 2) {
      identification = new OvenIdentification(given, OptionalDouble.of(HIGH_K + 75), duty);
      identification.run(new SimulatedRig(spec, withNoise(given)));
      if (identification.isDone()) {
        return identification;
      }
    }
    throw new CommandFailure("Oven " + seed + " was not identified: " + identification.why());
  }

  OvenFit fit() {
    return fit;
  }

  private static RigDescription withNoise(RigDescription given) {
    List<SensorDescription> sensors = new ArrayList<>();
    for (SensorDescription s : given.sensors()) {
      boolean temperature =
          s.channel() == Channel.SAMPLE_TEMPERATURE || s.channel() == Channel.OVEN_TEMPERATURE;
      sensors.add(
          new SensorDescription(
              s.channel(),
              s.element(),
              s.resolution(),
              s.rangeMin(),
              s.rangeMax(),
              s.standardUncertainty(),
              s.gainStandardUncertainty(),
              temperature ? NOISE_K : s.noise(),
              s.lagS()));
    }
    return given.withSensors(sensors);
  }

  /** Noisier, and with limits close above the recipe. */
  private static RigDescription prepared(RigDescription given) {
    Limits near =
        new Limits(
            HIGH_K + LIMIT_ABOVE_K,
            given.unattended().ovenMaxK(),
            given.unattended().sealMaxK(),
            given.unattended().pressureMaxPa(),
            2 * RATE_K_PER_S,
            given.unattended().pulseMaxPa());
    return withNoise(given).withLimits(near, near);
  }

  private static StepCommon common(String title) {
    return new StepCommon(
        title, OptionalDouble.empty(), StepCommon.Presence.UNATTENDED, OptionalDouble.empty());
  }

  private Recipe recipe() {
    return OvenIdentification.nothingToDo(
        rig,
        new Step.Evacuate(common("Evacuate"), 1000),
        new Step.Ramp(common("Ramp"), LOW_K, RATE_K_PER_S),
        new Step.Soak(common("Soak"), LOW_K, 3600, BAND_K),
        new Step.Ramp(common("Ramp"), HIGH_K, RATE_K_PER_S),
        new Step.Soak(common("Soak"), HIGH_K, 3600, BAND_K),
        new Step.Soak(common("Exotherm"), HIGH_K, 5400, 1));
  }

  private static final int EXOTHERM = 5;

  Course byModel() {
    return byModel(RegulatorTuning.USUAL);
  }

  /** The same loop with another tuning. */
  Course byModel(RegulatorTuning tuning) {
    IdentifiedOven oven =
        IdentifiedOven.of(fit, rig.vessel().name(), Rehearsal.STARTED_AT.toLocalDate());
    return run(rig.withRegulation(rig.regulation().withModel(oven)), tuning);
  }

  /** A single loop on the sample, tuned at the middle of the range. */
  Course byPlainPid() {
    OvenModel m = fit.model();
    double middleK = (LOW_K + HIGH_K) / 2;
    double cube = middleK * middleK * middleK;
    double lossS = 1 / (m.lossPerS() + 4 * m.lossRadiationPerSK3() * cube);
    double[] lags = {
      lossS * (1 + m.vesselLoad()),
      m.vesselSecondsAt(middleK),
      m.sampleSecondsAt(middleK),
      m.elementS()
    };
    Arrays.sort(lags);
    Simc.Process process =
        Simc.secondOrder(
            m.heatingKPerS() * lossS, m.deadTimeS(), lags[3], lags[2], lags[1], lags[0]);
    Simc.Settings tuned = Simc.tune(process).ideal();
    return run(
        rig.withRegulation(
            new Regulation(
                Channel.SAMPLE_TEMPERATURE,
                tuned.gain(),
                tuned.integralS(),
                tuned.derivativeS(),
                1,
                rig.unattended().ovenMaxK())),
        RegulatorTuning.USUAL);
  }

  private Course run(RigDescription regulated, RegulatorTuning tuning) {
    SimulatedRig bench = new SimulatedRig(spec, regulated);
    Plan plan = Plan.of(recipe(), regulated, tuning);
    BenchRun run = new BenchRun(plan, new SimulatedBench(bench), ControlState.initial(plan));
    Watch watch = new Watch(bench);
    run.tick(List.of(new Request.Start("trial")));
    while (!run.state().phase().isFinal()
        && run.state().phase() != BatchState.HELD
        && run.millis() < DAY_S * 1000) {
      run.tick(List.of());
      watch.look(run, plan.rig().tickMillis() / 1000.0);
    }
    bench.close();
    return watch.course(run);
  }

  /** Looks at the plant after every tick. */
  private static final class Watch {
    private final SimulatedRig bench;
    private double straightK = Double.NaN;
    private double straightToK;
    private double overshootK;
    private double lagK;
    private double errorKS;
    private double heldBackS;
    private double limitedS;
    private double exothermK;
    private double heatedS;
    private double afterwardsK = Double.NaN;
    private double soakS;
    private int soakAt = -1;
    private long count;
    private double sum;
    private double squares;

    Watch(SimulatedRig bench) {
      this.bench = bench;
    }

    void look(BenchRun run, double tickS) {
      ControlState state = run.state();
      double sampleK = bench.truth().sampleK();
      if (state.setpointK() < 0) {
        return;
      }
      int at = state.stepPosition();
      Step step = at < 6 ? run.plan().recipe().steps().get(at) : null;
      if (Double.isNaN(straightK)) {
        straightK = sampleK;
      }
      if (step instanceof Step.Ramp ramp) {
        straightToK = ramp.toK();
        boolean heldBack = state.regulator().progress() < 0.999;
        heldBackS += heldBack ? tickS : 0;
        int perMille = state.outputs().heaterPerMille();
        boolean limited = perMille >= FULL_PER_MILLE || perMille <= 0;
        limitedS = limited ? LIMITED_FOR_S : limitedS - tickS;
        if (!heldBack && limitedS <= 0) {
          lagK = Math.max(lagK, Math.abs(state.setpointK() - sampleK));
        }
        overshootK = Math.max(overshootK, sampleK - ramp.toK());
      }
      double leftK = straightToK - straightK;
      straightK += Math.signum(leftK) * Math.min(Math.abs(leftK), RATE_K_PER_S * tickS);
      if (at < EXOTHERM) {
        errorKS += Math.abs(straightK - sampleK) * tickS;
      }
      if (step instanceof Step.Soak soak) {
        soak(at, soak, sampleK, tickS);
      }
    }

    private void soak(int at, Step.Soak soak, double sampleK, double tickS) {
      soakS = at == soakAt ? soakS + tickS : 0;
      soakAt = at;
      double offK = sampleK - soak.atK();
      if (at == EXOTHERM) {
        boolean heat = heatedS < HEAT_S;
        heatedS += tickS;
        bench.heatSample(heat ? HEAT_W : 0);
        exothermK = Math.max(exothermK, offK);
        afterwardsK = offK;
        return;
      }
      overshootK = Math.max(overshootK, offK);
      if (soakS > SETTLED_S) {
        count++;
        sum += offK;
        squares += offK * offK;
      }
    }

    Course course(BenchRun run) {
      double mean = sum / Math.max(1, count);
      boolean complete = run.state().phase() == BatchState.COMPLETE;
      return new Course(
          complete,
          overshootK,
          Math.sqrt(Math.max(0, squares / Math.max(1, count) - mean * mean)),
          lagK,
          errorKS,
          heldBackS,
          exothermK,
          complete && Math.abs(afterwardsK) < 1 && run.state().tally().trips() == 0,
          run.millis() / 3.6e6);
    }
  }
}
