package tarnish.controller.control;

import tarnish.shared.estimate.Estimate;
import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.rig.GasSource;
import tarnish.shared.rig.RigDescription;

/**
 * The account of the gas: how much oxygen the solid has taken up.
 *
 * <p>While every valve is shut, what leaves the gas has gone into the solid (a leak apart). While
 * the oxygen valve is open and until the gauge has come to rest, uptake goes on unseen; slow uptake
 * is filled in with the rate measured just after, fast uptake shows as gas that the valve passed
 * and the gauge never saw ({@link ValveFlow}). While any other valve is open nothing is counted,
 * and the account starts from a new baseline afterwards.
 *
 * <p>The uptake is a sum of differences of amounts. Each systematic error (see {@link GasModel}) is
 * carried through the same sum, so that what cancels is not counted and what adds up is.
 *
 * <p>Immutable to everybody else: {@link #step} works on a copy, and arrays are replaced. The copy
 * of a tick in which nothing is booked shares its books.
 */
public final class GasAccount implements Cloneable {
  /** What the valves did in the last tick. */
  enum Window {
    EXCHANGING,
    ADMITTING,
    RESTING
  }

  /**
   * Uptake since an earlier account, with its errors kept apart.
   *
   * @param mol uptake in mol
   * @param errors what one standard deviation of each error of {@link GasModel} does to it, in mol
   * @param variance of what is random, in mol²
   */
  record Change(double mol, double[] errors, double variance) {
    double standardUncertainty() {
      double sum = variance;
      for (double error : errors) {
        sum += error * error;
      }
      return StrictMath.sqrt(sum);
    }
  }

  /** Waiting for the gauge and for mixing after a valve shut, in s. */
  private static final double GAUGE_REST_S = 1.5;

  private static final double BASELINE_S = 5;

  /** How far the baseline lies behind the filters when they set out from it, in s. */
  private static final double BASELINE_AGE_S = BASELINE_S / 2;

  private static final double RATE_AFTER_S = 15;
  private static final double FAST_S = 2;
  private static final double SLOW_S = 60;

  /** After so many time constants what a filter set out from is less than the rounding. */
  private static final double FORGOTTEN = 40;

  /**
   * Variance of a step or an interval in that of one reading: baseline of 20 readings, 2 s filter
   * at the end, and the rate that fills in the unseen seconds.
   */
  private static final double VARIANCE_SHARE = 0.2;

  /**
   * What is filled in is wrong by about this share, and by half of what it would change if the rate
   * before the pulse had gone on: uptake that has just changed may be changing still.
   */
  private static final double FILLED_UNCERTAINTY = 0.05;

  /** Sample within this of the room counts as cold: the valve is learnt there. */
  private static final double COLD_K = 60;

  /** Below this the gauge does not tell how much gas there is, in Pa. */
  private static final double NEARLY_EMPTY_PA = 100;

  private static final double ZERO_FILTER_S = 1;
  private static final double ZERO_TREND_S = 4;

  /** A pump's ultimate pressure is known to this, relative: common practice. */
  static final double ULTIMATE_UNCERTAINTY = 0.3;

  /** Settled to this, in Pa, before the gauge's zero is believed. */
  private static final double ZERO_SETTLED_PA = 5;

  private static final double ZERO_CREDIBLE = 4;

  /** A recount of hidden uptake by more standard uncertainties than this is told, from 5 umol. */
  private static final double RECOUNTED = 1;

  /** Pulses further apart than this do not tell of each other's heat, in s. */
  private static final double APART_S = 7200;

  /** What only changes when a valve moves; shared by the accounts of a gas that rests. */
  private GasBooks books;

  private double restS;
  private double fastMol;
  private double slowMol;
  private double rateMolPerS;
  private double lastRestPa;
  private double leakInMol;
  private double leakTotalMol;
  private double leakErrorMol;
  private double gasMol;
  private double pressurePa;
  private double sureAgeS;
  private GasModel.Heat heat = new GasModel.Heat(295, 295, 295);
  private GasMixture mixture = GasMixture.UNKNOWN;
  private GasDoubt doubt = GasDoubt.NONE;

  private GasAccount(GasModel model, GasSource source) {
    books = new GasBooks(model, source);
  }

  static GasAccount empty(GasModel model, GasSource source) {
    return new GasAccount(model, source);
  }

  /** The account after a tick in which the valves stood as {@code now} says. */
  GasAccount step(Window now, GasView view, TickWork work) {
    return staysAtRest(now, view, work) ? rested(view, work) : moved(now, view, work);
  }

  /** True in most ticks of a batch: nothing is to be booked. */
  private boolean staysAtRest(Window now, GasView view, TickWork work) {
    double nextRestS = restS + view.tickS();
    return now == Window.RESTING
        && books.window == Window.RESTING
        && nextRestS > BASELINE_S
        && !(books.unseenS > 0 && nextRestS >= RATE_AFTER_S)
        && !doubt.holds()
        && !books.vessel.isOpen()
        && !OpenVessel.isSaidOpen(work);
  }

  /** Nothing in here may write to the books: they are not a copy. */
  private GasAccount rested(GasView view, TickWork work) {
    GasAccount next = withSameBooks();
    next.sureAgeS += view.tickS();
    next.look(view);
    next.rest(view, work);
    next.mixture = next.mixed(Window.RESTING, view, gasMol, work);
    return next;
  }

  private GasAccount moved(Window now, GasView view, TickWork work) {
    GasAccount next = copy();
    next.sureAgeS += view.tickS();
    if (doubt.holds()) {
      next.doubt = doubt.over();
      next.sure(doubt.sureMolPerS());
    }
    if (now != books.window && now != Window.RESTING) {
      // Before the new view, which already holds what the first tick let in or out.
      next.leaveRest();
    }
    next.look(view);
    if (now == Window.EXCHANGING) {
      if (books.window != Window.EXCHANGING) {
        next.books.exchangeFrom = gas();
        next.books.exchanges++;
      }
      next.exchange(view, gasMol);
    } else {
      if (books.window == Window.EXCHANGING) {
        next.endExchange(work);
      }
      if (now == Window.ADMITTING) {
        next.admit(view, work);
      } else {
        next.rest(view, work);
      }
    }
    next.mixture = next.mixed(now, view, gasMol, work);
    next.books.window = now;
    next.watchOpening(work);
    return next;
  }

  private void watchOpening(TickWork work) {
    boolean saidOpen = OpenVessel.isSaidOpen(work);
    if (!saidOpen && !books.vessel.isOpen()) {
      return;
    }
    OpenVessel before = books.vessel;
    HeatBalance balance = work.heat.balance();
    Estimate a =
        books.valve.pulses() > 0
            ? books.valve.fit().oxygenPerHeat()
            : balance.molPerKelvinSecond(work.plan);
    books.vessel = before.step(saidOpen, balance.integralKs(), balance.integralUncertaintyKs(), a);
    if (books.vessel.isOpen()) {
      books.takenMol += books.vessel.mol() - before.mol();
      books.awayErrorMol += books.vessel.errorMol() - before.errorMol();
    } else if (before.isClear()) {
      work.event(new Event.Advisory(before.sentence()));
    }
  }

  /**
   * The account after a tick in which the signs say that gas comes or goes past the valves: nothing
   * is counted, and what was since the last sure moment is taken back. What the solid takes up
   * meanwhile is not known, and the uncertainty says so.
   *
   * @param mostMolPerS that the oxygen valve passes when it is open
   */
  GasAccount doubted(GasView view, double mostMolPerS, double capacityMol, TickWork work) {
    GasAccount next = copy();
    if (!doubt.holds()) {
      next.takeBack(work);
    }
    next.look(view);
    double forS = next.sureAgeS + view.tickS();
    next.sureAgeS = 0;
    next.doubt = next.doubt.longer(forS, mostMolPerS, next.pressurePa, capacityMol);
    next.books.awayErrorMol += next.doubt.errorMol() - doubt.errorMol();
    if (view.pumping() || view.venting() || view.inert() > 0 || mixture.inertMol() < 0) {
      next.mixture = next.mixed(Window.EXCHANGING, view, gasMol, work);
      next.doubt = next.doubt.begun(next.gasMol, next.mixture);
    } else {
      next.mixture = next.doubt.mixture(next.gasMol, books.model.amountMol(NEARLY_EMPTY_PA, heat));
    }
    return next;
  }

  private void takeBack(TickWork work) {
    if (books.pulseOpen) {
      books.admittedMol += gasMol - books.beforeMol;
    }
    double backMol = doubt.sureMol() - seenUptakeMol();
    work.event(new Event.Advisory(GasDoubt.sentence(backMol, sureAgeS)));
    books.takenMol = doubt.sureMol();
    books.settled = doubt.sureErrors().clone();
    books.unseenS = 0;
    books.openS = 0;
    books.pulseOpen = false;
    books.baselineSamples = 0;
    leakInMol = 0;
    rateMolPerS = 0;
    books.zeroSlowPa = 0;
    books.window = Window.EXCHANGING;
    books.exchangeFrom = gas();
    doubt = doubt.begun(gasMol, mixture);
  }

  private void sure(double atMolPerS) {
    doubt = doubt.sure(seenUptakeMol(), errorsNow(), atMolPerS, pressurePa, books.stepVariance);
    sureAgeS = 0;
  }

  /** The account on another vessel, from now on. */
  GasAccount inVessel(GasModel other) {
    GasAccount next = copy();
    next.closeInterval();
    next.books.window = Window.EXCHANGING;
    next.books.model = other;
    next.sure(rateMolPerS);
    return next;
  }

  /** The account with another source: what the valve passes has to be learnt again. */
  GasAccount withSource(GasSource other, HeatBalance balance) {
    GasAccount next = copy();
    next.books.takenMol += hiddenMol();
    next.books.settled = books.settled.clone();
    next.books.settled[GasModel.VALVE] +=
        books.valve.hiddenUncertaintyMol(books.valve.flowMol(), hiddenMol());
    next.books.valve = ValveFlow.UNKNOWN.marked(next.until(balance));
    next.books.source = other;
    next.books.sources++;
    next.sure(rateMolPerS);
    return next;
  }

  /** Whether gas comes or goes past the valves, so that nothing is counted. */
  boolean isDoubted() {
    return doubt.holds();
  }

  GasSource source() {
    return books.source;
  }

  GasModel model() {
    return books.model;
  }

  /** Oxygen taken up until now, in mol. */
  public double uptakeMol() {
    return seenUptakeMol() + hiddenMol();
  }

  /**
   * Oxygen taken up as the gauge saw it, in mol: without what pulses hid, which is counted anew
   * whenever the valve is known better.
   */
  public double seenUptakeMol() {
    return books.takenMol + seenMol();
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
    return books.window == Window.RESTING && restS >= RATE_AFTER_S;
  }

  public int pulses() {
    return books.pulses;
  }

  /** Gas admitted by oxygen pulses, inert share included, in mol. */
  public double admittedMol() {
    return books.admittedMol;
  }

  /** Gas pumped off and vented, less what was filled in by other valves meanwhile, in mol. */
  public double removedMol() {
    return books.removedMol;
  }

  /** Gas that leaked in by the leak test's rate, in mol. */
  public double leakedMol() {
    return leakTotalMol;
  }

  /** Gas in the vessel now, in mol. */
  public double gasMol() {
    return gasMol;
  }

  /** The gauge's zero as learnt at the pump's ultimate pressure, in Pa. */
  public Estimate zeroPa() {
    return new Estimate(books.zeroPa, books.zeroUncertaintyPa);
  }

  /** Variance of one step or interval, in mol². */
  double stepVariance() {
    return books.stepVariance;
  }

  /** What the cold pulses told of valve and heat until now. */
  ValveFit valveFit() {
    return books.valve.fit();
  }

  /** What the oxygen valve passes against the rig file, 1 until learnt. */
  double valveRatio() {
    return books.valve.ratio();
  }

  /** Oxygen's share of the gas in the vessel. */
  Estimate oxygenFraction() {
    return mixture.oxygenFraction(
        gasMol, books.source.oxygenFractionStandardUncertainty(), gas().standardUncertainty());
  }

  /** The gas in the vessel now, in mol. */
  private Estimate gas() {
    double sum = 0;
    for (double error : books.model.errors(pressurePa, heat, books.zeroUncertaintyPa)) {
      sum += error * error;
    }
    return new Estimate(gasMol, StrictMath.sqrt(sum));
  }

  /** Uptake since an earlier account of the same batch. */
  Change since(GasAccount earlier) {
    ValveFlow asKnown =
        books.sources == earlier.books.sources || earlier.books.pulses == 0
            ? books.valve
            : earlier.books.valve;
    double hidden = hiddenMol() - earlier.books.valve.hiddenMol(asKnown);
    double flow =
        books.sources == earlier.books.sources || earlier.books.pulses == 0
            ? books.valve.flowMol() - earlier.books.valve.flowMol()
            : books.valve.flowMol();
    double[] errors = errorsNow();
    double[] before = earlier.errorsNow();
    for (int i = 0; i < errors.length; i++) {
      errors[i] -= before[i];
    }
    GasErrors through = books.valve.through(gasErrors().minus(earlier.gasErrors()), flow);
    errors[GasModel.LEAK] = through.leakMol();
    errors[GasModel.UNSEEN] =
        StrictMath.hypot(through.filledMol(), books.awayErrorMol - earlier.books.awayErrorMol);
    errors[GasModel.VALVE] += books.valve.hiddenUncertaintyMol(flow, hidden);
    double taken = books.takenMol + seenMol() - earlier.books.takenMol - earlier.seenMol() + hidden;
    return new Change(taken, errors, through.variance());
  }

  /** Uptake of the whole batch. */
  Change total() {
    return since(new GasAccount(books.firstModel, books.source));
  }

  private ValveFlow.Until until(HeatBalance heatBalance) {
    return ValveFlow.Until.of(seenUptakeMol(), heatBalance, gasErrors());
  }

  private GasErrors gasErrors() {
    return new GasErrors(leakErrorMol, books.filledErrorMol, books.variance);
  }

  private double hiddenMol() {
    return books.valve.hiddenMol(books.valve);
  }

  private double[] errorsNow() {
    double[] errors = books.settled.clone();
    if (books.baselineSamples > 0) {
      double[] now = books.model.errors(pressurePa, heat, books.zeroUncertaintyPa);
      for (int i = 0; i < errors.length; i++) {
        errors[i] += books.baselineErrors[i] - now[i];
      }
    }
    return errors;
  }

  private double seenMol() {
    return books.baselineSamples == 0 ? 0 : books.baselineMol - nowMol() + leakInMol;
  }

  /** The gas now: the fast filter, corrected for its lag once the rate is known. */
  private double nowMol() {
    return rateIsKnown() ? fastMol - lagS(FAST_S) * rateMolPerS : fastMol;
  }

  /**
   * How far a filter lies behind the gas, in s. At a steady rate x' = (n - x)/T gives n - x = rate
   * (T + (A - T) exp(-t/T)), where A is the age of the baseline it set out from at t = 0. Without
   * this the rate would seem to rise from nothing after every pulse.
   */
  private double lagS(double timeConstantS) {
    double sinceS = restS - BASELINE_S;
    if (sinceS > FORGOTTEN * timeConstantS) {
      return timeConstantS;
    }
    return timeConstantS
        + (BASELINE_AGE_S - timeConstantS) * StrictMath.exp(-sinceS / timeConstantS);
  }

  private void look(GasView view) {
    heat = view.heat();
    pressurePa = view.pressurePa() - books.zeroPa;
    gasMol = books.model.amountMol(pressurePa, heat);
  }

  private void closeInterval() {
    books.settled = errorsNow();
    double filled = unseenMol(rateMolPerS);
    books.takenMol += seenMol() + filled;
    books.filledErrorMol += FILLED_UNCERTAINTY * StrictMath.abs(filled);
    books.unseenS = 0;
    books.openS = 0;
    books.baselineSamples = 0;
    leakInMol = 0;
  }

  /**
   * Uptake that the gauge could not show: at the rate measured after it, and while the valve was
   * open at the mean of the rates before and after, for the new gas came in little by little. Noise
   * may make it negative; cutting that off would add up to an uptake over hundreds of pulses.
   */
  private double unseenMol(double rateAfterMolPerS) {
    return books.unseenS * rateAfterMolPerS + books.openS * (rateMolPerS + rateAfterMolPerS) / 2;
  }

  private void leaveRest() {
    boolean rested = books.window == Window.RESTING;
    books.beforeMol = books.baselineSamples > 0 ? nowMol() : gasMol;
    books.beforePa = rested ? lastRestPa : pressurePa + books.zeroPa;
    books.pulseCold = books.baselineSamples > 0;
    books.rateWasKnown = rateIsKnown();
    books.oxygenBeforeMol = mostOxygenMol();
    closeInterval();
    sure(rateMolPerS);
  }

  /** Oxygen in the gas with two standard uncertainties on top. */
  private double mostOxygenMol() {
    Estimate fraction = oxygenFraction();
    double most = fraction.value() + 2 * fraction.standardUncertainty();
    return StrictMath.max(0, gasMol) * StrictMath.min(1, most);
  }

  private void admit(GasView view, TickWork work) {
    if (books.window != Window.ADMITTING) {
      if (restS > APART_S) {
        // The long time since the last pulse would drown what its block says of the valve.
        books.valve = books.valve.marked(until(work.heat.balance()));
      }
      books.pulseCold &= heat.sampleK() - heat.roomK() < COLD_K;
      books.pulseFlowMol = 0;
      books.pulses++;
      books.pulseOpen = true;
    }
    books.pulseFlowMol += view.oxygen() * view.tickS();
    books.openS += view.tickS();
    restS = -GAUGE_REST_S;
  }

  private void rest(GasView view, TickWork work) {
    if (books.window == Window.EXCHANGING) {
      restS = -GAUGE_REST_S;
      fastMol = gasMol;
      slowMol = gasMol;
      rateMolPerS = 0;
      books.pulseOpen = false;
    }
    lastRestPa = view.pressurePa();
    restS += view.tickS();
    if (restS < 0) {
      books.unseenS += view.tickS();
    } else if (restS <= BASELINE_S) {
      buildBaseline(view);
    } else {
      follow(view, work);
    }
  }

  private void buildBaseline(GasView view) {
    if (books.baselineSamples == 0) {
      books.baselineMol = gasMol;
      double noiseMol =
          view.noisePa() * books.model.volumeOverTemperature(heat) / TwoZoneVolume.GAS_CONSTANT;
      books.stepVariance = VARIANCE_SHARE * noiseMol * noiseMol;
      books.variance += books.stepVariance;
      books.baselineErrors = books.model.errors(pressurePa, heat, books.zeroUncertaintyPa);
      // The baseline stands for the middle of its span; uptake before that is still unseen.
      books.unseenS += view.tickS() + BASELINE_AGE_S;
    }
    books.baselineSamples++;
    books.baselineMol += (gasMol - books.baselineMol) / books.baselineSamples;
    fastMol = books.baselineMol;
    slowMol = books.baselineMol;
  }

  private void follow(GasView view, TickWork work) {
    double tickS = view.tickS();
    fastMol += (gasMol - fastMol) * tickS / (FAST_S + tickS);
    slowMol += (gasMol - slowMol) * tickS / (SLOW_S + tickS);
    double leak = view.leakMolPerS() * tickS;
    leakInMol += leak;
    leakTotalMol += leak;
    leakErrorMol += view.leakUncertaintyMolPerS() * tickS;
    if (books.unseenS > 0 && restS >= RATE_AFTER_S) {
      fillUnseen(work);
    }
    if (restS >= RATE_AFTER_S) {
      rateMolPerS = (slowMol - fastMol) / (lagS(SLOW_S) - lagS(FAST_S));
      if (GasDoubt.isSure(sureAgeS, rateMolPerS, books.stepVariance)) {
        sure(rateMolPerS);
      }
    }
  }

  /** Less than this share of the stated flow is a failing source or valve, not hidden uptake. */
  private static final double PASSED_SHARE = 0.6;

  private void fillUnseen(TickWork work) {
    double rate = (books.baselineMol - fastMol) / (restS - BASELINE_AGE_S - lagS(FAST_S));
    double filled = unseenMol(rate);
    double filledError =
        FILLED_UNCERTAINTY * StrictMath.abs(filled)
            + (books.unseenS + books.openS) * changeBeyondNoise(rate - rateMolPerS) / 2;
    books.takenMol += filled;
    books.unseenS = 0;
    books.openS = 0;
    if (!books.pulseOpen) {
      books.filledErrorMol += filledError;
    } else {
      books.pulseOpen = false;
      double pulseMol = books.baselineMol + filled - books.beforeMol;
      if (books.pulseCold
          && books.pulseFlowMol > 0
          && pulseMol > PASSED_SHARE * books.pulseFlowMol) {
        // What is filled in too much here is hidden too little, and the other way round.
        learnValve(pulseMol, rate, work);
      } else {
        books.filledErrorMol += filledError;
        books.valve = books.valve.marked(until(work.heat.balance()));
      }
      books.admittedMol += pulseMol;
      double[] errors = books.model.errors(pressurePa, heat, books.zeroUncertaintyPa);
      double share = gasMol > 0 ? pulseMol / gasMol : 0;
      double sum = books.stepVariance;
      for (double error : errors) {
        sum += error * error * share * share;
      }
      work.event(
          new Event.PulseGiven(
              books.pulses,
              books.beforePa,
              pressurePa + books.zeroPa,
              new Estimate(pulseMol, StrictMath.sqrt(sum))));
    }
  }

  private double changeBeyondNoise(double changeMolPerS) {
    double noise = StrictMath.sqrt(books.stepVariance) / RATE_AFTER_S;
    return StrictMath.max(0, StrictMath.abs(changeMolPerS) - 1.5 * noise);
  }

  private void learnValve(double pulseMol, double rateAfterMolPerS, TickWork work) {
    HeatBalance heatBalance = work.heat.balance();
    ValveFlow.Appetite appetite =
        books.rateWasKnown
            ? new ValveFlow.Appetite(1, rateMolPerS, rateAfterMolPerS, books.exchanges)
            : new ValveFlow.Appetite(0, 0, 0, books.exchanges);
    books.exchanges = 0;
    double before = hiddenMol();
    boolean knew = books.valve.isKnown();
    books.valve =
        books.valve.with(
            books.pulseFlowMol,
            pulseMol,
            until(heatBalance),
            appetite,
            books.oxygenBeforeMol,
            new ValveFit.Beforehand(
                heatBalance.molPerKelvinSecond(work.plan), books.stepVariance, sourceFraction()));
    double more = hiddenMol() - before;
    double u = books.valve.hiddenUncertaintyMol(books.valve.flowMol(), hiddenMol());
    if (knew && StrictMath.abs(more) > StrictMath.max(RECOUNTED * u, 5e-6)) {
      work.event(
          new Event.Advisory(
              "What the oxygen valve passes is known better now: uptake that earlier pulses hid is"
                  + " counted anew, a change of "
                  + Words.amount(new Estimate(more, u))
                  + "."));
    }
  }

  private Estimate sourceFraction() {
    return new Estimate(
        books.source.oxygenFraction(), books.source.oxygenFractionStandardUncertainty());
  }

  private void exchange(GasView view, double gasBeforeMol) {
    double out = gasBeforeMol - gasMol + (view.oxygen() + view.inert()) * view.tickS();
    if (view.pumping() || view.venting()) {
      books.removedMol += StrictMath.max(0, out);
    }
    if (view.pumping() && view.oxygen() + view.inert() == 0) {
      double p = view.pressurePa();
      if (books.zeroSlowPa == 0) {
        books.zeroFastPa = p;
        books.zeroSlowPa = p;
      }
      books.zeroFastPa += (p - books.zeroFastPa) * view.tickS() / (ZERO_FILTER_S + view.tickS());
      books.zeroSlowPa += (p - books.zeroSlowPa) * view.tickS() / (ZERO_TREND_S + view.tickS());
    }
  }

  private void endExchange(TickWork work) {
    learnZero(work.plan.rig(), work.plan.gaugeNoisePa());
    gasMol = books.model.amountMol(pressurePa, heat);
    if (books.pulses > 0 || books.exchangeFrom.value() > 0) {
      work.event(new Event.GasExchanged(books.exchangeFrom, gas(), oxygenFraction()));
    }
    books.exchangeFrom = GasBooks.NOTHING;
  }

  /** At the end of a pump-down that has come to rest the gauge should show the pump's ultimate. */
  private void learnZero(RigDescription rig, double noisePa) {
    double ultimatePa = rig.pumpUltimatePa();
    double apartPa = StrictMath.abs(books.zeroSlowPa - books.zeroFastPa);
    // At a rate r the filters are r (4 s - 1 s) apart, and a vessel pumped empty with a time
    // constant V/S will fall by r V/S more: slow pumps leave more behind at the same trend.
    double moreToFall = StrictMath.max(1, pumpS(rig) / (ZERO_TREND_S - ZERO_FILTER_S));
    boolean settledDown = moreToFall * apartPa < ZERO_SETTLED_PA + 0.3 * noisePa;
    double learnt = books.zeroFastPa - ultimatePa;
    double u = StrictMath.hypot(ULTIMATE_UNCERTAINTY * ultimatePa + ZERO_SETTLED_PA, 0.4 * noisePa);
    boolean credible = StrictMath.abs(learnt) < ZERO_CREDIBLE * books.model.gaugeZeroPa() + u;
    if (books.zeroSlowPa != 0 && settledDown && credible && u < books.model.gaugeZeroPa()) {
      pressurePa += books.zeroPa - learnt;
      books.zeroPa = learnt;
      books.zeroUncertaintyPa = u;
    }
    books.zeroSlowPa = 0;
  }

  private double pumpS(RigDescription rig) {
    return (books.model.volume().hotM3() + books.model.volume().coldM3()) / rig.pumpSpeedM3PerS();
  }

  private GasMixture mixed(Window now, GasView view, double beforeMol, TickWork work) {
    if (mixture.inertMol() < 0) {
      return GasMixture.unknown(gasMol);
    }
    if (now == Window.RESTING) {
      double leak = view.leakMolPerS() * view.tickS();
      return leak == 0
          ? mixture
          : mixture.leaked(leak, view.leakUncertaintyMolPerS() * view.tickS());
    }
    double inert = view.inert() * view.tickS();
    double inertSource = work.plan.rig().inert().oxygenFraction();
    if (view.venting() && view.inert() > 0) {
      return mixture.swept(beforeMol, gasMol, inert, inertSource);
    }
    if (view.pumping() || (view.venting() && gasMol < beforeMol)) {
      return mixture.thinned(beforeMol, gasMol, books.model.amountMol(NEARLY_EMPTY_PA, heat));
    }
    if (view.venting()) {
      return mixture.leaked(gasMol - beforeMol, 0);
    }
    if (view.inert() > 0) {
      return mixture.fed(gasMol - beforeMol, inertSource, false);
    }
    double in =
        books.valve.isKnown()
            ? books.valve.ratio() * view.oxygen() * view.tickS()
            : gasMol - beforeMol + view.tickS() * StrictMath.max(0, rateMolPerS());
    return mixture.fed(in, books.source.oxygenFraction(), true);
  }

  private GasAccount copy() {
    GasAccount copy = withSameBooks();
    copy.books = books.copy();
    return copy;
  }

  private GasAccount withSameBooks() {
    try {
      return (GasAccount) clone();
    } catch (CloneNotSupportedException impossible) {
      throw new AssertionError(impossible);
    }
  }
}
