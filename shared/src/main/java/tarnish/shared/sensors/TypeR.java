package tarnish.shared.sensors;

/**
 * Coefficients of type R (platinum-13 % rhodium against platinum), ITS-90. Source: NIST Monograph
 * 175 (1993), the same as IEC 60584-1. Forward pieces take °C and give mV, inverse pieces take mV
 * and give °C.
 */
final class TypeR {
  static final Polynomial[] FORWARD = {
    new Polynomial(
        -50.0,
        1064.18,
        0.0,
        0.528961729765E-02,
        0.139166589782E-04,
        -0.238855693017E-07,
        0.356916001063E-10,
        -0.462347666298E-13,
        0.500777441034E-16,
        -0.373105886191E-19,
        0.157716482367E-22,
        -0.281038625251E-26),
    new Polynomial(
        1064.18,
        1664.5,
        0.295157925316E01,
        -0.252061251332E-02,
        0.159564501865E-04,
        -0.764085947576E-08,
        0.205305291024E-11,
        -0.293359668173E-15),
    new Polynomial(
        1664.5,
        1768.1,
        0.152232118209E03,
        -0.268819888545,
        0.171280280471E-03,
        -0.345895706453E-07,
        -0.934633971046E-14)
  };

  static final Polynomial[] INVERSE = {
    new Polynomial(
        -0.226,
        1.923,
        0.0,
        1.8891380E02,
        -9.3835290E01,
        1.3068619E02,
        -2.2703580E02,
        3.5145659E02,
        -3.8953900E02,
        2.8239471E02,
        -1.2607281E02,
        3.1353611E01,
        -3.3187769),
    // Published up to 13.228 mV; the next piece overlaps and is the more exact one.
    new Polynomial(
        1.923,
        11.361,
        1.334584505E01,
        1.472644573E02,
        -1.844024844E01,
        4.031129726,
        -6.249428360E-01,
        6.468412046E-02,
        -4.458750426E-03,
        1.994710149E-04,
        -5.313401790E-06,
        6.481976217E-08),
    new Polynomial(
        11.361,
        19.739,
        -8.199599416E01,
        1.553962042E02,
        -8.342197663,
        4.279433549E-01,
        -1.191577910E-02,
        1.492290091E-04),
    new Polynomial(
        19.739,
        21.103,
        3.406177836E04,
        -7.023729171E03,
        5.582903813E02,
        -1.952394635E01,
        2.560740231E-01)
  };

  private TypeR() {}
}
