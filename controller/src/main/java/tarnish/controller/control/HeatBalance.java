package tarnish.controller.control;

import tarnish.shared.chemistry.Formula;
import tarnish.shared.chemistry.FormulaException;
import tarnish.shared.chemistry.ReactionHeat;
import tarnish.shared.chemistry.SolidHeatCapacity;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.recipe.Recipe;

/**
 * The heat balance of the sample: how far it stands above what the oven alone makes of it, and the
 * integral of that, which is in proportion to the oxygen taken up.
 *
 * <pre>
 *   T'' tau_v tau_s + T' (tau_v + tau_s) + T = w T_oven + (1 - w) T_room + c + e       e = P / G
 * </pre>
 *
 * <p>Two lags (vessel and sample behind the oven), a share w of the oven's warmth that arrives (the
 * rest is lost along the neck to the room, whose day and night would else pass for heat) and the
 * sensors' difference c. All terms are taken behind the same second-order filter, which makes
 * derivatives of noisy readings harmless and leaves the balance as it is; so the four numbers are a
 * linear fit ({@link HeatFit}), made while no oxygen has been let in yet, starting from the rig's
 * identified oven model where there is one. What a conductance G in W/K is worth is not known
 * beforehand: see {@link #molPerKelvinSecond}.
 *
 * <p>Immutable to everybody else: {@link #step} works on a copy.
 */
final class HeatBalance implements Cloneable {
  /** Both filters and the one before them that takes the noise, in s. */
  private static final double FILTER_S = 120;

  private static final double NOISE_FILTER_S = 10;
  private static final double LEARN_EVERY_S = 10;

  /**
   * The sample's capacity in capacities of the charge, by which G is guessed: boat, support and
   * glass come on top, and the vessel gives way. Wide, from simulated benches.
   */
  private static final double CAPACITY_RATIO = 10;

  private static final double CAPACITY_RATIO_UNCERTAINTY = 1.5;

  /** Heat per mol O2 of a metal's oxidation where nobody knows better, in J/mol: from memory. */
  private static final double USUAL_HEAT_J_PER_MOL = 300e3;

  static final HeatBalance NONE = new HeatBalance();

  /** What is learnt; shared by the balances between two times at which it is. */
  private HeatFit fit = HeatFit.NONE;

  private double sampleK;
  private double sample1;
  private double sample2;
  private double ovenK;
  private double oven1;
  private double oven2;
  private double room1;
  private double room2;
  private double nextLearnS;
  private double excessK;
  private double integralKs;
  private double integralUncertaintyKs;

  private HeatBalance() {}

  /**
   * After a tick.
   *
   * @param oxygenFree whether no oxygen has come near the sample yet
   */
  HeatBalance step(
      double newSampleK,
      double newOvenK,
      double newRoomK,
      double tickS,
      boolean oxygenFree,
      Plan plan) {
    HeatBalance next = copy();
    if (fit == HeatFit.NONE) {
      next.begin(HeatFit.begun(newSampleK, newOvenK, newRoomK, plan), newOvenK, newRoomK);
      return next;
    }
    next.filter(newSampleK, newOvenK, newRoomK, tickS);
    next.excessK = next.sample2 - next.followedK();
    next.nextLearnS -= tickS;
    if (next.nextLearnS <= 0) {
      next.nextLearnS = LEARN_EVERY_S;
      double[] row = next.row();
      HeatFit learnt = oxygenFree ? fit.learnt(row, next.excessK, next.sample2) : fit;
      next.fit = learnt.judged(row, next.sample2);
    }
    if (!oxygenFree) {
      next.integralKs += next.excessK * tickS;
      next.integralUncertaintyKs += next.fit.uncertaintyK() * tickS;
    }
    return next;
  }

  /** How far the sample stands above what the oven makes of it, some minutes late. */
  Estimate excessK() {
    return new Estimate(excessK, fit.uncertaintyK());
  }

  /**
   * Integral of the excess since oxygen was first let in, in K s. It hardly lags behind the uptake:
   * the filters hold it back by as much as the vessel, which the sample warms, lets it run ahead.
   */
  double integralKs() {
    return integralKs;
  }

  /** What one standard deviation of the balance's error does to it: one error, alike throughout. */
  double integralUncertaintyKs() {
    return integralUncertaintyKs;
  }

  /** The shorter of the two lags, in s: that of the sample behind its vessel. */
  double sampleLagS() {
    return fit.sampleLagS();
  }

  /** Whether it has seen enough to be worth showing. */
  boolean isLearnt() {
    return fit.equations() > 0;
  }

  /**
   * Oxygen for one K s, in mol, as far as it is known before gas and heat were seen together:
   *
   * <pre>
   *   a = G / |dH|,   G = k C / (tau_v + tau_s)
   * </pre>
   */
  Estimate molPerKelvinSecond(Plan plan) {
    double lagS = fit == HeatFit.NONE ? 1 : fit.lagsS();
    double guess =
        CAPACITY_RATIO
            * chargeJPerK(plan.recipe())
            / (StrictMath.max(1, lagS) * heatJPerMol(plan.recipe()));
    return new Estimate(guess, CAPACITY_RATIO_UNCERTAINTY * guess);
  }

  /** Heat given off per mol O2, from the recipe or the table, in J/mol. */
  static double heatJPerMol(Recipe recipe) {
    if (recipe.reactionEnthalpyJPerMolO2().isPresent()) {
      return StrictMath.max(1, StrictMath.abs(recipe.reactionEnthalpyJPerMolO2().getAsDouble()));
    }
    try {
      return ReactionHeat.between(recipe.charge().formula(), recipe.target().formula())
          .map(heat -> StrictMath.max(1, StrictMath.abs(heat.enthalpyJPerMolO2())))
          .orElse(USUAL_HEAT_J_PER_MOL);
    } catch (IllegalArgumentException unusual) {
      return USUAL_HEAT_J_PER_MOL;
    }
  }

  /** Heat capacity of the charge alone, in J/K. */
  static double chargeJPerK(Recipe recipe) {
    try {
      Formula charge = Formula.parse(recipe.charge().formula());
      return recipe.chargeMol() * SolidHeatCapacity.of(charge).joulePerMolK();
    } catch (FormulaException unusual) {
      return recipe.chargeMol() * 3 * tarnish.shared.gas.TwoZoneVolume.GAS_CONSTANT;
    }
  }

  private void begin(HeatFit first, double newOvenK, double newRoomK) {
    fit = first;
    room1 = newRoomK - fit.fromK();
    room2 = room1;
    ovenK = newOvenK - fit.fromK();
    oven1 = ovenK;
    oven2 = ovenK;
  }

  private void filter(double newSampleK, double newOvenK, double newRoomK, double tickS) {
    double fromK = fit.fromK();
    double quick = tickS / (NOISE_FILTER_S + tickS);
    double slow = tickS / (FILTER_S + tickS);
    sampleK += quick * (newSampleK - fromK - sampleK);
    ovenK += quick * (newOvenK - fromK - ovenK);
    sample1 += slow * (sampleK - sample1);
    oven1 += slow * (ovenK - oven1);
    sample2 += slow * (sample1 - sample2);
    oven2 += slow * (oven1 - oven2);
    room1 += slow * (newRoomK - fromK - room1);
    room2 += slow * (room1 - room2);
  }

  /** Second derivative of the sample: s²/(1+Ls)² = (1 - 2/(1+Ls) + 1/(1+Ls)²)/L². */
  private double secondDerivative() {
    return (sampleK - 2 * sample1 + sample2) / (FILTER_S * FILTER_S);
  }

  /** First derivative of the sample: s/(1+Ls)² = (1/(1+Ls) - 1/(1+Ls)²)/L. */
  private double firstDerivative() {
    return (sample1 - sample2) / FILTER_S;
  }

  /** What oven and room alone make of the sample. */
  private double followedK() {
    double[] theta = fit.theta();
    return room2
        - secondDerivative() * theta[0]
        - firstDerivative() * theta[1]
        + (oven2 - room2) * theta[2]
        + theta[3];
  }

  /** What each number of the fit is multiplied by in {@link #followedK}. */
  private double[] row() {
    return new double[] {-secondDerivative(), -firstDerivative(), oven2 - room2, 1};
  }

  private HeatBalance copy() {
    try {
      return (HeatBalance) clone();
    } catch (CloneNotSupportedException impossible) {
      throw new AssertionError(impossible);
    }
  }
}
