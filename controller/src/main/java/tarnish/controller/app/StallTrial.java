package tarnish.controller.app;

import java.util.List;
import java.util.OptionalDouble;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Report;
import tarnish.controller.control.Request;
import tarnish.controller.control.StallJudge;
import tarnish.controller.control.StallJudge.Cause;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.Step;
import tarnish.shared.recipe.StepCommon;
import tarnish.shared.rig.GasSource;
import tarnish.shared.rig.RigDescription;
import tarnish.sim.BenchSpec;
import tarnish.sim.Fault;
import tarnish.sim.SimulatedRig;
import tarnish.sim.SolidSpec;

/** A simulated batch that stalls for a cause that is known, and what the judge says of it. */
final class StallTrial {
  private static final double HOUR_S = 3600;
  private static final double ZERO_C = 273.15;
  private static final long MILLIS_MAX = 6L * 24 * 3600 * 1000;

  /** How long a stall goes on before the judge is asked for its last word. */
  private static final double WATCH_S = 1 * HOUR_S;

  /**
   * @param truth what really stopped it
   * @param found ranked causes; empty where no stall was seen
   * @param ended state of the batch at the end and why
   */
  record Result(long seed, Cause truth, List<StallJudge.Verdict> found, String ended) {
    boolean isRight() {
      return !found.isEmpty() && found.get(0).cause() == truth;
    }
  }

  private final LoadedFiles files;
  private final long seed;
  private final Cause truth;
  private final Chance chance;
  private double soakK;
  private double holdPa;
  private double faultAtS = Double.MAX_VALUE;
  private Fault fault;
  private double severity;

  private StallTrial(LoadedFiles files, long seed) {
    this.files = files;
    this.seed = seed;
    truth = Cause.values()[(int) Math.floorMod(seed, (long) Cause.values().length)];
    chance = new Chance(seed);
  }

  static Result run(LoadedFiles files, long seed) {
    return new StallTrial(files, seed).run();
  }

  private Result run() {
    holdPa = chance.between(75_000, 92_000);
    soakK = ZERO_C + chance.between(260, 310);
    RigDescription rig = truth == Cause.BLANKET ? leanRig() : files.rig();
    BenchSpec spec = solid(BenchSpec.drawn(rig, files.recipe(), seed));
    if (truth == Cause.COLD) {
      soakK = ZERO_C + chance.between(40, 140);
    }
    boolean warmer = truth == Cause.EQUILIBRIUM;
    Recipe recipe = recipe(rig, warmer);
    faults();
    Plan plan = Plan.of(recipe, rig);
    SimulatedRig bench = new SimulatedRig(spec, rig);
    BenchRun run = new BenchRun(plan, new SimulatedBench(bench), ControlState.initial(plan));
    List<StallJudge.Verdict> found = watch(run, bench);
    return new Result(
        seed,
        truth,
        found,
        run.state().phase().words()
            + ": "
            + run.state().phaseWhy()
            + " Doing: "
            + new Report(run.plan(), run.state())
                .steps().stream()
                    .map(Report.StepLine::doing)
                    .filter(d -> !d.isEmpty())
                    .findFirst()
                    .orElse("nothing")
            + ", after "
            + run.millis() / 3_600_000
            + " h.");
  }

  private List<StallJudge.Verdict> watch(BenchRun run, SimulatedRig bench) {
    List<StallJudge.Verdict> found = List.of();
    double stalledSinceS = Double.MAX_VALUE;
    while (!run.state().phase().isFinal() && run.millis() < MILLIS_MAX) {
      double nowS = run.millis() / 1000.0;
      if (nowS >= faultAtS) {
        bench.inject(fault, severity);
        faultAtS = Double.MAX_VALUE;
      }
      List<Request> requests =
          run.state().phase() == BatchState.IDLE
              ? List.of(new Request.Start("trial"))
              : run.state().presence().attended()
                  ? List.of()
                  : List.of(new Request.CheckIn("trial", 8));
      run.tick(requests);
      boolean held = run.state().phase() == BatchState.HELD;
      if (run.millis() % 60_000 == 0 || held) {
        List<StallJudge.Verdict> now =
            faultAtS == Double.MAX_VALUE || fault == null
                ? StallJudge.judge(run.plan(), run.state(), run.readings())
                : List.of();
        stalledSinceS = now.isEmpty() ? Double.MAX_VALUE : Math.min(stalledSinceS, nowS);
        found = now.isEmpty() ? found : now;
      }
      if (held || nowS - stalledSinceS > WATCH_S) {
        break;
      }
    }
    bench.close();
    return found;
  }

  private void faults() {
    if (truth == Cause.SOURCE) {
      fault = chance.happens(0.5) ? Fault.OXYGEN_SUPPLY_EMPTY : Fault.OXYGEN_VALVE_BLOCKED;
      severity = fault == Fault.OXYGEN_SUPPLY_EMPTY ? chance.between(0.6, 1) : 1;
      faultAtS = chance.between(4, 9) * HOUR_S;
    } else if (truth == Cause.LEAK) {
      fault = Fault.VESSEL_CRACKED;
      severity = chance.between(0.15, 1);
      faultAtS = chance.between(4, 9) * HOUR_S;
    }
  }

  private RigDescription leanRig() {
    RigDescription r = files.rig();
    GasSource o = r.oxygen();
    GasSource lean =
        new GasSource(
            o.name(),
            chance.between(0.25, 0.8),
            0.005,
            o.supplyPressurePa(),
            o.sonicConductance(),
            o.criticalRatio());
    return r.withOxygen(lean);
  }

  private BenchSpec solid(BenchSpec bench) {
    SolidSpec s = bench.solid();
    return bench.withSolid(s.withSteps(s.steps().stream().map(this::step).toList()));
  }

  private SolidSpec.OxideStep step(SolidSpec.OxideStep s) {
    double surface =
        switch (truth) {
          case COLD -> chance.between(0.002, 0.01);
          case BLANKET, LEAK, SOURCE -> 2;
          default -> 1;
        };
    double diffusion =
        switch (truth) {
          case FINISHED -> 12;
          case BLANKET, EQUILIBRIUM -> 6;
          case CRUSTED -> 4;
          default -> 1;
        };
    double closing = truth == Cause.CRUSTED ? chance.between(0.12, 0.5) : s.closingCrust();
    SolidSpec.Arrhenius equilibrium =
        truth == Cause.EQUILIBRIUM
            ? new SolidSpec.Arrhenius(holdPa * chance.between(0.95, 1.3), soakK + 60, 150e3)
            : s.equilibrium();
    return new SolidSpec.OxideStep(
        s.oxygenPerUnit(),
        times(s.surface(), surface),
        times(s.diffusion(), diffusion),
        closing,
        s.gasTransportPerS(),
        s.orderQuarters(),
        equilibrium,
        s.heatJPerMolO2());
  }

  private static SolidSpec.Arrhenius times(SolidSpec.Arrhenius law, double factor) {
    return new SolidSpec.Arrhenius(law.value() * factor, law.referenceK(), law.energyJPerMol());
  }

  private Recipe recipe(RigDescription rig, boolean warmer) {
    StepCommon plain = common(OptionalDouble.empty());
    StepCommon kept = common(OptionalDouble.of(holdPa));
    double rate = 3.0 / 60;
    List<Step> start =
        List.of(
            new Step.Evacuate(plain, 300),
            new Step.LeakTest(plain, 120, 600, 0.1),
            new Step.Dose(plain, 2000, 0.55 * holdPa, 100, 0.5, 0.5, 30, 1800),
            new Step.Ramp(kept, soakK, rate),
            new Step.Soak(kept, soakK, (warmer ? 2 : 100) * HOUR_S, 4));
    List<Step> steps = new java.util.ArrayList<>(start);
    if (warmer) {
      steps.add(new Step.Ramp(kept, soakK + 60, rate));
      steps.add(new Step.Soak(kept, soakK + 60, 20 * HOUR_S, 4));
    }
    Recipe r = files.recipe();
    return new Recipe(
        "Stall " + truth.words(),
        true,
        r.charge(),
        r.chargeMolarMassKgPerMol(),
        r.series(),
        r.target(),
        r.activationEnergyJPerMol(),
        r.reactionEnthalpyJPerMolO2(),
        r.vesselName(),
        rig.oxygen().name(),
        steps,
        List.of());
  }

  private static StepCommon common(OptionalDouble hold) {
    return new StepCommon("step", hold, StepCommon.Presence.UNATTENDED, OptionalDouble.empty());
  }
}
