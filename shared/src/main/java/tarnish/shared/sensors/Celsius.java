package tarnish.shared.sensors;

/** The zero of the Celsius scale, on which the standards of thermometry tabulate. */
final class Celsius {
  static final double ZERO_K = 273.15;

  private Celsius() {}

  static double fromKelvin(double temperatureK) {
    return temperatureK - ZERO_K;
  }

  static double toKelvin(double celsius) {
    return celsius + ZERO_K;
  }
}
