package tarnish.controller.control;

import tarnish.shared.estimate.Estimate;

/**
 * Oxygen gained per formula unit, from the gas and from the balance together, through losses,
 * additions and changes of vessel.
 *
 * <p>The gas tells the change since a reference point, the balance a mass:
 *
 * <pre>
 *   o = o_ref + 2 (dU - S theta)/(N (1 + nu))        m = N (1 + nu) (M + M_O o)
 * </pre>
 *
 * U is the uptake by the gas, S its sensitivities to the systematic errors theta (see {@link
 * GasModel}), N the amount of formula units and nu its relative error. Theta, nu and o_ref are
 * estimated together: a weighing is a Kalman update (least squares with all correlations, JCGM
 * 102:2011), so it corrects the gauge's gain and the volumes for everything that follows.
 *
 * <p>A loss rescales N and leaves o alone. Immutable: arrays are never changed after construction.
 */
public final class Composition {
  /** Molar mass of O in kg/mol, IUPAC abridged 2021. */
  private static final double OXYGEN_KG_PER_MOL = 15.999e-3;

  /** Spread of an amount that nobody knows any more, relative. */
  private static final double UNKNOWN_AMOUNT = 0.5;

  private static final int NU = GasModel.ERRORS;
  private static final int REFERENCE = GasModel.ERRORS + 1;
  private static final int SIZE = GasModel.ERRORS + 2;

  /** Standard uncertainty of one weighing. */
  private final double balanceKg;

  private final double unitKgPerMol;
  private final double amountMol;
  private final double referencePerUnit;
  private final double[] theta;
  private final double[][] covariance;
  private final GasAccount gasThen;

  /** Masses of the whole solid since it was last added to or taken from, oldest first, in kg. */
  private final double[] masses;

  private Composition(
      double balanceKg,
      double unitKgPerMol,
      double amountMol,
      double referencePerUnit,
      double[] theta,
      double[][] covariance,
      GasAccount gasThen,
      double[] masses) {
    this.balanceKg = balanceKg;
    this.unitKgPerMol = unitKgPerMol;
    this.amountMol = amountMol;
    this.referencePerUnit = referencePerUnit;
    this.theta = theta;
    this.covariance = covariance;
    this.gasThen = gasThen;
    this.masses = masses;
  }

  private static final double[] NOT_WEIGHED = {};
  private static final int MASSES_KEPT = 8;

  /** Two standard uncertainties of a difference of two weighings, in those of one. */
  private static final double STEADY = 2 * StrictMath.sqrt(2);

  /** Whether the last {@code weighings} masses agree within the balance's uncertainty. */
  boolean massIsSteady(int weighings) {
    if (masses.length < weighings) {
      return false;
    }
    double least = Double.MAX_VALUE;
    double most = 0;
    for (int i = masses.length - weighings; i < masses.length; i++) {
      least = StrictMath.min(least, masses[i]);
      most = StrictMath.max(most, masses[i]);
    }
    return most - least <= STEADY * balanceKg;
  }

  private Composition withMass(double massKg) {
    int from = masses.length == MASSES_KEPT ? 1 : 0;
    double[] more = java.util.Arrays.copyOfRange(masses, from, masses.length + 1);
    more[more.length - 1] = massKg;
    return new Composition(
        balanceKg, unitKgPerMol, amountMol, referencePerUnit, theta, covariance, gasThen, more);
  }

  /** The charge as weighed in. */
  static Composition ofCharge(Plan plan) {
    double[][] covariance = new double[SIZE][SIZE];
    for (int i = 0; i < GasModel.ERRORS; i++) {
      covariance[i][i] = 1;
    }
    double relative =
        plan.recipe().charge().massStandardUncertaintyKg() / plan.recipe().charge().massKg();
    covariance[NU][NU] = relative * relative;
    return new Composition(
        plan.rig().balanceStandardUncertaintyKg(),
        plan.recipe().chargeMolarMassKgPerMol(),
        plan.recipe().chargeMol(),
        0,
        new double[GasModel.ERRORS],
        covariance,
        GasAccount.empty(plan.gasModel(), plan.rig().oxygen()),
        NOT_WEIGHED);
  }

  /** What a weighing did: the composition after it and how far the balance was from the gas. */
  record Weighing(Composition after, Estimate byGas, Estimate byMass, double deviations) {}

  /** Formula units of the solid in the vessel, in mol. */
  public double amountMol() {
    return amountMol;
  }

  /** Oxygen per formula unit by all witnesses. */
  public Estimate now(GasAccount gas) {
    GasAccount.Change change = gas.since(gasThen);
    return new Estimate(perUnit(change), StrictMath.sqrt(variance(row(change), change)));
  }

  /** Oxygen taken up in the whole batch, in mol, with what the weighings tell about the gas. */
  public Estimate uptake(GasAccount gas) {
    GasAccount.Change total = gas.total();
    double value = total.mol();
    double[] row = new double[SIZE];
    for (int i = 0; i < GasModel.ERRORS; i++) {
      value -= total.errors()[i] * theta[i];
      row[i] = total.errors()[i];
    }
    double u = StrictMath.sqrt(StrictMath.max(0, quadratic(row)) + total.variance());
    return new Estimate(value, u);
  }

  /** Mass of the solid that the composition says, in kg. */
  public double massKg(GasAccount gas) {
    return amountMol * (unitKgPerMol + OXYGEN_KG_PER_MOL * now(gas).value());
  }

  /** Takes a mass of the whole solid into account. */
  Weighing weighed(double massKg, GasAccount gas) {
    return weighed(massKg, 0, gas);
  }

  /**
   * The same with the uncertainty of its correction for buoyancy, in kg.
   *
   * @param correctionKg adds to the balance's own
   */
  Weighing weighed(double massKg, double correctionKg, GasAccount gas) {
    Composition here = advanced(gas);
    Estimate byGas = here.reference();
    double unitKg = unitKgPerMol + OXYGEN_KG_PER_MOL * here.referencePerUnit;
    double[] row = new double[SIZE];
    row[NU] = amountMol * unitKg;
    row[REFERENCE] = amountMol * OXYGEN_KG_PER_MOL;
    double balance = balanceKg * balanceKg + correctionKg * correctionKg;
    double innovationVariance = here.quadratic(row) + balance;
    double innovation = massKg - amountMol * unitKg;
    double massPerUnit = (massKg / amountMol - unitKgPerMol) / OXYGEN_KG_PER_MOL;
    double massUncertainty =
        StrictMath.sqrt(balance + row[NU] * row[NU] * here.covariance[NU][NU])
            / (amountMol * OXYGEN_KG_PER_MOL);
    return new Weighing(
        here.updated(row, innovation, innovationVariance).withMass(massKg),
        byGas,
        new Estimate(massPerUnit, massUncertainty),
        innovation / StrictMath.sqrt(innovationVariance));
  }

  /** After a loss: what is left was weighed; composition stays, amount follows the mass. */
  Composition rescaledTo(double leftKg, GasAccount gas) {
    Composition here = advanced(gas);
    double unitKg = unitKgPerMol + OXYGEN_KG_PER_MOL * here.referencePerUnit;
    double[][] p = here.copyOfCovariance();
    independent(p, NU, UNKNOWN_AMOUNT * UNKNOWN_AMOUNT);
    Composition open =
        new Composition(
            balanceKg,
            unitKgPerMol,
            leftKg / unitKg,
            here.referencePerUnit,
            here.theta,
            p,
            here.gasThen,
            NOT_WEIGHED);
    return open.weighed(leftKg, gas).after;
  }

  /** A part of known mass was taken out: a sample, or spilled solid that was swept up. */
  Composition reducedBy(double takenKg, double uncertaintyKg, GasAccount gas) {
    Composition here = advanced(gas);
    double massKg = amountMol * (unitKgPerMol + OXYGEN_KG_PER_MOL * here.referencePerUnit);
    double share = 1 - takenKg / massKg;
    double[][] p = here.copyOfCovariance();
    double u = uncertaintyKg / (massKg * share);
    p[NU][NU] += u * u;
    return new Composition(
        balanceKg,
        unitKgPerMol,
        amountMol * share,
        here.referencePerUnit,
        here.theta,
        p,
        here.gasThen,
        NOT_WEIGHED);
  }

  /** Fresh charge was added: more formula units, the same oxygen over all of them. */
  Composition increasedBy(double addedKg, double uncertaintyKg, GasAccount gas) {
    Composition here = advanced(gas);
    double more = amountMol + addedKg / unitKgPerMol;
    double share = amountMol / more;
    double[][] p = here.copyOfCovariance();
    for (int i = 0; i < SIZE; i++) {
      p[REFERENCE][i] *= share;
      p[i][REFERENCE] *= share;
      p[NU][i] *= share;
      p[i][NU] *= share;
    }
    double u = uncertaintyKg / unitKgPerMol / more;
    p[NU][NU] += u * u;
    return new Composition(
        balanceKg,
        unitKgPerMol,
        more,
        here.referencePerUnit * share,
        here.theta,
        p,
        here.gasThen,
        NOT_WEIGHED);
  }

  /** The vessel was changed: its volumes' errors are new ones; gauge and thermocouples stay. */
  Composition inVessel(GasAccount gas) {
    Composition here = advanced(gas);
    double[][] p = here.copyOfCovariance();
    double[] errors = here.theta.clone();
    for (int i : new int[] {GasModel.HOT_VOLUME, GasModel.COLD_VOLUME}) {
      independent(p, i, 1);
      errors[i] = 0;
    }
    return new Composition(
        balanceKg, unitKgPerMol, amountMol, here.referencePerUnit, errors, p, here.gasThen, masses);
  }

  Estimate reference() {
    return new Estimate(
        referencePerUnit, StrictMath.sqrt(StrictMath.max(0, covariance[REFERENCE][REFERENCE])));
  }

  private double perUnit(GasAccount.Change change) {
    return referencePerUnit + 2 * corrected(change) / amountMol;
  }

  private double corrected(GasAccount.Change change) {
    double value = change.mol();
    for (int i = 0; i < GasModel.ERRORS; i++) {
      value -= change.errors()[i] * theta[i];
    }
    return value;
  }

  /** Derivatives of o by theta, nu and o_ref. */
  private double[] row(GasAccount.Change change) {
    double[] row = new double[SIZE];
    for (int i = 0; i < GasModel.ERRORS; i++) {
      row[i] = -2 * change.errors()[i] / amountMol;
    }
    row[NU] = -2 * corrected(change) / amountMol;
    row[REFERENCE] = 1;
    return row;
  }

  private double variance(double[] row, GasAccount.Change change) {
    double random = 4 * change.variance() / (amountMol * amountMol);
    return StrictMath.max(0, quadratic(row) + random);
  }

  /** The same knowledge with the reference moved to now. */
  private Composition advanced(GasAccount gas) {
    GasAccount.Change change = gas.since(gasThen);
    double[] row = row(change);
    double[][] p = copyOfCovariance();
    for (int i = 0; i < SIZE; i++) {
      double sum = 0;
      for (int j = 0; j < SIZE; j++) {
        sum += covariance[i][j] * row[j];
      }
      p[i][REFERENCE] = sum;
      p[REFERENCE][i] = sum;
    }
    p[REFERENCE][REFERENCE] = variance(row, change);
    return new Composition(
        balanceKg, unitKgPerMol, amountMol, perUnit(change), theta, p, gas, masses);
  }

  private Composition updated(double[] row, double innovation, double innovationVariance) {
    double[] gain = new double[SIZE];
    for (int i = 0; i < SIZE; i++) {
      for (int j = 0; j < SIZE; j++) {
        gain[i] += covariance[i][j] * row[j] / innovationVariance;
      }
    }
    double[][] p = copyOfCovariance();
    for (int i = 0; i < SIZE; i++) {
      for (int j = 0; j < SIZE; j++) {
        p[i][j] -= gain[i] * gain[j] * innovationVariance;
      }
    }
    double[] errors = theta.clone();
    for (int i = 0; i < GasModel.ERRORS; i++) {
      errors[i] += gain[i] * innovation;
    }
    return new Composition(
        balanceKg,
        unitKgPerMol,
        amountMol * (1 + gain[NU] * innovation),
        referencePerUnit + gain[REFERENCE] * innovation,
        errors,
        p,
        gasThen,
        masses);
  }

  private double quadratic(double[] row) {
    double sum = 0;
    for (int i = 0; i < SIZE; i++) {
      for (int j = 0; j < SIZE; j++) {
        sum += row[i] * covariance[i][j] * row[j];
      }
    }
    return sum;
  }

  private double[][] copyOfCovariance() {
    double[][] copy = new double[SIZE][];
    for (int i = 0; i < SIZE; i++) {
      copy[i] = covariance[i].clone();
    }
    return copy;
  }

  private static void independent(double[][] p, int which, double variance) {
    for (int i = 0; i < SIZE; i++) {
      p[which][i] = 0;
      p[i][which] = 0;
    }
    p[which][which] = variance;
  }
}
