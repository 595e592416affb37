package tarnish.shared.oven;

/**
 * How an oven behaves now beside what its model says, from what a batch did with it: how much of
 * its power it gives, how much of its heat it loses, and how fast the sample follows.
 *
 * <p>Over windows of five minutes the model, given the measured oven, leaves three factors free:
 *
 * <pre>
 *   rise of the oven + heat into the vessel = power * b integral(e) - loss * integral(loss of model)
 *   rise of the sample                      = follow * integral(heat from the vessel) + offset
 * </pre>
 *
 * and least squares finds them with their standard uncertainties from what is left over. The
 * vessel, which nobody measures, is carried along behind the measured oven. Not thread-safe.
 */
public final class OvenDrift {
  private static final double WINDOW_S = 300;

  /** Fewer windows than this tell nothing: an hour and a half. */
  private static final int WINDOWS_MIN = 18;

  /** How the sample follows shows while it moves by so much in a window, in K. */
  private static final double MOVED_K = 3;

  /** After a break the element and the vessel are not known for this long, in s. */
  private static final double SETTLES_S = 1200;

  private final OvenModel model;
  private final double[] told;
  private final double tickS;
  private long ticks;

  private double element;
  private double vesselK;
  private double knownS;
  private double windowS;
  private double startOvenK;
  private double startSampleK;
  private double heatSum;
  private double lossSum;
  private double vesselSum;
  private double sampleSum;

  private final Sums oven = new Sums();
  private final Sums sample = new Sums();

  /**
   * @param tickS time between two readings, above 0
   */
  public OvenDrift(OvenModel model, double tickS) {
    if (!(tickS > 0)) {
      throw new IllegalArgumentException("the time between readings must be above 0 s: " + tickS);
    }
    this.model = model;
    this.tickS = tickS;
    told = new double[1 + (int) StrictMath.round(model.deadTimeS() / tickS)];
  }

  /** Factors with their standard uncertainties; 1 means as identified. */
  public record Found(
      double power,
      double powerUncertainty,
      double loss,
      double lossUncertainty,
      double follow,
      double followUncertainty,
      int windows) {

    /** Whether enough was seen to say anything. */
    public boolean isEnough() {
      return windows >= WINDOWS_MIN;
    }
  }

  /**
   * Takes a tick.
   *
   * @param duty that the heater was given since the last one, 0 to 1
   * @param ovenK measured; NaN where it cannot be believed, which is a break
   * @param sampleK measured; NaN likewise
   * @param roomK room temperature
   */
  public void tick(double duty, double ovenK, double sampleK, double roomK) {
    if (!(ovenK > 0) || !(sampleK > 0)) {
      knownS = 0;
      windowS = 0;
      return;
    }
    int at = (int) (ticks % told.length);
    told[at] = duty;
    ticks++;
    double arriving = told[(int) (ticks % told.length)];
    element += -StrictMath.expm1(-tickS / model.elementS()) * (arriving - element);
    if (knownS == 0) {
      vesselK = sampleK;
    }
    knownS += tickS;
    double oven4 = OvenModel.fourth(ovenK);
    double vessel4 = OvenModel.fourth(vesselK);
    double toVessel =
        model.vesselPerS() * (ovenK - vesselK) + model.vesselRadiationPerSK3() * (oven4 - vessel4);
    double toSample =
        model.samplePerS() * (vesselK - sampleK)
            + model.sampleRadiationPerSK3() * (vessel4 - OvenModel.fourth(sampleK));
    if (windowS == 0) {
      startOvenK = ovenK;
      startSampleK = sampleK;
      heatSum = 0;
      lossSum = 0;
      vesselSum = 0;
      sampleSum = 0;
    }
    heatSum += tickS * model.heatingKPerS() * element;
    lossSum += tickS * model.lossKPerS(ovenK, roomK);
    vesselSum += tickS * model.vesselLoad() * toVessel;
    sampleSum += tickS * toSample;
    windowS += tickS;
    vesselK += tickS * (toVessel - (vesselK - roomK) / model.neckS());
    if (windowS >= WINDOW_S) {
      if (knownS > SETTLES_S) {
        oven.add(heatSum, -lossSum, ovenK - startOvenK + vesselSum);
        if (StrictMath.abs(sampleK - startSampleK) >= MOVED_K) {
          sample.add(sampleSum, windowS, sampleK - startSampleK);
        }
      }
      windowS = 0;
    }
  }

  /** What was found so far. */
  public Found found() {
    double[] of = oven.solve();
    double[] behind = sample.solve();
    return new Found(of[0], of[2], of[1], of[3], behind[0], behind[2], oven.count);
  }

  /** Sums of a regression y = a x1 + b x2. */
  private static final class Sums {
    private int count;
    private double x11;
    private double x12;
    private double x22;
    private double x1y;
    private double x2y;
    private double yy;

    void add(double x1, double x2, double y) {
      count++;
      x11 += x1 * x1;
      x12 += x1 * x2;
      x22 += x2 * x2;
      x1y += x1 * y;
      x2y += x2 * y;
      yy += y * y;
    }

    /** a, b and their standard uncertainties. */
    double[] solve() {
      double determinant = x11 * x22 - x12 * x12;
      if (!(determinant > 0) || count < 4) {
        return new double[] {1, 1, Double.MAX_VALUE, Double.MAX_VALUE};
      }
      double a = (x22 * x1y - x12 * x2y) / determinant;
      double b = (x11 * x2y - x12 * x1y) / determinant;
      double variance = StrictMath.max(0, yy - a * x1y - b * x2y) / (count - 2);
      return new double[] {
        a,
        b,
        StrictMath.sqrt(variance * x22 / determinant),
        StrictMath.sqrt(variance * x11 / determinant)
      };
    }
  }

  /**
   * The model that behaves as found: between two batches it may take the place of the old one.
   *
   * @throws IllegalStateException if not enough was seen
   */
  public OvenModel adapted() {
    Found found = found();
    if (!found.isEnough() || !(found.power() > 0 && found.loss() > 0 && found.follow() > 0)) {
      throw new IllegalStateException("too little was seen of the oven to adapt its model");
    }
    return new OvenModel(
        model.heatingKPerS() * found.power(),
        model.elementS(),
        model.deadTimeS(),
        model.lossS() / found.loss(),
        model.lossRadiation(),
        model.vesselS(),
        model.vesselRadiation(),
        model.sampleS() / found.follow(),
        model.sampleRadiation(),
        model.neckS(),
        model.vesselLoad());
  }
}
