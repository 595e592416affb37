package tarnish.shared.sensors;

/**
 * Coefficients of type J (iron against copper-nickel), ITS-90. Source: NIST Monograph 175 (1993),
 * the same as IEC 60584-1. Forward pieces take °C and give mV, inverse pieces take mV and give °C.
 */
final class TypeJ {
  static final Polynomial[] FORWARD = {
    new Polynomial(
        -210.0,
        760.0,
        0.0,
        0.503811878150E-01,
        0.304758369300E-04,
        -0.856810657200E-07,
        0.132281952950E-09,
        -0.170529583370E-12,
        0.209480906970E-15,
        -0.125383953360E-18,
        0.156317256970E-22),
    new Polynomial(
        760.0,
        1200.0,
        0.296456256810E03,
        -0.149761277860E01,
        0.317871039240E-02,
        -0.318476867010E-05,
        0.157208190040E-08,
        -0.306913690560E-12)
  };

  static final Polynomial[] INVERSE = {
    new Polynomial(
        -8.095,
        0.0,
        0.0,
        1.9528268E01,
        -1.2286185,
        -1.0752178,
        -5.9086933E-01,
        -1.7256713E-01,
        -2.8131513E-02,
        -2.3963370E-03,
        -8.3823321E-05),
    new Polynomial(
        0.0,
        42.919,
        0.0,
        1.978425E01,
        -2.001204E-01,
        1.036969E-02,
        -2.549687E-04,
        3.585153E-06,
        -5.344285E-08,
        5.099890E-10),
    new Polynomial(
        42.919,
        69.553,
        -3.11358187E03,
        3.00543684E02,
        -9.94773230,
        1.70276630E-01,
        -1.43033468E-03,
        4.73886084E-06)
  };

  private TypeJ() {}
}
