package tarnish.controller.control;

import tarnish.shared.estimate.Estimate;

/**
 * The account of the gas: how much oxygen the solid has taken up.
 *
 * <p>While every valve is shut, what leaves the gas has gone into the solid (a leak apart). While
 * the oxygen valve is open and until the gauge has come to rest, uptake goes on unseen; it is
 * filled in with the rate measured just after, so that a pulse hides nothing. While any other valve
 * is open nothing is counted, and the account starts from a new baseline afterwards.
 *
 * <p>Immutable to everybody else: {@link #step} works on a copy.
 */
public final class GasAccount implements Cloneable {
  /** What the valves did in the last tick. */
  enum Window {
    EXCHANGING,
    ADMITTING,
    RESTING
  }

  /**
   * One tick's view of the gas.
   *
   * @param gasMol amount by pressure, volumes and temperatures
   * @param pressurePa measured pressure
   * @param randomMol standard deviation of {@code gasMol} from noise
   * @param leakMolPerS gas leaking in, by the leak test
   * @param tickS time since the last tick
   */
  record View(
      double gasMol, double pressurePa, double randomMol, double leakMolPerS, double tickS) {}

  static final GasAccount EMPTY = new GasAccount();

  /** Waiting for the gauge and for mixing after a valve shut, in s. */
  private static final double GAUGE_REST_S = 1.5;

  private static final double BASELINE_S = 5;
  private static final double RATE_AFTER_S = 15;
  private static final double FAST_S = 2;
  private static final double SLOW_S = 60;

  /** How far the baseline lies behind the filters when they set out from it, in s. */
  private static final double BASELINE_AGE_S = BASELINE_S / 2;

  /**
   * Variance of a baseline and of its end in that of one reading: 20 readings, and a 2 s filter.
   */
  private static final double VARIANCE_SHARE = 0.12;

  /** A leak rate from one leak test is known to about a half: common practice. */
  private static final double LEAK_RELATIVE_UNCERTAINTY = 0.5;

  /** What is filled in for unseen uptake may be as wrong as it is large where uptake fades fast. */
  private static final double FILLED_RELATIVE_UNCERTAINTY = 1;

  private Window window = Window.EXCHANGING;
  private double takenMol;
  private double baselineMol;
  private int baselineSamples;
  private double restS;
  private double unseenS;
  private double openS;
  private double fastMol;
  private double slowMol;
  private double rateMolPerS;
  private double lastRestMol;
  private double lastRestPa;
  private double leakInMol;
  private double leakTotalMol;
  private double filledTotalMol;
  private double variance;
  private boolean pulseOpen;
  private double beforeMol;
  private double beforePa;
  private int pulses;
  private double admittedMol;

  private GasAccount() {}

  /** The account after a tick in which the valves stood as {@code now} says. */
  GasAccount step(Window now, View view, TickWork work) {
    if (now == Window.EXCHANGING && window == Window.EXCHANGING) {
      return this;
    }
    GasAccount next = copy();
    if (now == Window.EXCHANGING) {
      next.closeInterval();
    } else if (now == Window.ADMITTING) {
      next.admit(view);
    } else {
      next.rest(view, work);
    }
    next.window = now;
    return next;
  }

  /** Oxygen taken up until now, in mol. */
  public double uptakeMol() {
    return takenMol + seenMol();
  }

  /**
   * Uptake rate by the last minute or so, in mol/s; negative when gas appears. While it is not
   * known after a pulse it is the rate before it.
   */
  double rateMolPerS() {
    return rateMolPerS;
  }

  /** Whether the rate was measured since a valve was last open. */
  boolean rateIsKnown() {
    return window == Window.RESTING && restS >= RATE_AFTER_S;
  }

  public int pulses() {
    return pulses;
  }

  /** Gas admitted by oxygen pulses, inert share included, in mol. */
  double admittedMol() {
    return admittedMol;
  }

  /**
   * Uptake since an earlier account of the same batch, with its standard uncertainty, in mol.
   *
   * @param gasGain relative standard uncertainty of an amount of gas
   */
  Estimate uptakeSince(GasAccount earlier, double gasGain) {
    double taken = uptakeMol() - earlier.uptakeMol();
    double systematic = gasGain * taken;
    double leak = LEAK_RELATIVE_UNCERTAINTY * (leakTotalMol - earlier.leakTotalMol);
    double filled = FILLED_RELATIVE_UNCERTAINTY * (filledTotalMol - earlier.filledTotalMol);
    double random = variance - earlier.variance;
    return new Estimate(
        taken, StrictMath.sqrt(systematic * systematic + leak * leak + filled * filled + random));
  }

  private double seenMol() {
    if (baselineSamples == 0) {
      return 0;
    }
    return baselineMol - restingMol() + leakInMol;
  }

  /** The gas now: the fast filter, corrected for its lag once the rate is known. */
  private double restingMol() {
    return rateIsKnown() ? fastMol - lagS(FAST_S) * rateMolPerS : fastMol;
  }

  /**
   * How far a filter lies behind the gas, in s. At a steady rate x' = (n - x)/T gives n - x = rate
   * (T + (A - T) exp(-t/T)), where A is the age of the baseline it set out from at t = 0. Without
   * this the rate would seem to rise from nothing after every pulse.
   */
  private double lagS(double timeConstantS) {
    double sinceS = restS - BASELINE_S;
    return timeConstantS
        + (BASELINE_AGE_S - timeConstantS) * StrictMath.exp(-sinceS / timeConstantS);
  }

  private void closeInterval() {
    double filled = unseenMol(rateMolPerS);
    takenMol += seenMol() + filled;
    filledTotalMol += filled;
    unseenS = 0;
    openS = 0;
    baselineSamples = 0;
    leakInMol = 0;
  }

  /**
   * Uptake that the gauge could not show: at the rate measured after it, and while the valve was
   * open at the mean of the rates before and after, for the new gas came in little by little.
   */
  private double unseenMol(double rateAfterMolPerS) {
    double after = StrictMath.max(0, rateAfterMolPerS);
    double before = StrictMath.max(0, rateMolPerS);
    return unseenS * after + openS * (before + after) / 2;
  }

  private void admit(View view) {
    if (window != Window.ADMITTING) {
      boolean rested = window == Window.RESTING;
      // The view already holds what the first tick of the pulse let in.
      double unsettledMol = rested ? lastRestMol : view.gasMol();
      beforeMol = baselineSamples > 0 ? restingMol() : unsettledMol;
      beforePa = rested ? lastRestPa : view.pressurePa();
      closeInterval();
      pulses++;
      pulseOpen = true;
    }
    openS += view.tickS();
    restS = -GAUGE_REST_S;
  }

  private void rest(View view, TickWork work) {
    if (window == Window.EXCHANGING) {
      restS = -GAUGE_REST_S;
      fastMol = view.gasMol();
      slowMol = view.gasMol();
      rateMolPerS = 0;
      pulseOpen = false;
    }
    lastRestMol = view.gasMol();
    lastRestPa = view.pressurePa();
    restS += view.tickS();
    if (restS < 0) {
      unseenS += view.tickS();
    } else if (restS <= BASELINE_S) {
      buildBaseline(view);
    } else {
      follow(view, work);
    }
  }

  private void buildBaseline(View view) {
    if (baselineSamples == 0) {
      baselineMol = view.gasMol();
      variance += VARIANCE_SHARE * view.randomMol() * view.randomMol();
      // The baseline stands for the middle of its span; uptake before that is still unseen.
      unseenS += view.tickS() + BASELINE_AGE_S;
    }
    baselineSamples++;
    baselineMol += (view.gasMol() - baselineMol) / baselineSamples;
    fastMol = baselineMol;
    slowMol = baselineMol;
  }

  private void follow(View view, TickWork work) {
    double tickS = view.tickS();
    fastMol += (view.gasMol() - fastMol) * tickS / (FAST_S + tickS);
    slowMol += (view.gasMol() - slowMol) * tickS / (SLOW_S + tickS);
    double leak = view.leakMolPerS() * tickS;
    leakInMol += leak;
    leakTotalMol += leak;
    if (unseenS > 0 && restS >= RATE_AFTER_S) {
      fillUnseen(view, work);
    }
    if (restS >= RATE_AFTER_S) {
      rateMolPerS = (slowMol - fastMol) / (lagS(SLOW_S) - lagS(FAST_S));
    }
  }

  private void fillUnseen(View view, TickWork work) {
    double rate = (baselineMol - fastMol) / (restS - BASELINE_AGE_S - lagS(FAST_S));
    double filled = unseenMol(rate);
    takenMol += filled;
    filledTotalMol += filled;
    unseenS = 0;
    openS = 0;
    if (pulseOpen) {
      pulseOpen = false;
      double pulseMol = baselineMol + filled - beforeMol;
      admittedMol += pulseMol;
      double uncertainty = StrictMath.hypot(work.plan.gasGain() * pulseMol, 0.5 * view.randomMol());
      work.event(
          new Event.PulseGiven(
              pulses, beforePa, view.pressurePa(), new Estimate(pulseMol, uncertainty)));
    }
  }

  private GasAccount copy() {
    try {
      return (GasAccount) clone();
    } catch (CloneNotSupportedException impossible) {
      throw new AssertionError(impossible);
    }
  }
}
