package tarnish.shared.sensors;

/**
 * Coefficients of type K (nickel-chromium against nickel-aluminium), ITS-90. Source: NIST Monograph
 * 175 (1993), the same as IEC 60584-1. Forward pieces take °C and give mV, inverse pieces take mV
 * and give °C.
 */
final class TypeK {
  static final Polynomial[] FORWARD = {
    new Polynomial(
        -270.0,
        0.0,
        0.0,
        0.394501280250E-01,
        0.236223735980E-04,
        -0.328589067840E-06,
        -0.499048287770E-08,
        -0.675090591730E-10,
        -0.574103274280E-12,
        -0.310888728940E-14,
        -0.104516093650E-16,
        -0.198892668780E-19,
        -0.163226974860E-22),
    new Polynomial(
        0.0,
        1372.0,
        -0.176004136860E-01,
        0.389212049750E-01,
        0.185587700320E-04,
        -0.994575928740E-07,
        0.318409457190E-09,
        -0.560728448890E-12,
        0.560750590590E-15,
        -0.320207200030E-18,
        0.971511471520E-22,
        -0.121047212750E-25)
  };

  static final Polynomial[] INVERSE = {
    new Polynomial(
        -5.891,
        0.0,
        0.0,
        2.5173462E01,
        -1.1662878,
        -1.0833638,
        -8.9773540E-01,
        -3.7342377E-01,
        -8.6632643E-02,
        -1.0450598E-02,
        -5.1920577E-04),
    new Polynomial(
        0.0,
        20.644,
        0.0,
        2.508355E01,
        7.860106E-02,
        -2.503131E-01,
        8.315270E-02,
        -1.228034E-02,
        9.804036E-04,
        -4.413030E-05,
        1.057734E-06,
        -1.052755E-08),
    new Polynomial(
        20.644,
        54.886,
        -1.318058E02,
        4.830222E01,
        -1.646031,
        5.464731E-02,
        -9.650715E-04,
        8.802193E-06,
        -3.110810E-08)
  };

  // a0 exp(a1 (t - a2)^2), added to the polynomial at 0 °C and above only.
  private static final double A0_MILLIVOLT = 0.1185976;
  private static final double A1_PER_CELSIUS_SQUARED = -1.183432E-4;
  private static final double A2_CELSIUS = 126.9686;

  private TypeK() {}

  /** The magnetic term in mV at {@code celsius}, which must be 0 or more. */
  static double exponentialMillivolt(double celsius) {
    double distance = celsius - A2_CELSIUS;
    return A0_MILLIVOLT * StrictMath.exp(A1_PER_CELSIUS_SQUARED * distance * distance);
  }
}
