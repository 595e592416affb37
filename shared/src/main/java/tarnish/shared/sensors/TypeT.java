package tarnish.shared.sensors;

/**
 * Coefficients of type T (copper against copper-nickel), ITS-90. Source: NIST Monograph 175 (1993),
 * the same as IEC 60584-1. Forward pieces take °C and give mV, inverse pieces take mV and give °C.
 */
final class TypeT {
  static final Polynomial[] FORWARD = {
    new Polynomial(
        -270.0,
        0.0,
        0.0,
        0.387481063640E-01,
        0.441944343470E-04,
        0.118443231050E-06,
        0.200329735540E-07,
        0.901380195590E-09,
        0.226511565930E-10,
        0.360711542050E-12,
        0.384939398830E-14,
        0.282135219250E-16,
        0.142515947790E-18,
        0.487686622860E-21,
        0.107955392700E-23,
        0.139450270620E-26,
        0.797951539270E-30),
    new Polynomial(
        0.0,
        400.0,
        0.0,
        0.387481063640E-01,
        0.332922278800E-04,
        0.206182434040E-06,
        -0.218822568460E-08,
        0.109968809280E-10,
        -0.308157587720E-13,
        0.454791352900E-16,
        -0.275129016730E-19)
  };

  static final Polynomial[] INVERSE = {
    new Polynomial(
        -5.603,
        0.0,
        0.0,
        2.5949192E01,
        -2.1316967E-01,
        7.9018692E-01,
        4.2527777E-01,
        1.3304473E-01,
        2.0241446E-02,
        1.2668171E-03),
    new Polynomial(
        0.0,
        20.872,
        0.0,
        2.592800E01,
        -7.602961E-01,
        4.637791E-02,
        -2.165394E-03,
        6.048144E-05,
        -7.293422E-07)
  };

  private TypeT() {}
}
