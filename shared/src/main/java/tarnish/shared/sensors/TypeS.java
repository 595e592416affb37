package tarnish.shared.sensors;

/**
 * Coefficients of type S (platinum-10 % rhodium against platinum), ITS-90. Source: NIST Monograph
 * 175 (1993), the same as IEC 60584-1. Forward pieces take °C and give mV, inverse pieces take mV
 * and give °C.
 */
final class TypeS {
  static final Polynomial[] FORWARD = {
    new Polynomial(
        -50.0,
        1064.18,
        0.0,
        0.540313308631E-02,
        0.125934289740E-04,
        -0.232477968689E-07,
        0.322028823036E-10,
        -0.331465196389E-13,
        0.255744251786E-16,
        -0.125068871393E-19,
        0.271443176145E-23),
    new Polynomial(
        1064.18,
        1664.5,
        0.132900444085E01,
        0.334509311344E-02,
        0.654805192818E-05,
        -0.164856259209E-08,
        0.129989605174E-13),
    new Polynomial(
        1664.5,
        1768.1,
        0.146628232636E03,
        -0.258430516752,
        0.163693574641E-03,
        -0.330439046987E-07,
        -0.943223690612E-14)
  };

  static final Polynomial[] INVERSE = {
    new Polynomial(
        -0.235,
        1.874,
        0.0,
        1.84949460E02,
        -8.00504062E01,
        1.02237430E02,
        -1.52248592E02,
        1.88821343E02,
        -1.59085941E02,
        8.23027880E01,
        -2.34181944E01,
        2.79786260),
    // Published up to 11.95 mV; the next piece overlaps and is the more exact one.
    new Polynomial(
        1.874,
        10.332,
        1.291507177E01,
        1.466298863E02,
        -1.534713402E01,
        3.145945973,
        -4.163257839E-01,
        3.187963771E-02,
        -1.291637500E-03,
        2.183475087E-05,
        -1.447379511E-07,
        8.211272125E-09),
    new Polynomial(
        10.332,
        17.536,
        -8.087801117E01,
        1.621573104E02,
        -8.536869453,
        4.719686976E-01,
        -1.441693666E-02,
        2.081618890E-04),
    new Polynomial(
        17.536,
        18.693,
        5.333875126E04,
        -1.235892298E04,
        1.092657613E03,
        -4.265693686E01,
        6.247205420E-01)
  };

  private TypeS() {}
}
