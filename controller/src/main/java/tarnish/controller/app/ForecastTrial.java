package tarnish.controller.app;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Request;
import tarnish.controller.control.SoakForecast;
import tarnish.shared.kinetics.Forecast;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.RepeatUntil;
import tarnish.shared.recipe.Step;
import tarnish.shared.recipe.StepCommon;
import tarnish.sim.BenchSpec;
import tarnish.sim.SimulatedRig;

/**
 * One simulated soak at a temperature and to a conversion that are drawn, whose true end is known
 * afterwards, and what the forecast said when half of that time was over.
 */
final class ForecastTrial {
  private static final double HOUR_S = 3600;
  private static final double ZERO_C = 273.15;
  private static final double SOAK_MAX_S = 120 * HOUR_S;
  private static final double LOOK_EVERY_S = 300;

  /** A soak that is over sooner than this needs no forecast. */
  private static final double SHORTEST_S = 1 * HOUR_S;

  /**
   * @param soakC temperature of the soak
   * @param wanted conversion
   * @param endS true time in the band until it was reached; NaN where it was not, or too soon
   * @param half what was forecast half-way
   */
  record Result(long seed, double soakC, double wanted, double endS, Forecast half) {
    boolean ended() {
      return endS >= SHORTEST_S;
    }

    boolean isForecast() {
      return ended() && half instanceof Forecast.At;
    }

    boolean covered() {
      return isForecast()
          && half instanceof Forecast.At at
          && at.fromS() <= endS
          && endS <= at.toS();
    }

    double relativeError() {
      return half instanceof Forecast.At at ? at.timeS() / endS - 1 : Double.NaN;
    }
  }

  private record Look(double soakS, Forecast forecast) {}

  private ForecastTrial() {}

  static Result run(LoadedFiles files, long seed) {
    Chance chance = new Chance(seed);
    double soakC = chance.between(230, 310);
    double wanted = chance.between(0.5, 0.95);
    Recipe recipe = recipe(files.recipe(), ZERO_C + soakC, wanted);
    Plan plan = Plan.of(recipe, files.rig());
    BenchSpec spec = BenchSpec.drawn(files.rig(), files.recipe(), seed);
    SimulatedRig bench = new SimulatedRig(spec, files.rig());
    BenchRun run = new BenchRun(plan, new SimulatedBench(bench), ControlState.initial(plan));
    List<Look> looks = new ArrayList<>();
    double endS = Double.NaN;
    double nextS = 0;
    while (!run.state().phase().isFinal() && run.state().phase() != BatchState.HELD) {
      run.tick(requests(run.state()));
      double nowS = run.millis() / 1000.0;
      if (nowS < nextS) {
        continue;
      }
      nextS = nowS + LOOK_EVERY_S;
      SoakForecast now = SoakForecast.of(plan, run.state());
      double true1 = bench.truth().oxygenPerUnit() / recipe.target().oxygenPerUnit();
      if (now.soakS() > 0) {
        looks.add(new Look(now.soakS(), now.forecast()));
      }
      if (true1 >= wanted || now.soakS() > SOAK_MAX_S) {
        endS = true1 >= wanted && now.soakS() > 0 ? now.soakS() : Double.NaN;
        break;
      }
    }
    bench.close();
    return new Result(seed, soakC, wanted, endS, halfWay(looks, endS));
  }

  private static Forecast halfWay(List<Look> looks, double endS) {
    Forecast half = Forecast.noForecast("there was no half-way");
    for (Look look : looks) {
      if (look.soakS() <= endS / 2) {
        half = look.forecast();
      }
    }
    return half;
  }

  private static List<Request> requests(ControlState state) {
    if (state.phase() == BatchState.IDLE) {
      return List.of(new Request.Start("trial"));
    }
    return state.presence().attended() ? List.of() : List.of(new Request.CheckIn("trial", 8));
  }

  private static Recipe recipe(Recipe r, double soakK, double wanted) {
    StepCommon plain = common(OptionalDouble.empty());
    StepCommon kept = common(OptionalDouble.of(85_000));
    Step.Soak soak = new Step.Soak(kept, soakK, 2 * SOAK_MAX_S, 4);
    List<Step> steps =
        List.of(
            new Step.Evacuate(plain, 300),
            new Step.LeakTest(plain, 120, 600, 0.1),
            new Step.Dose(plain, 2000, 50_000, 100, 0.5, 0.5, 30, 1800),
            new Step.Ramp(kept, soakK, 3.0 / 60),
            new Step.Repeat(plain, 2, new RepeatUntil.ConversionAtLeast(wanted), List.of(soak)));
    return new Recipe(
        "Forecast trial",
        true,
        r.charge(),
        r.chargeMolarMassKgPerMol(),
        r.series(),
        r.target(),
        r.activationEnergyJPerMol(),
        r.reactionEnthalpyJPerMolO2(),
        r.vesselName(),
        r.oxygenSourceName(),
        steps,
        List.of());
  }

  private static StepCommon common(OptionalDouble hold) {
    return new StepCommon("step", hold, StepCommon.Presence.UNATTENDED, OptionalDouble.empty());
  }
}
