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
 * <p>Immutable to everybody else: {@link #step} works on a copy, and arrays are replaced.
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

  private static final Estimate NOTHING = new Estimate(0, 0);

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

  private final GasModel firstModel;
  private GasModel model;
  private Window window = Window.EXCHANGING;
  private double takenMol;
  private double[] settled = new double[GasModel.ERRORS];
  private double[] baselineErrors = new double[GasModel.ERRORS];
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
  private double leakErrorMol;
  private double filledErrorMol;
  private double variance;
  private double stepVariance;
  private boolean pulseOpen;
  private boolean pulseCold;
  private double pulseFlowMol;
  private boolean rateWasKnown;
  private double oxygenBeforeMol;
  private int exchanges;
  private OpenVessel vessel = OpenVessel.SHUT;
  private double beforeMol;
  private double beforePa;
  private int pulses;
  private double admittedMol;
  private double removedMol;
  private Estimate exchangeFrom = NOTHING;
  private GasSource source;
  private int sources;
  private ValveFlow valve = ValveFlow.UNKNOWN;
  private GasMixture mixture = GasMixture.UNKNOWN;
  private double gasMol;
  private double pressurePa;
  private GasModel.Heat heat = new GasModel.Heat(295, 295, 295);
  private double zeroPa;
  private double zeroUncertaintyPa;
  private double zeroFastPa;
  private double zeroSlowPa;
  private GasDoubt doubt = GasDoubt.NONE;
  private double sureAgeS;

  private GasAccount(GasModel model, GasSource source) {
    this.firstModel = model;
    this.model = model;
    this.source = source;
    this.zeroUncertaintyPa = model.gaugeZeroPa();
  }

  static GasAccount empty(GasModel model, GasSource source) {
    return new GasAccount(model, source);
  }

  /** The account after a tick in which the valves stood as {@code now} says. */
  GasAccount step(Window now, GasView view, TickWork work) {
    GasAccount next = copy();
    next.sureAgeS += view.tickS();
    if (doubt.holds()) {
      next.doubt = doubt.over();
      next.sure(doubt.sureMolPerS());
    }
    if (now != window && now != Window.RESTING) {
      // Before the new view, which already holds what the first tick let in or out.
      next.leaveRest();
    }
    next.look(view);
    if (now == Window.EXCHANGING) {
      if (window != Window.EXCHANGING) {
        next.exchangeFrom = gas();
        next.exchanges++;
      }
      next.exchange(view, gasMol);
    } else {
      if (window == Window.EXCHANGING) {
        next.endExchange(work);
      }
      if (now == Window.ADMITTING) {
        next.admit(view, work);
      } else {
        next.rest(view, work);
      }
    }
    next.mixture = next.mixed(now, view, gasMol, work);
    next.window = now;
    next.watchOpening(work);
    return next;
  }

  private void watchOpening(TickWork work) {
    boolean saidOpen = OpenVessel.isSaidOpen(work);
    if (!saidOpen && !vessel.isOpen()) {
      return;
    }
    OpenVessel before = vessel;
    HeatBalance balance = work.heat.balance();
    Estimate a =
        valve.pulses() > 0 ? valve.fit().oxygenPerHeat() : balance.molPerKelvinSecond(work.plan);
    vessel = before.step(saidOpen, balance.integralKs(), balance.integralUncertaintyKs(), a);
    if (vessel.isOpen()) {
      takenMol += vessel.mol() - before.mol();
      filledErrorMol += vessel.errorMol() - before.errorMol();
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
    next.filledErrorMol += next.doubt.errorMol() - doubt.errorMol();
    if (view.pumping() || view.venting() || view.inert() > 0 || mixture.inertMol() < 0) {
      next.mixture = next.mixed(Window.EXCHANGING, view, gasMol, work);
      next.doubt = next.doubt.begun(next.gasMol, next.mixture);
    } else {
      next.mixture = next.doubt.mixture(next.gasMol, model.amountMol(NEARLY_EMPTY_PA, heat));
    }
    return next;
  }

  private void takeBack(TickWork work) {
    if (pulseOpen) {
      admittedMol += gasMol - beforeMol;
    }
    double backMol = doubt.sureMol() - seenUptakeMol();
    work.event(new Event.Advisory(GasDoubt.sentence(backMol, sureAgeS)));
    takenMol = doubt.sureMol();
    settled = doubt.sureErrors().clone();
    unseenS = 0;
    openS = 0;
    pulseOpen = false;
    baselineSamples = 0;
    leakInMol = 0;
    rateMolPerS = 0;
    zeroSlowPa = 0;
    window = Window.EXCHANGING;
    exchangeFrom = gas();
    doubt = doubt.begun(gasMol, mixture);
  }

  private void sure(double atMolPerS) {
    doubt = doubt.sure(seenUptakeMol(), errorsNow(), atMolPerS, pressurePa, stepVariance);
    sureAgeS = 0;
  }

  /** The account on another vessel, from now on. */
  GasAccount inVessel(GasModel other) {
    GasAccount next = copy();
    next.closeInterval();
    next.window = Window.EXCHANGING;
    next.model = other;
    next.sure(rateMolPerS);
    return next;
  }

  /** The account with another source: what the valve passes has to be learnt again. */
  GasAccount withSource(GasSource other, HeatBalance balance) {
    GasAccount next = copy();
    next.takenMol += hiddenMol();
    next.settled = settled.clone();
    next.settled[GasModel.VALVE] += valve.hiddenUncertaintyMol(valve.flowMol(), hiddenMol());
    next.valve = ValveFlow.UNKNOWN.marked(next.seenUptakeMol(), balance);
    next.source = other;
    next.sources++;
    next.sure(rateMolPerS);
    return next;
  }

  /** Whether gas comes or goes past the valves, so that nothing is counted. */
  boolean isDoubted() {
    return doubt.holds();
  }

  GasSource source() {
    return source;
  }

  GasModel model() {
    return model;
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
  public double admittedMol() {
    return admittedMol;
  }

  /** Gas pumped off and vented, less what was filled in by other valves meanwhile, in mol. */
  public double removedMol() {
    return removedMol;
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
    return new Estimate(zeroPa, zeroUncertaintyPa);
  }

  /** Variance of one step or interval, in mol². */
  double stepVariance() {
    return stepVariance;
  }

  /** What the cold pulses told of valve and heat until now. */
  ValveFit valveFit() {
    return valve.fit();
  }

  /** What the oxygen valve passes against the rig file, 1 until learnt. */
  double valveRatio() {
    return valve.ratio();
  }

  /** Oxygen's share of the gas in the vessel. */
  Estimate oxygenFraction() {
    return mixture.oxygenFraction(
        gasMol, source.oxygenFractionStandardUncertainty(), gas().standardUncertainty());
  }

  /** The gas in the vessel now, in mol. */
  private Estimate gas() {
    double sum = 0;
    for (double error : model.errors(pressurePa, heat, zeroUncertaintyPa)) {
      sum += error * error;
    }
    return new Estimate(gasMol, StrictMath.sqrt(sum));
  }

  /** Uptake since an earlier account of the same batch. */
  Change since(GasAccount earlier) {
    ValveFlow asKnown = sources == earlier.sources || earlier.pulses == 0 ? valve : earlier.valve;
    double hidden = hiddenMol() - earlier.valve.hiddenMol(asKnown);
    double flow =
        sources == earlier.sources || earlier.pulses == 0
            ? valve.flowMol() - earlier.valve.flowMol()
            : valve.flowMol();
    double[] errors = errorsNow();
    double[] before = earlier.errorsNow();
    for (int i = 0; i < errors.length; i++) {
      errors[i] -= before[i];
    }
    errors[GasModel.LEAK] = leakErrorMol - earlier.leakErrorMol;
    errors[GasModel.UNSEEN] = filledErrorMol - earlier.filledErrorMol;
    errors[GasModel.VALVE] += valve.hiddenUncertaintyMol(flow, hidden);
    double taken = takenMol + seenMol() - earlier.takenMol - earlier.seenMol() + hidden;
    return new Change(taken, errors, variance - earlier.variance);
  }

  /** Uptake of the whole batch. */
  Change total() {
    return since(new GasAccount(firstModel, source));
  }

  private double hiddenMol() {
    return valve.hiddenMol(valve);
  }

  private double[] errorsNow() {
    double[] errors = settled.clone();
    if (baselineSamples > 0) {
      double[] now = model.errors(pressurePa, heat, zeroUncertaintyPa);
      for (int i = 0; i < errors.length; i++) {
        errors[i] += baselineErrors[i] - now[i];
      }
    }
    return errors;
  }

  private double seenMol() {
    return baselineSamples == 0 ? 0 : baselineMol - nowMol() + leakInMol;
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
    pressurePa = view.pressurePa() - zeroPa;
    gasMol = model.amountMol(pressurePa, heat);
  }

  private void closeInterval() {
    settled = errorsNow();
    double filled = unseenMol(rateMolPerS);
    takenMol += seenMol() + filled;
    filledErrorMol += FILLED_UNCERTAINTY * StrictMath.abs(filled);
    unseenS = 0;
    openS = 0;
    baselineSamples = 0;
    leakInMol = 0;
  }

  /**
   * Uptake that the gauge could not show: at the rate measured after it, and while the valve was
   * open at the mean of the rates before and after, for the new gas came in little by little. Noise
   * may make it negative; cutting that off would add up to an uptake over hundreds of pulses.
   */
  private double unseenMol(double rateAfterMolPerS) {
    return unseenS * rateAfterMolPerS + openS * (rateMolPerS + rateAfterMolPerS) / 2;
  }

  private void leaveRest() {
    boolean rested = window == Window.RESTING;
    beforeMol = baselineSamples > 0 ? nowMol() : rested ? lastRestMol : gasMol;
    beforePa = rested ? lastRestPa : pressurePa + zeroPa;
    pulseCold = baselineSamples > 0;
    rateWasKnown = rateIsKnown();
    oxygenBeforeMol = mostOxygenMol();
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
    if (window != Window.ADMITTING) {
      if (restS > APART_S) {
        // The long time since the last pulse would drown what its block says of the valve.
        valve = valve.marked(seenUptakeMol(), work.heat.balance());
      }
      pulseCold &= heat.sampleK() - heat.roomK() < COLD_K;
      pulseFlowMol = 0;
      pulses++;
      pulseOpen = true;
    }
    pulseFlowMol += view.oxygen() * view.tickS();
    openS += view.tickS();
    restS = -GAUGE_REST_S;
  }

  private void rest(GasView view, TickWork work) {
    if (window == Window.EXCHANGING) {
      restS = -GAUGE_REST_S;
      fastMol = gasMol;
      slowMol = gasMol;
      rateMolPerS = 0;
      pulseOpen = false;
    }
    lastRestMol = gasMol;
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

  private void buildBaseline(GasView view) {
    if (baselineSamples == 0) {
      baselineMol = gasMol;
      double noiseMol =
          view.noisePa() * model.volumeOverTemperature(heat) / TwoZoneVolume.GAS_CONSTANT;
      stepVariance = VARIANCE_SHARE * noiseMol * noiseMol;
      variance += stepVariance;
      baselineErrors = model.errors(pressurePa, heat, zeroUncertaintyPa);
      // The baseline stands for the middle of its span; uptake before that is still unseen.
      unseenS += view.tickS() + BASELINE_AGE_S;
    }
    baselineSamples++;
    baselineMol += (gasMol - baselineMol) / baselineSamples;
    fastMol = baselineMol;
    slowMol = baselineMol;
  }

  private void follow(GasView view, TickWork work) {
    double tickS = view.tickS();
    fastMol += (gasMol - fastMol) * tickS / (FAST_S + tickS);
    slowMol += (gasMol - slowMol) * tickS / (SLOW_S + tickS);
    double leak = view.leakMolPerS() * tickS;
    leakInMol += leak;
    leakTotalMol += leak;
    leakErrorMol += view.leakUncertaintyMolPerS() * tickS;
    if (unseenS > 0 && restS >= RATE_AFTER_S) {
      fillUnseen(work);
    }
    if (restS >= RATE_AFTER_S) {
      rateMolPerS = (slowMol - fastMol) / (lagS(SLOW_S) - lagS(FAST_S));
      if (GasDoubt.isSure(sureAgeS, rateMolPerS, stepVariance)) {
        sure(rateMolPerS);
      }
    }
  }

  /** Less than this share of the stated flow is a failing source or valve, not hidden uptake. */
  private static final double PASSED_SHARE = 0.6;

  private void fillUnseen(TickWork work) {
    double rate = (baselineMol - fastMol) / (restS - BASELINE_AGE_S - lagS(FAST_S));
    double filled = unseenMol(rate);
    double filledError =
        FILLED_UNCERTAINTY * StrictMath.abs(filled)
            + (unseenS + openS) * changeBeyondNoise(rate - rateMolPerS) / 2;
    takenMol += filled;
    unseenS = 0;
    openS = 0;
    if (!pulseOpen) {
      filledErrorMol += filledError;
    } else {
      pulseOpen = false;
      double pulseMol = baselineMol + filled - beforeMol;
      if (pulseCold && pulseFlowMol > 0 && pulseMol > PASSED_SHARE * pulseFlowMol) {
        // What is filled in too much here is hidden too little, and the other way round.
        learnValve(pulseMol, rate, work);
      } else {
        filledErrorMol += filledError;
        valve = valve.marked(seenUptakeMol(), work.heat.balance());
      }
      admittedMol += pulseMol;
      double[] errors = model.errors(pressurePa, heat, zeroUncertaintyPa);
      double share = gasMol > 0 ? pulseMol / gasMol : 0;
      double sum = stepVariance;
      for (double error : errors) {
        sum += error * error * share * share;
      }
      work.event(
          new Event.PulseGiven(
              pulses, beforePa, pressurePa + zeroPa, new Estimate(pulseMol, StrictMath.sqrt(sum))));
    }
  }

  private double changeBeyondNoise(double changeMolPerS) {
    double noise = StrictMath.sqrt(stepVariance) / RATE_AFTER_S;
    return StrictMath.max(0, StrictMath.abs(changeMolPerS) - 1.5 * noise);
  }

  private void learnValve(double pulseMol, double rateAfterMolPerS, TickWork work) {
    HeatBalance heatBalance = work.heat.balance();
    ValveFlow.Appetite appetite =
        rateWasKnown
            ? new ValveFlow.Appetite(1, rateMolPerS, rateAfterMolPerS, exchanges)
            : new ValveFlow.Appetite(0, 0, 0, exchanges);
    exchanges = 0;
    double before = hiddenMol();
    boolean knew = valve.isKnown();
    valve =
        valve.with(
            pulseFlowMol,
            pulseMol,
            seenUptakeMol(),
            heatBalance,
            appetite,
            oxygenBeforeMol,
            new ValveFit.Beforehand(
                heatBalance.molPerKelvinSecond(work.plan), stepVariance, sourceFraction()));
    double more = hiddenMol() - before;
    double u = valve.hiddenUncertaintyMol(valve.flowMol(), hiddenMol());
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
    return new Estimate(source.oxygenFraction(), source.oxygenFractionStandardUncertainty());
  }

  private void exchange(GasView view, double gasBeforeMol) {
    double out = gasBeforeMol - gasMol + (view.oxygen() + view.inert()) * view.tickS();
    if (view.pumping() || view.venting()) {
      removedMol += StrictMath.max(0, out);
    }
    if (view.pumping() && view.oxygen() + view.inert() == 0) {
      double p = view.pressurePa();
      if (zeroSlowPa == 0) {
        zeroFastPa = p;
        zeroSlowPa = p;
      }
      zeroFastPa += (p - zeroFastPa) * view.tickS() / (ZERO_FILTER_S + view.tickS());
      zeroSlowPa += (p - zeroSlowPa) * view.tickS() / (ZERO_TREND_S + view.tickS());
    }
  }

  private void endExchange(TickWork work) {
    learnZero(work.plan.rig(), work.plan.gaugeNoisePa());
    gasMol = model.amountMol(pressurePa, heat);
    if (pulses > 0 || exchangeFrom.value() > 0) {
      work.event(new Event.GasExchanged(exchangeFrom, gas(), oxygenFraction()));
    }
    exchangeFrom = NOTHING;
  }

  /** At the end of a pump-down that has come to rest the gauge should show the pump's ultimate. */
  private void learnZero(RigDescription rig, double noisePa) {
    double ultimatePa = rig.pumpUltimatePa();
    double apartPa = StrictMath.abs(zeroSlowPa - zeroFastPa);
    // At a rate r the filters are r (4 s - 1 s) apart, and a vessel pumped empty with a time
    // constant V/S will fall by r V/S more: slow pumps leave more behind at the same trend.
    double moreToFall = StrictMath.max(1, pumpS(rig) / (ZERO_TREND_S - ZERO_FILTER_S));
    boolean settledDown = moreToFall * apartPa < ZERO_SETTLED_PA + 0.3 * noisePa;
    double learnt = zeroFastPa - ultimatePa;
    double u = StrictMath.hypot(ULTIMATE_UNCERTAINTY * ultimatePa + ZERO_SETTLED_PA, 0.4 * noisePa);
    boolean credible = StrictMath.abs(learnt) < ZERO_CREDIBLE * model.gaugeZeroPa() + u;
    if (zeroSlowPa != 0 && settledDown && credible && u < model.gaugeZeroPa()) {
      pressurePa += zeroPa - learnt;
      zeroPa = learnt;
      zeroUncertaintyPa = u;
    }
    zeroSlowPa = 0;
  }

  private double pumpS(RigDescription rig) {
    return (model.volume().hotM3() + model.volume().coldM3()) / rig.pumpSpeedM3PerS();
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
      return mixture.thinned(beforeMol, gasMol, model.amountMol(NEARLY_EMPTY_PA, heat));
    }
    if (view.venting()) {
      return mixture.leaked(gasMol - beforeMol, 0);
    }
    if (view.inert() > 0) {
      return mixture.fed(gasMol - beforeMol, inertSource, false);
    }
    double in =
        valve.isKnown()
            ? valve.ratio() * view.oxygen() * view.tickS()
            : gasMol - beforeMol + view.tickS() * StrictMath.max(0, rateMolPerS());
    return mixture.fed(in, source.oxygenFraction(), true);
  }

  private GasAccount copy() {
    try {
      return (GasAccount) clone();
    } catch (CloneNotSupportedException impossible) {
      throw new AssertionError(impossible);
    }
  }
}
