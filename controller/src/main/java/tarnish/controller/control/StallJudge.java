package tarnish.controller.control;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.recipe.Step;

/**
 * Says why uptake has stopped: causes ranked by rules on the evidence, each with what speaks for it
 * and what to do. The rules are common practice, tried on simulated stalls; they advise, and
 * nothing acts on them.
 */
public final class StallJudge {
  /** A cause of a standstill. */
  public enum Cause {
    FINISHED("finished", "End the batch: cool and weigh."),
    SOURCE("source empty or valve not passing", "Check bottle, regulator and valve, then reset."),
    LEAK("a leak hides the uptake", "Cool and repeat the leak test; look at seal and clamps."),
    BLANKET("blanketed by inert gas", "Evacuate and refill with fresh oxygen."),
    EQUILIBRIUM("pressure near equilibrium", "Lower the temperature or raise the oxygen pressure."),
    CRUSTED("crusted over", "Cool, open under inert gas and grind; then go on."),
    COLD("too cold", "Go on heating: raise the soak.");

    private final String words;
    private final String act;

    Cause(String words, String act) {
      this.words = words;
      this.act = act;
    }

    public String words() {
      return words;
    }

    public String act() {
      return act;
    }
  }

  /**
   * A cause with its weight among all, 0 to 1.
   *
   * @param cause what may be so
   * @param weight share of the belief; the weights of all causes add up to 1
   * @param evidence for it, in words and numbers
   */
  public record Verdict(Cause cause, double weight, String evidence) {}

  /** Uptake that would need longer than this for what is missing counts as none: 200 h. */
  private static final double HOPELESS_S = 200 * 3600.0;

  private static final double DEVIATIONS = 3;
  private static final double TINY = 0.02;

  /** Share of the gas by which a model of its temperature may be wrong while it is heated. */
  private static final double HEATED_SHARE = 0.03;

  private final Plan plan;
  private final ControlState state;
  private final Readings readings;
  private final UptakeLog log;
  private final UptakeLog.Course course;
  private final Estimate conversion;
  private final double rate;
  private final double rateUncertainty;
  private final double pressurePa;
  private final double sampleK;

  private StallJudge(Plan plan, ControlState state, Readings readings) {
    this.plan = plan;
    this.state = state;
    this.readings = readings;
    log = state.log();
    course = log.course();
    conversion =
        state.composition().now(state.gas()).times(1 / plan.recipe().target().oxygenPerUnit());
    rate = log.window().rateMolPerS();
    rateUncertainty = rateUncertainty();
    pressurePa = readings.valueOr(Channel.VESSEL_PRESSURE, 0);
    sampleK = readings.valueOr(Channel.SAMPLE_TEMPERATURE, 0);
  }

  /** Causes, likeliest first; empty while uptake goes on or nothing can be said yet. */
  public static List<Verdict> judge(Plan plan, ControlState state, Readings readings) {
    StallJudge judge = new StallJudge(plan, state, readings);
    return judge.isStalled() ? judge.ranked() : List.of();
  }

  private double rateUncertainty() {
    double spanS = StrictMath.max(1, log.window().spanS());
    double steps = (2 + log.window().pulsesGiven()) * state.gas().stepVariance();
    return StrictMath.hypot(
        StrictMath.sqrt(steps) / spanS,
        state
            .leak()
            .uncertaintyMolPerS(
                readings.valueOr(Channel.VESSEL_PRESSURE, 0), plan.rig().roomPressurePa()));
  }

  /** Rows of the interlock table that hold the batch and tell of a source that gives nothing. */
  private static final List<String> SOURCE_ROWS =
      List.of(InterlockTable.NO_PRESSURE_STEP, "oxygen supply empty");

  /** Rows that tell of gas where none should be: a leak, or oxygen that the solid gives back. */
  private static final List<String> GAS_ROWS =
      List.of(InterlockTable.GAS_COMES_IN, "supply valve passes", "vessel leaks");

  /** Rows that a large leak raises too. */
  private static final List<String> LEAK_ROWS =
      List.of("pump fails", InterlockTable.LEAK_TEST_FAILED);

  /** The first of these rows that is up, with what it says; empty where none is. */
  private Optional<String> raised(List<String> rows) {
    return rows.stream()
        .filter(
            id -> {
              int row = AlarmBoard.indexOf(id, plan.interlocks());
              return row >= 0 && state.alarms().state(row) != AlarmState.NORMAL;
            })
        .findFirst();
  }

  private static String because(Optional<String> row) {
    return row.map(id -> "; the interlock '" + id + "' has come").orElse("");
  }

  private boolean isStalled() {
    if (raised(SOURCE_ROWS).isPresent()
        || raised(GAS_ROWS).isPresent()
        || raised(LEAK_ROWS).isPresent()) {
      return true;
    }
    if (!(state.run() instanceof SoakRun) || !log.window().isFull()) {
      return false;
    }
    double hopeless = StrictMath.max(0.05, 1 - conversion.value()) * neededMol() / HOPELESS_S;
    return rate < StrictMath.max(DEVIATIONS * rateUncertainty, hopeless);
  }

  private double neededMol() {
    return state.composition().amountMol() * plan.recipe().target().oxygenPerUnit() / 2;
  }

  private List<Verdict> ranked() {
    List<Verdict> raw = new ArrayList<>();
    for (Cause cause : Cause.values()) {
      raw.add(weigh(cause));
    }
    double sum = raw.stream().mapToDouble(Verdict::weight).sum();
    return raw.stream()
        .map(v -> new Verdict(v.cause(), v.weight() / sum, v.evidence()))
        .sorted(Comparator.comparingDouble(Verdict::weight).reversed())
        .toList();
  }

  private Verdict weigh(Cause cause) {
    return switch (cause) {
      case FINISHED -> finished();
      case SOURCE -> source();
      case LEAK -> leak();
      case BLANKET -> blanket();
      case EQUILIBRIUM -> equilibrium();
      case CRUSTED -> crusted();
      case COLD -> cold();
    };
  }

  private Verdict finished() {
    double missing =
        (1 - conversion.value()) / StrictMath.max(1e-6, conversion.standardUncertainty());
    // Nothing else stops uptake just there.
    double weight = missing < 2 ? 20 : missing < 3 ? 8 : missing < 3.5 ? 2 : TINY;
    return new Verdict(
        Cause.FINISHED,
        weight,
        "conversion " + Words.estimate(conversion) + "; 1 is all that the target can hold");
  }

  private Verdict source() {
    double supplyPa =
        readings.valueOr(Channel.SUPPLY_PRESSURE, state.gas().source().supplyPressurePa());
    double wantedPa = wantedPa();
    boolean low =
        supplyPa < pressurePa + 5_000 || supplyPa < 0.6 * state.gas().source().supplyPressurePa();
    boolean notKept = wantedPa > 0 && pressurePa < 0.93 * wantedPa;
    Optional<String> row = raised(SOURCE_ROWS);
    double weight = row.isPresent() ? 50 : low && notKept ? 30 : low || notKept ? 3 : TINY;
    return new Verdict(
        Cause.SOURCE,
        weight,
        "supply at "
            + Words.pressure(supplyPa)
            + ", vessel at "
            + Words.pressure(pressurePa)
            + (wantedPa > 0 ? " of " + Words.pressure(wantedPa) + " wanted" : "")
            + because(row));
  }

  private Verdict leak() {
    double roomPa = readings.valueOr(Channel.ROOM_PRESSURE, plan.rig().roomPressurePa());
    double wantedPa = wantedPa();
    boolean aboveWanted = wantedPa > 0 && pressurePa > 1.012 * wantedPa;
    boolean atRoom = StrictMath.abs(pressurePa - roomPa) < 0.015 * roomPa;
    double weight = TINY;
    Optional<String> row = raised(GAS_ROWS).or(() -> raised(LEAK_ROWS));
    if (row.isPresent()) {
      weight = gaveBack() ? 5 : 50;
    } else if (appeared() && !heatedBefore()) {
      weight = aboveWanted ? 12 : 6;
    } else if (atRoom && aboveWanted && !heatedBefore()) {
      weight = 3;
    } else if (course.steepestFall() > 0.8) {
      weight = 0.6;
    }
    return new Verdict(
        Cause.LEAK,
        weight,
        "gas appeared with every valve shut: "
            + Words.amount(new Estimate(course.backMol(), noiseMol()))
            + "; vessel at "
            + Words.pressure(pressurePa)
            + ", room at "
            + Words.pressure(roomPa)
            + "; rate fell by "
            + share(StrictMath.min(1, course.steepestFall()))
            + " within ten minutes"
            + because(row));
  }

  private Verdict blanket() {
    Estimate fraction = state.gas().oxygenFraction();
    double relative =
        fraction.value() / StrictMath.max(0.01, state.gas().source().oxygenFraction());
    double oxygenPa = fraction.value() * pressurePa;
    double weight = relative < 0.15 ? 15 : relative < 0.35 ? 5 : relative < 0.5 ? 0.5 : TINY;
    return new Verdict(
        Cause.BLANKET,
        weight,
        "oxygen is "
            + Words.percent(fraction)
            + " of the gas, "
            + Words.pressure(oxygenPa)
            + " of it; the source has "
            + share(state.gas().source().oxygenFraction()));
  }

  private Verdict equilibrium() {
    boolean onHeating = course.heatedBackMol() > HEATED_SHARE * state.gas().gasMol();
    boolean then = appeared() && heatedBefore();
    boolean stoppedByHeat = course.takingK() > 0 && course.takingK() < sampleK - 15;
    Optional<String> row = raised(GAS_ROWS);
    // A crust is passed faster when it is hot; what stands still then is held by its pressure.
    double standing = rate < 2 * rateUncertainty ? 5 : 1.5;
    double weight =
        row.isPresent() && gaveBack()
            ? 50
            : (onHeating || then) && stoppedByHeat
                ? 40
                : then ? 12 : stoppedByHeat ? standing : TINY;
    return new Verdict(
        Cause.EQUILIBRIUM,
        weight,
        (course.takingK() > 0
                ? "oxygen was last clearly taken up at "
                    + Words.temperature(course.takingK())
                    + ", now it is "
                    + Words.temperature(sampleK)
                : "no uptake was clearly seen")
            + "; on heating "
            + Words.amount(new Estimate(course.heatedBackMol(), 10 * noiseMol()))
            + " came back, and "
            + Words.amount(new Estimate(course.backMol(), noiseMol()))
            + " after it"
            + (gaveBack() ? because(row) : ""));
  }

  private Verdict crusted() {
    double grown = grownShare();
    boolean slowed = course.peakMolPerS() > 4 * StrictMath.max(rate, rateUncertainty);
    double weight = grown > 0.04 && slowed ? 2.5 : grown > 0.02 && slowed ? 0.8 : 0.05;
    return new Verdict(
        Cause.CRUSTED,
        weight,
        share(grown)
            + " of the charge reacted since the vessel was closed, fastest at "
            + Words.temperature(course.peakK())
            + "; the rate is now "
            + share(rate / StrictMath.max(1e-12, course.peakMolPerS()))
            + " of that");
  }

  private Verdict cold() {
    double grown = grownShare();
    double weight = grown < 0.01 ? 2.5 : grown < 0.03 ? 1 : 0.1;
    double top = plan.topSoakK();
    if (top > sampleK + 20) {
      weight *= 2;
    }
    return new Verdict(
        Cause.COLD,
        weight,
        "only "
            + share(grown)
            + " of the charge reacted since the vessel was closed, at up to "
            + Words.temperature(sampleK)
            + "; no crust explains it");
  }

  private double grownShare() {
    return StrictMath.max(0, state.gas().uptakeMol() - course.startMol()) / neededMol();
  }

  private double noiseMol() {
    return 3 * StrictMath.sqrt(state.gas().stepVariance());
  }

  private boolean appeared() {
    return course.backMol() > 10 * noiseMol();
  }

  /** Whether gas that came in may be oxygen given back: it was heated since it was taken up. */
  private boolean gaveBack() {
    return course.takingK() > 0 && course.takingK() < sampleK - 15;
  }

  /** Gas that appears after heating comes from the solid; a leak does not wait for the oven. */
  private boolean heatedBefore() {
    double sinceK = course.backMol() > 0 ? course.backK() : sampleK;
    return course.takingK() > 0 && course.takingK() < sinceK - 15;
  }

  private double wantedPa() {
    Instruction.Do doing =
        plan.program().at(StrictMath.min(state.cursor().position(), plan.program().size() - 1))
                instanceof Instruction.Do found
            ? found
            : null;
    Step step = doing == null ? null : doing.step();
    return step == null ? 0 : step.common().holdPressurePa().orElse(0);
  }

  private static String share(double value) {
    return String.format(Locale.ROOT, "%.1f %%", 100 * value);
  }
}
