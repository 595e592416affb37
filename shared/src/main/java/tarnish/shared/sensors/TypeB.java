package tarnish.shared.sensors;

/**
 * Coefficients of type B (platinum-30 % rhodium against platinum-6 % rhodium), ITS-90. Source: NIST
 * Monograph 175 (1993), the same as IEC 60584-1. Forward pieces take °C and give mV, inverse pieces
 * take mV and give °C.
 */
final class TypeB {
  static final Polynomial[] FORWARD = {
    new Polynomial(
        0.0,
        630.615,
        0.0,
        -0.246508183460E-03,
        0.590404211710E-05,
        -0.132579316360E-08,
        0.156682919010E-11,
        -0.169445292400E-14,
        0.629903470940E-18),
    new Polynomial(
        630.615,
        1820.0,
        -0.389381686210E01,
        0.285717474700E-01,
        -0.848851047850E-04,
        0.157852801640E-06,
        -0.168353448640E-09,
        0.111097940130E-12,
        -0.445154310330E-16,
        0.989756408210E-20,
        -0.937913302890E-24)
  };

  static final Polynomial[] INVERSE = {
    new Polynomial(
        0.291,
        2.431,
        9.8423321E01,
        6.9971500E02,
        -8.4765304E02,
        1.0052644E03,
        -8.3345952E02,
        4.5508542E02,
        -1.5523037E02,
        2.9886750E01,
        -2.4742860),
    new Polynomial(
        2.431,
        13.82,
        2.1315071E02,
        2.8510504E02,
        -5.2742887E01,
        9.9160804,
        -1.2965303,
        1.1195870E-01,
        -6.0625199E-03,
        1.8661696E-04,
        -2.4878585E-06)
  };

  private TypeB() {}
}
