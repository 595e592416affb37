package tarnish.controller.app;

import java.util.List;
import java.util.OptionalDouble;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Request;
import tarnish.shared.recipe.Charge;
import tarnish.shared.recipe.OxideMember;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.RepeatUntil;
import tarnish.shared.recipe.Step;
import tarnish.shared.recipe.StepCommon;
import tarnish.shared.rig.RigDescription;
import tarnish.sim.BenchSpec;
import tarnish.sim.SimulatedRig;
import tarnish.sim.SolidSpec;
import tarnish.sim.SolidSpec.Arrhenius;
import tarnish.sim.SolidSpec.OxideStep;

/**
 * One invented charge of a fine metal powder that takes up oxygen at room temperature, dosed once
 * by planned pulses and once by pulses of one size, chosen so that both warm it to the same peak.
 * Mass, heat, rate laws, bench and sensors are drawn from the seed; the recipe knows the heat to
 * within 10 %.
 */
final class DoseTrial {
  private static final double UPTAKE_SHARE = 0.95;
  private static final long MILLIS_MAX = 6L * 24 * 3600 * 1000;
  private static final double TO_PA = 70_000;
  private static final double LEAST_PA = 100;
  private static final int SIZES_TRIED = 5;
  private static final double FIRST_TRIED_PA = 400;

  /** Peaks count as the same within this, relative. */
  private static final double SAME_PEAK = 0.05;

  private final RigDescription rig;
  private final double riseK;
  private final double massKg;
  private final double statedHeatJPerMol;
  private final BenchSpec spec;

  /**
   * How a dosed charge went; from the plant itself, not from readings.
   *
   * @param hours until it had taken up 95 % of what it can
   * @param peakK greatest rise of the sample above where dosing began
   * @param pulses given
   * @param complete whether it came so far
   * @param trips of interlocks
   */
  record Course(double hours, double peakK, int pulses, boolean complete, int trips) {}

  /** Both ways with one charge; {@code fixedPa} is the size of the pulses of one size. */
  record Pair(Course planned, Course fixed, double fixedPa) {
    double ratio() {
      return planned.hours() / fixed.hours();
    }
  }

  /**
   * @param riseK rise of the sample that the plan may use
   */
  DoseTrial(RigDescription rig, double riseK, long seed) {
    Chance chance = new Chance(seed);
    this.rig = rig;
    this.riseK = riseK;
    massKg = chance.between(1e-3, 4e-3);
    double heatJPerMol = chance.between(200e3, 500e3);
    statedHeatJPerMol = -heatJPerMol * chance.between(0.9, 1.1);
    OxideStep law =
        new OxideStep(
            1,
            new Arrhenius(3e-3 * Math.pow(10, chance.between(0, 1)), 298.15, 25e3),
            new Arrhenius(3e-5 * Math.pow(10, chance.between(0, 1)), 298.15, 35e3),
            0,
            0.05,
            2,
            new Arrhenius(0, 1000, 0),
            heatJPerMol);
    BenchSpec drawn = BenchSpec.drawn(rig, recipe(planned()), seed);
    SolidSpec solid = drawn.solid();
    spec = drawn.withSolid(solid.withSteps(List.of(law)));
  }

  private static StepCommon common(String title) {
    return new StepCommon(
        title, OptionalDouble.empty(), StepCommon.Presence.UNATTENDED, OptionalDouble.empty());
  }

  /** Settled as the demonstration recipes want it: 0.5 K and 0.3 mbar/min. */
  private Step.Dose fixed(double stepPa) {
    return new Step.Dose(common("Dose"), stepPa, TO_PA, 100_000, 0.5, 0.5, 30, 86_400);
  }

  private Step.Dose planned() {
    double largestPa = rig.unattended().pulseMaxPa();
    return fixed(largestPa).planned(largestPa, riseK);
  }

  private Recipe recipe(Step.Dose dose) {
    OxideMember metal = new OxideMember("Ni", 0);
    OxideMember oxide = new OxideMember("NiO", 1);
    return new Recipe(
        "A fine metal powder, invented",
        true,
        new Charge("Ni", massKg, 1e-6),
        0.0586934,
        List.of(metal, oxide),
        oxide,
        OptionalDouble.empty(),
        OptionalDouble.of(statedHeatJPerMol),
        rig.vessel().name(),
        rig.oxygen().name(),
        List.of(
            new Step.Evacuate(common("Evacuate"), 500),
            new Step.Repeat(
                common("Until it is oxidised"),
                10_000,
                new RepeatUntil.ConversionAtLeast(0.99),
                List.of(dose))),
        List.of());
  }

  Course byPlan() {
    return run(planned());
  }

  Course byPulsesOf(double stepPa) {
    return run(fixed(stepPa));
  }

  /** Planned first; then the size of fixed pulse is sought that peaks as high. */
  Pair run() {
    Course plan = byPlan();
    double sizePa = FIRST_TRIED_PA;
    Course best = byPulsesOf(sizePa);
    for (int i = 1; i < SIZES_TRIED && !alike(best, plan); i++) {
      double factor = best.complete() ? plan.peakK() / best.peakK() : 0.5;
      double nextPa = Math.max(LEAST_PA, Math.min(rig.unattended().pulseMaxPa(), factor * sizePa));
      if (nextPa == sizePa) {
        break; // The smallest pulse warms it more, or the largest less.
      }
      sizePa = nextPa;
      best = byPulsesOf(sizePa);
    }
    return new Pair(plan, best, sizePa);
  }

  private static boolean alike(Course one, Course other) {
    return one.complete() && Math.abs(one.peakK() - other.peakK()) <= SAME_PEAK * other.peakK();
  }

  private Course run(Step.Dose dose) {
    SimulatedRig bench = new SimulatedRig(spec, rig);
    Plan plan = Plan.of(recipe(dose), rig);
    BenchRun run = new BenchRun(plan, new SimulatedBench(bench), ControlState.initial(plan));
    run.tick(List.of(new Request.Start("trial")));
    double wantedMol = UPTAKE_SHARE * spec.solid().unitsMol() / 2;
    double beganS = 0;
    double restK = 0;
    double peakK = 0;
    while (bench.truth().uptakeMol() < wantedMol
        && run.state().phase() == BatchState.RUNNING
        && run.millis() < MILLIS_MAX) {
      run.tick(List.of());
      double sampleK = bench.truth().sampleK();
      if (run.state().gas().pulses() == 0) {
        restK = sampleK;
        beganS = run.millis() / 1000.0;
      }
      peakK = Math.max(peakK, sampleK - restK);
    }
    boolean complete = bench.truth().uptakeMol() >= wantedMol;
    bench.close();
    return new Course(
        (run.millis() / 1000.0 - beganS) / 3600,
        peakK,
        run.state().gas().pulses(),
        complete,
        run.state().tally().trips());
  }
}
