package tarnish.controller.control;

import tarnish.shared.chemistry.Formula;
import tarnish.shared.chemistry.FormulaException;
import tarnish.shared.chemistry.ReactionHeat;
import tarnish.shared.chemistry.SolidHeatCapacity;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.oven.OvenModel;
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
 * linear fit, made while no oxygen has been let in yet, starting from the rig's identified oven
 * model where there is one. What a conductance G in W/K is worth is not known beforehand: see
 * {@link #molPerKelvinSecond}.
 *
 * <p>Immutable to everybody else: {@link #step} works on a copy, and arrays are replaced.
 */
final class HeatBalance implements Cloneable {
  private static final int SIZE = 4;

  /** Both filters and the one before them that takes the noise, in s. */
  private static final double FILTER_S = 120;

  private static final double NOISE_FILTER_S = 10;
  private static final double LEARN_EVERY_S = 10;

  /**
   * Variance of one equation in K²: residuals are some 0.07 K and alike for minutes, so that each
   * counts as little as this. Found on simulated benches.
   */
  private static final double EQUATION_K2 = 0.12;

  /** Excess that a good balance may still miss, in K: found on simulated benches. */
  private static final double FLOOR_K = 0.006;

  /** Loss changes with temperature: error per kelvin from where the balance was learnt. */
  private static final double PER_KELVIN = 0.005;

  /** Lags change with temperature, relative and per kelvin, and at most. */
  private static final double LAG_ERROR = 0.02;

  private static final double LAG_ERROR_PER_KELVIN = 0.004;
  private static final double LAG_ERROR_MAX = 0.6;

  /** Temperature at which the rig's lags are taken: the balance is needed in the cold most. */
  private static final double COLD_K = 300;

  /**
   * The sample's capacity in capacities of the charge, by which G is guessed: boat, support and
   * glass come on top, and the vessel gives way. Wide, from simulated benches.
   */
  private static final double CAPACITY_RATIO = 10;

  private static final double CAPACITY_RATIO_UNCERTAINTY = 1.5;

  /** Heat per mol O2 of a metal's oxidation where nobody knows better, in J/mol: from memory. */
  private static final double USUAL_HEAT_J_PER_MOL = 300e3;

  static final HeatBalance NONE = new HeatBalance();

  private boolean begun;
  private double fromK;
  private double sampleK;
  private double sample1;
  private double sample2;
  private double ovenK;
  private double oven1;
  private double oven2;
  private double room1;
  private double room2;
  private double nextLearnS;
  private double[] theta = {0, 0, 0, 0};
  private double[][] covariance = new double[SIZE][SIZE];
  private double learntSumK;
  private int learnt;
  private double excessK;
  private double uncertaintyK;
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
    if (!begun) {
      next.begin(newSampleK, newOvenK, newRoomK, plan);
      return next;
    }
    next.filter(newSampleK, newOvenK, newRoomK, tickS);
    next.excessK = next.sample2 - next.followedK();
    next.nextLearnS -= tickS;
    if (next.nextLearnS <= 0) {
      next.nextLearnS = LEARN_EVERY_S;
      double[] row = next.row();
      if (oxygenFree) {
        next.learn(row);
      }
      next.uncertaintyK = next.uncertainty(row);
    }
    if (!oxygenFree) {
      next.integralKs += next.excessK * tickS;
      next.integralUncertaintyKs += next.uncertaintyK * tickS;
    }
    return next;
  }

  /** How far the sample stands above what the oven makes of it, some minutes late. */
  Estimate excessK() {
    return new Estimate(excessK, uncertaintyK);
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
    double half = theta[1] / 2;
    double root = StrictMath.sqrt(StrictMath.max(0, half * half - theta[0]));
    return StrictMath.max(1, half - root);
  }

  /** Whether it has seen enough to be worth showing. */
  boolean isLearnt() {
    return learnt > 0;
  }

  /**
   * Oxygen for one K s, in mol, as far as it is known before gas and heat were seen together:
   *
   * <pre>
   *   a = G / |dH|,   G = k C / (tau_v + tau_s)
   * </pre>
   */
  Estimate molPerKelvinSecond(Plan plan) {
    double lagS = begun ? theta[1] : 1;
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

  private void begin(double newSampleK, double newOvenK, double newRoomK, Plan plan) {
    begun = true;
    fromK = newSampleK;
    room1 = newRoomK - fromK;
    room2 = room1;
    ovenK = newOvenK - fromK;
    oven1 = ovenK;
    oven2 = ovenK;
    double[] spread;
    OvenModel model = plan.modelRegulator() == null ? null : plan.modelRegulator().model();
    if (model == null) {
      theta = new double[] {4e4, 450, 0.96, 0};
      spread = new double[] {4e4, 300, 0.05, 3};
    } else {
      double vesselS = model.vesselSecondsAt(COLD_K);
      double sampleS = model.sampleSecondsAt(COLD_K);
      double arrives = model.neckS() / (model.neckS() + vesselS);
      theta = new double[] {vesselS * sampleS, vesselS + sampleS, arrives, 0};
      spread = new double[] {0.2 * theta[0], 0.1 * theta[1], 0.01, 3};
    }
    theta[3] = -theta[2] * (ovenK - room2) - room2;
    covariance = new double[SIZE][SIZE];
    for (int i = 0; i < SIZE; i++) {
      covariance[i][i] = spread[i] * spread[i];
    }
  }

  private void filter(double newSampleK, double newOvenK, double newRoomK, double tickS) {
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

  /** Recursive least squares. */
  private void learn(double[] row) {
    double[] spread = times(covariance, row);
    double total = EQUATION_K2 + dot(row, spread);
    double[] t = theta.clone();
    double[][] p = new double[SIZE][SIZE];
    for (int i = 0; i < SIZE; i++) {
      t[i] += spread[i] * excessK / total;
      for (int j = 0; j < SIZE; j++) {
        p[i][j] = covariance[i][j] - spread[i] * spread[j] / total;
      }
    }
    theta = t;
    covariance = p;
    learntSumK += sample2;
    learnt++;
  }

  private double uncertainty(double[] row) {
    double known = dot(row, times(covariance, row));
    double awayK = StrictMath.abs(sample2 - learntSumK / StrictMath.max(1, learnt));
    double lag = StrictMath.min(LAG_ERROR_MAX, LAG_ERROR + LAG_ERROR_PER_KELVIN * awayK);
    double moving = lag * theta[1] * row[1];
    double lost = PER_KELVIN * awayK;
    return StrictMath.sqrt(
        FLOOR_K * FLOOR_K + StrictMath.max(0, known) + moving * moving + lost * lost);
  }

  private static double[] times(double[][] matrix, double[] vector) {
    double[] product = new double[SIZE];
    for (int i = 0; i < SIZE; i++) {
      product[i] = dot(matrix[i], vector);
    }
    return product;
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < SIZE; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }

  private HeatBalance copy() {
    try {
      return (HeatBalance) clone();
    } catch (CloneNotSupportedException impossible) {
      throw new AssertionError(impossible);
    }
  }
}
