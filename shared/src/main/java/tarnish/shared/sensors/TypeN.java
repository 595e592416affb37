package tarnish.shared.sensors;

/**
 * Coefficients of type N (nickel-chromium-silicon against nickel-silicon), ITS-90. Source: NIST
 * Monograph 175 (1993), the same as IEC 60584-1. Forward pieces take °C and give mV, inverse pieces
 * take mV and give °C.
 */
final class TypeN {
  static final Polynomial[] FORWARD = {
    new Polynomial(
        -270.0,
        0.0,
        0.0,
        0.261591059620E-01,
        0.109574842280E-04,
        -0.938411115540E-07,
        -0.464120397590E-10,
        -0.263033577160E-11,
        -0.226534380030E-13,
        -0.760893007910E-16,
        -0.934196678350E-19),
    new Polynomial(
        0.0,
        1300.0,
        0.0,
        0.259293946010E-01,
        0.157101418800E-04,
        0.438256272370E-07,
        -0.252611697940E-09,
        0.643118193390E-12,
        -0.100634715190E-14,
        0.997453389920E-18,
        -0.608632456070E-21,
        0.208492293390E-24,
        -0.306821961510E-28)
  };

  static final Polynomial[] INVERSE = {
    new Polynomial(
        -3.99,
        0.0,
        0.0,
        3.8436847E01,
        1.1010485,
        5.2229312,
        7.2060525,
        5.8488586,
        2.7754916,
        7.7075166E-01,
        1.1582665E-01,
        7.3138868E-03),
    new Polynomial(
        0.0,
        20.613,
        0.0,
        3.86896E01,
        -1.08267,
        4.70205E-02,
        -2.12169E-06,
        -1.17272E-04,
        5.39280E-06,
        -7.98156E-08),
    new Polynomial(
        20.613,
        47.513,
        1.972485E01,
        3.300943E01,
        -3.915159E-01,
        9.855391E-03,
        -1.274371E-04,
        7.767022E-07)
  };

  private TypeN() {}
}
