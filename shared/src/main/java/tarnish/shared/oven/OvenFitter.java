package tarnish.shared.oven;

import java.util.Arrays;

/**
 * Fits an {@link OvenModel} to a trace by damped Gauss-Newton steps.
 *
 * <p>Minimised is sum (measured - model)²/sigma² + sum (q - q0)²/s², q the parameters on their free
 * scale, q0 and s a wide guess that keeps what the trace does not show from running away. The
 * covariance is the inverse of the normal matrix, times the reduced chi-square and (1 + r)/(1 - r)
 * for residuals with a correlation r from one step to the next. Damping: D. W. Marquardt, J. SIAM
 * 11 (1963) 431 (from memory).
 */
public final class OvenFitter {
  private static final int ITERATIONS_MAX = 100;
  private static final double NEARBY = 1e-4;
  private static final double ENOUGH = 1e-2;

  /** With more damping than this a short step says nothing about the distance to the end. */
  private static final double SMALL_DAMPING = 1e-5;

  private static final int MODEL = OvenParameters.COUNT;

  /** The model's parameters, the temperature at rest and the sample sensor's distance from it. */
  private static final int N = MODEL + 2;

  /** How well the two sensors are known to agree at rest beforehand, in K: hardly at all. */
  private static final double REST_SPREAD_K = 1;

  /** Cost per point of a fit that leaves hardly more than noise: no other start can do better. */
  private static final double NOISE_ONLY = 1.1;

  /**
   * Factors on the guess's heating, element, dead time, loss, its radiation, vessel, its radiation
   * and sample: lags can stand in for each other, so that a fit may end in a hollow beside the
   * best.
   */
  private static final double[][] STARTS = {
    {1, 1, 1, 1, 1, 1, 1, 1},
    {1, 0.6, 3, 1, 1, 1, 1, 1},
    {1, 1, 1, 1, 1, 0.6, 1, 1.7},
    {1, 1.5, 1, 0.7, 0.3, 1.7, 1, 0.6}
  };

  private final OvenTrace trace;
  private final double sigmaK;
  private final double startK;
  private final double sampleOffsetK;
  private final double[] guess;

  // Normal equations of the last assembly.
  private final double[][] normal = new double[N][N];
  private final double[] gradient = new double[N];
  private double cost;

  private OvenFitter(OvenTrace trace, OvenModel guess, double sigmaK, int restSteps) {
    this.trace = trace;
    this.sigmaK = sigmaK;
    this.guess = Arrays.copyOf(OvenParameters.toFree(guess), N);
    double oven = 0;
    double sample = 0;
    for (int i = 0; i < restSteps; i++) {
      oven += trace.ovenK(i) / restSteps;
      sample += trace.sampleK(i) / restSteps;
    }
    startK = oven;
    sampleOffsetK = sample - oven;
  }

  /**
   * Fits.
   *
   * @param trace that begins with everything at rest at room temperature
   * @param guess where to begin
   * @param sigmaK standard deviation of one point of the trace
   * @param restSteps steps at its beginning in which the heater was off, at least 1
   */
  public static OvenFit fit(OvenTrace trace, OvenModel guess, double sigmaK, int restSteps) {
    if (!(sigmaK > 0) || restSteps < 1 || trace.size() < restSteps + N) {
      throw new IllegalArgumentException(
          "a fit needs noise above 0 K and some steps at rest, got "
              + sigmaK
              + " K, "
              + restSteps
              + " of "
              + trace.size());
    }
    OvenFitter fitter = new OvenFitter(trace, guess, sigmaK, restSteps);
    OvenFit best = null;
    double least = Double.MAX_VALUE;
    for (double[] factors : STARTS) {
      double[] start = fitter.guess.clone();
      for (int i = 0; i < factors.length; i++) {
        start[i] += StrictMath.log(factors[i]);
      }
      OvenFit fit = fitter.run(start);
      if (fitter.cost < least) {
        least = fitter.cost;
        best = fit;
      }
      if (least < NOISE_ONLY * 2 * trace.size()) {
        return best;
      }
    }
    return best;
  }

  /** What the model says to a trace: oven and sample reading of every step, in K. */
  public static double[][] predicted(OvenTrace trace, OvenModel model, int restSteps) {
    OvenFitter fitter = new OvenFitter(trace, model, 1, restSteps);
    OvenSimulation simulation = new OvenSimulation(model, fitter.startK);
    double[] atRest = new double[N];
    double[][] predicted = new double[2][trace.size()];
    for (int i = 0; i < trace.size(); i++) {
      fitter.step(simulation, model.deadTimeS(), atRest, i);
      predicted[0][i] = fitter.ovenK;
      predicted[1][i] = fitter.sampleK;
    }
    return predicted;
  }

  private double ovenK;
  private double sampleK;

  private void step(OvenSimulation simulation, double deadTimeS, double[] free, int i) {
    double ovenBefore = simulation.ovenK();
    double sampleBefore = simulation.sampleK();
    double roomK = startK + free[MODEL] + trace.roomK(i) - trace.roomK(0);
    simulation.step(trace.arriving(i, deadTimeS), roomK, trace.stepS());
    double at = trace.readAt();
    ovenK = ovenBefore + at * (simulation.ovenK() - ovenBefore);
    sampleK =
        sampleBefore + at * (simulation.sampleK() - sampleBefore) + sampleOffsetK + free[MODEL + 1];
  }

  private OvenFit run(double[] start) {
    double[] free = start.clone();
    double damping = 1e-3;
    assemble(free);
    double bestCost = cost;
    int iterations = 0;
    boolean moving = true;
    while (moving && iterations < ITERATIONS_MAX) {
      iterations++;
      double[] move = solve(damped(damping), gradient);
      double[] trial = free.clone();
      double largest = 0;
      for (int i = 0; i < N; i++) {
        double bounded = StrictMath.max(-1, StrictMath.min(1, move[i]));
        trial[i] += bounded;
        largest = StrictMath.max(largest, StrictMath.abs(bounded) / (spread(i) + 1e-9));
      }
      double trialCost = costOf(trial);
      if (trialCost <= bestCost) {
        moving = largest > ENOUGH || damping > SMALL_DAMPING;
        free = trial;
        damping = StrictMath.max(1e-9, damping / 5);
        assemble(free);
        bestCost = cost;
      } else {
        damping *= 5;
        moving = damping < 1e9;
      }
    }
    return result(free, iterations);
  }

  /** Roughly the standard uncertainty of a parameter alone, by which a step counts as small. */
  private double spread(int i) {
    return 1 / StrictMath.sqrt(normal[i][i]);
  }

  private double[][] damped(double damping) {
    double[][] matrix = new double[N][];
    for (int i = 0; i < N; i++) {
      matrix[i] = normal[i].clone();
      matrix[i][i] *= 1 + damping;
    }
    return matrix;
  }

  private double costOf(double[] free) {
    OvenModel model = OvenParameters.toModel(free);
    OvenSimulation simulation = new OvenSimulation(model, startK + free[MODEL]);
    double sum = prior(free);
    double weight = 1 / (sigmaK * sigmaK);
    for (int i = 0; i < trace.size(); i++) {
      step(simulation, model.deadTimeS(), free, i);
      double oven = trace.ovenK(i) - ovenK;
      double sample = trace.sampleK(i) - sampleK;
      sum += weight * (oven * oven + sample * sample);
    }
    return Double.isFinite(sum) ? sum : Double.MAX_VALUE;
  }

  private static double priorSpread(int i) {
    return i < MODEL ? OvenParameters.priorSpread(i) : REST_SPREAD_K;
  }

  private double prior(double[] free) {
    double sum = 0;
    for (int i = 0; i < N; i++) {
      double off = (free[i] - guess[i]) / priorSpread(i);
      sum += off * off;
    }
    return sum;
  }

  /** Runs the model and its neighbours side by side and sums up the normal equations. */
  private void assemble(double[] free) {
    OvenSimulation[] runs = new OvenSimulation[N + 1];
    double[] dead = new double[N + 1];
    double[][] nears = new double[N + 1][];
    for (int i = 0; i <= N; i++) {
      double[] near = free.clone();
      if (i < N) {
        near[i] += NEARBY;
      }
      OvenModel model = OvenParameters.toModel(near);
      runs[i] = new OvenSimulation(model, startK + near[MODEL]);
      nears[i] = near;
      dead[i] = model.deadTimeS();
    }
    for (double[] row : normal) {
      Arrays.fill(row, 0);
    }
    double weight = 1 / (sigmaK * sigmaK);
    double[] ovenSlope = new double[N];
    double[] sampleSlope = new double[N];
    cost = prior(free);
    for (int i = 0; i < N; i++) {
      double spread = priorSpread(i);
      gradient[i] = (guess[i] - free[i]) / (spread * spread);
      normal[i][i] = 1 / (spread * spread);
    }
    for (int t = 0; t < trace.size(); t++) {
      step(runs[N], dead[N], nears[N], t);
      double atOven = ovenK;
      double atSample = sampleK;
      double ovenOff = trace.ovenK(t) - atOven;
      double sampleOff = trace.sampleK(t) - atSample;
      cost += weight * (ovenOff * ovenOff + sampleOff * sampleOff);
      for (int i = 0; i < N; i++) {
        step(runs[i], dead[i], nears[i], t);
        ovenSlope[i] = (ovenK - atOven) / NEARBY;
        sampleSlope[i] = (sampleK - atSample) / NEARBY;
        gradient[i] += weight * (ovenSlope[i] * ovenOff + sampleSlope[i] * sampleOff);
        for (int j = 0; j <= i; j++) {
          normal[i][j] += weight * (ovenSlope[i] * ovenSlope[j] + sampleSlope[i] * sampleSlope[j]);
        }
      }
    }
    for (int i = 0; i < N; i++) {
      for (int j = i + 1; j < N; j++) {
        normal[i][j] = normal[j][i];
      }
    }
  }

  private OvenFit result(double[] free, int iterations) {
    OvenModel model = OvenParameters.toModel(free);
    OvenSimulation simulation = new OvenSimulation(model, startK + free[MODEL]);
    Residuals oven = new Residuals();
    Residuals sample = new Residuals();
    for (int i = 0; i < trace.size(); i++) {
      step(simulation, model.deadTimeS(), free, i);
      oven.add(trace.ovenK(i) - ovenK);
      sample.add(trace.sampleK(i) - sampleK);
    }
    double inflation =
        StrictMath.max(1, StrictMath.max(oven.inflation(sigmaK), sample.inflation(sigmaK)));
    double[][] all = inverse(normal);
    double[][] covariance = new double[MODEL][];
    double[] natural = OvenParameters.natural(model);
    double[] uncertainty = new double[MODEL];
    for (int i = 0; i < MODEL; i++) {
      covariance[i] = Arrays.copyOf(all[i], MODEL);
      for (int j = 0; j < MODEL; j++) {
        // No less is known afterwards than the guess said.
        covariance[i][j] *= inflation;
      }
      double spread =
          StrictMath.min(OvenParameters.priorSpread(i), StrictMath.sqrt(covariance[i][i]));
      uncertainty[i] = OvenParameters.slope(i, natural[i]) * spread;
    }
    return new OvenFit(
        model, uncertainty, covariance, oven.rms(), sample.rms(), inflation, iterations);
  }

  /** Size of the residuals and how much each resembles the one before. */
  private static final class Residuals {
    private int count;
    private double squares;
    private double products;
    private double last;

    void add(double residual) {
      squares += residual * residual;
      products += residual * last;
      last = residual;
      count++;
    }

    double rms() {
      return StrictMath.sqrt(squares / count);
    }

    double inflation(double sigmaK) {
      double correlation = StrictMath.max(0, StrictMath.min(0.9999, products / squares));
      // Below three standard deviations of the correlation of pure noise there is none.
      double real = correlation < 3 / StrictMath.sqrt(count) ? 0 : correlation;
      double chiSquare = squares / count / (sigmaK * sigmaK);
      return StrictMath.max(1, chiSquare) * (1 + real) / (1 - real);
    }
  }

  /** Solves a symmetric positive definite system by Cholesky's method. */
  private static double[] solve(double[][] matrix, double[] right) {
    double[][] lower = cholesky(matrix);
    int n = right.length;
    double[] x = right.clone();
    for (int i = 0; i < n; i++) {
      for (int k = 0; k < i; k++) {
        x[i] -= lower[i][k] * x[k];
      }
      x[i] /= lower[i][i];
    }
    for (int i = n - 1; i >= 0; i--) {
      for (int k = i + 1; k < n; k++) {
        x[i] -= lower[k][i] * x[k];
      }
      x[i] /= lower[i][i];
    }
    return x;
  }

  private static double[][] inverse(double[][] matrix) {
    int n = matrix.length;
    double[][] inverse = new double[n][];
    for (int i = 0; i < n; i++) {
      double[] unit = new double[n];
      unit[i] = 1;
      inverse[i] = solve(matrix, unit);
    }
    return inverse;
  }

  private static double[][] cholesky(double[][] matrix) {
    int n = matrix.length;
    double[][] lower = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        double sum = matrix[i][j];
        for (int k = 0; k < j; k++) {
          sum -= lower[i][k] * lower[j][k];
        }
        lower[i][j] =
            i == j ? StrictMath.sqrt(StrictMath.max(sum, 1e-12 * matrix[i][i])) : sum / lower[j][j];
      }
    }
    return lower;
  }
}
