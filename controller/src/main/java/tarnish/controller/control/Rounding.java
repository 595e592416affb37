package tarnish.controller.control;

import tarnish.shared.oven.OvenModel;

/**
 * How the setpoint is moved on its {@link Course} so that an oven of finite power can follow it: at
 * the recipe's rate, with corners as long as this oven needs. Immutable.
 */
final class Rounding {
  private static final double LEAST_LAG_S = 10;

  /**
   * Shortest lag in delays of the oven (element and dead time). The heater is told ahead by that
   * delay to the first order only, which is good for a corner that is not shorter than it by much:
   * found on simulated ovens.
   */
  private static final double LEAST_LAG_DELAYS = 0.7;

  /** Distance at which a ramp that closes in has come to its end, in K. */
  private static final double LANDED_K = 0.02;

  /**
   * Three lags that become shorter as the oven warms push the setpoint on by three times as much;
   * the ramp is slowed by a little more than that, so that the setpoint stays within the recipe.
   */
  private static final double CATCH_UP = 3.5;

  /** How fast the lag may change while the setpoint moves, in s/s. */
  private static final double LAG_SLEW = 0.1;

  /**
   * Greatest values of the second and third derivative behind three lags when the slope of the ramp
   * changes by 1: t²/(2 tau³) exp(-t/tau) has its top at 2 tau, and its steepest slope at (2 -
   * sqrt(2)) tau.
   */
  private static final double SECOND_TOP = 0.2707;

  private static final double THIRD_TOP = 0.2306;

  /** Times after a corner, in lags, at which the model run backwards asks for the least heat. */
  private static final double[] AFTER = {1.5, 2, 2.5, 3, 3.5, 4, 4.5, 5, 6, 7};

  /** e^-x at those times. */
  private static final double[] DECAY = decay();

  private static double[] decay() {
    double[] decay = new double[AFTER.length];
    for (int i = 0; i < decay.length; i++) {
      decay[i] = StrictMath.exp(-AFTER[i]);
    }
    return decay;
  }

  /** How much longer the lag is made at a time until a corner asks for no cooling. */
  private static final double LONGER = 1.06;

  /** How near the rounded setpoint must be to its end to be there, in K. */
  private static final double THERE_K = 0.02;

  private final OvenModel model;
  private final RegulatorTuning tuning;
  private final double dutyMax;

  Rounding(OvenModel model, RegulatorTuning tuning, double dutyMax) {
    this.model = model;
    this.tuning = tuning;
    this.dutyMax = dutyMax;
  }

  /**
   * Moves on. While the heater is at its limit and the sample lags, time passes more slowly for the
   * whole course: see {@link ModelRegulator#progress}.
   *
   * @param rateKPerS of the recipe
   * @param mostKPerS rate with which what the corners cost may be made up for, at least as much
   */
  Course move(
      Course course, double toK, double rateKPerS, double mostKPerS, double roomK, double tickS) {
    if (course.restsAt(toK)) {
      return course;
    }
    double passedS = course.progress() * tickS;
    double lineLeftK = toK - course.lineK();
    double lineStepK = StrictMath.min(StrictMath.abs(lineLeftK), rateKPerS * passedS);
    double lineK = course.lineK() + (lineLeftK > 0 ? lineStepK : -lineStepK);
    double setpointK = course.setpointK();
    double behindK = toK > setpointK ? lineK - setpointK : setpointK - lineK;
    double hurry = StrictMath.max(0, StrictMath.min(1, behindK));
    double hurriedKPerS = rateKPerS + hurry * (mostKPerS - rateKPerS);
    return moved(course, lineK, toK, hurriedKPerS, roomK, tickS);
  }

  private Course moved(
      Course course, double lineK, double toK, double rateKPerS, double roomK, double tickS) {
    double passedS = course.progress() * tickS;
    double lagS = lagS(course, toK, rateKPerS, roomK, tickS);
    double shorterBy = StrictMath.max(0, course.lagS() - lagS) / tickS;
    double leftK = toK - course.rampK();
    double landingS = landingS(course.setpointK(), toK, lagS, rateKPerS, roomK);
    double slowed = StrictMath.abs(leftK) / landingS;
    double rate = StrictMath.min(rateKPerS / (1 + CATCH_UP * shorterBy), slowed);
    double stepK = rate * passedS;
    boolean landed = StrictMath.abs(leftK) <= StrictMath.max(stepK, LANDED_K);
    double rampK = landed ? toK : course.rampK() + (leftK > 0 ? stepK : -stepK);
    double share = passedS / (lagS + passedS);
    double firstK = course.firstK() + share * (rampK - course.firstK());
    double secondK = course.secondK() + share * (firstK - course.secondK());
    double setpointK = course.setpointK() + share * (secondK - course.setpointK());
    double mostK = rateKPerS * passedS;
    double nearK = StrictMath.min(THERE_K, mostK / 2);
    boolean there =
        rampK == toK
            && StrictMath.abs(setpointK - toK) < nearK
            && StrictMath.abs(firstK - toK) < THERE_K;
    if (there) {
      return course.restarted(toK);
    }
    double rampRateKPerS = landed ? 0 : leftK > 0 ? rate : -rate;
    return new Course(
        setpointK, rampK, lineK, firstK, secondK, lagS, rampRateKPerS, course.progress());
  }

  /**
   * The lag with which the corner at the start does not ask for more than the heater has, or for
   * cooling faster than the oven loses its heat.
   */
  private double lagS(Course course, double toK, double rateKPerS, double roomK, double tickS) {
    double beforeS = course.lagS();
    double setpointK = course.setpointK();
    if (beforeS > 0 && setpointK == toK) {
      return beforeS;
    }
    double wantedS = lagFor(setpointK, rateKPerS, toK > setpointK, roomK);
    double mostS = LAG_SLEW * tickS;
    return beforeS == 0
        ? wantedS
        : beforeS + StrictMath.max(-mostS, StrictMath.min(mostS, wantedS - beforeS));
  }

  /**
   * Time constant with which the ramp closes in on its end. The model run backwards asks there for
   * an oven that changes by its rate, (tv + ts) times its second and tv ts times its third
   * derivative, which must stay above what the oven loses (or, on the way down, below what the
   * heater has).
   */
  private double landingS(double fromK, double toK, double lagS, double rateKPerS, double roomK) {
    double vesselS = model.vesselSecondsAt(toK);
    double sampleS = model.sampleSecondsAt(toK);
    double freeKPerS =
        StrictMath.max(0, tuning.landingShare() * headroomKPerS(toK, toK < fromK, roomK));
    double asked = vesselS + sampleS + SECOND_TOP * vesselS * sampleS / lagS;
    return StrictMath.max(lagS, rateKPerS * asked / (rateKPerS + freeKPerS));
  }

  /** How long after the heater the oven begins to follow. */
  private double delayS() {
    return model.elementS() + model.deadTimeS();
  }

  /** How fast the oven can be made to rise, or fall, beyond standing still, in K/s. */
  private double headroomKPerS(double atK, boolean up, double roomK) {
    double holding = model.holdingDuty(atK, roomK) * model.heatingKPerS();
    return up ? dutyMax * model.heatingKPerS() - holding : holding;
  }

  /** The oven's rate at a corner: (tv + ts) r'' + tv ts r''' of the model run backwards. */
  private double lagFor(double atK, double rateKPerS, boolean up, double roomK) {
    double vesselS = model.vesselSecondsAt(atK);
    double sampleS = model.sampleSecondsAt(atK);
    double leastS = StrictMath.max(LEAST_LAG_S, LEAST_LAG_DELAYS * delayS());
    double freely = StrictMath.max(leastS, tuning.rounding() * (vesselS + sampleS));
    double allowed = tuning.cornerShare() * headroomKPerS(atK, up, roomK);
    double longestS = vesselS + sampleS;
    if (!(allowed > 0)) {
      return longestS;
    }
    double second = SECOND_TOP * (vesselS + sampleS) * rateKPerS / allowed;
    double third = THIRD_TOP * vesselS * sampleS * rateKPerS / allowed;
    double needed = second / 2 + StrictMath.sqrt(second * second / 4 + third);
    double wantedS = StrictMath.max(freely, needed);
    double backKPerS = headroomKPerS(atK, !up, roomK);
    return StrictMath.min(
        longestS, backed(wantedS, longestS, vesselS, sampleS, -backKPerS / rateKPerS));
  }

  /** The shortest lag from {@code fromS} on after whose corner no more cooling is asked for. */
  private double backed(
      double fromS, double longestS, double vesselS, double sampleS, double allowed) {
    double tauS = fromS;
    double least = leastAfter(tauS, vesselS, sampleS);
    while (least < allowed && tauS < longestS) {
      double longerS = tauS * LONGER;
      double next = leastAfter(longerS, vesselS, sampleS);
      if (next >= allowed) {
        return tauS + (longerS - tauS) * (allowed - least) / (next - least);
      }
      tauS = longerS;
      least = next;
    }
    return tauS;
  }

  /**
   * The least that the model run backwards asks for after a corner, as a share of the ramp's rate:
   * once the oven has its lead it must slow down, and a cold oven that loses nothing cannot.
   *
   * <pre>
   *   w1 + delay w2,  w1 = r1 + (tv + ts) r2 + tv ts r3,  w2 = r2 + (tv + ts) r3 + tv ts r4
   *   r1 = 1 - (1 + x + x²/2) e^-x,  r2 = x²/2 e^-x/tau,  r3 = (x - x²/2) e^-x/tau²,
   *   r4 = (1 - 2 x + x²/2) e^-x/tau³,  x = t/tau
   * </pre>
   */
  private double leastAfter(double tauS, double vesselS, double sampleS) {
    double delayS = delayS();
    double second = (vesselS + sampleS + delayS) / tauS;
    double third = (vesselS * sampleS + (vesselS + sampleS) * delayS) / (tauS * tauS);
    double fourth = vesselS * sampleS * delayS / (tauS * tauS * tauS);
    double least = 1;
    for (int i = 0; i < AFTER.length; i++) {
      double x = AFTER[i];
      double half = x * x / 2;
      double asked =
          -(1 + x + half) + second * half + third * (x - half) + fourth * (1 - 2 * x + half);
      least = StrictMath.min(least, 1 + asked * DECAY[i]);
    }
    return least;
  }
}
