package tarnish.controller.control;

import java.util.Locale;
import tarnish.shared.estimate.Estimate;

/** Values in the words and units of the record. */
final class Words {
  private Words() {}

  static String pressure(double pressurePa) {
    return String.format(Locale.ROOT, "%.1f mbar", pressurePa / 100);
  }

  static String pressureRate(double paPerS) {
    return String.format(Locale.ROOT, "%.3f mbar/min", paPerS * 60 / 100);
  }

  static String temperature(double temperatureK) {
    return String.format(Locale.ROOT, "%.1f °C", temperatureK - 273.15);
  }

  static String amount(Estimate amountMol) {
    return estimate(amountMol.times(1e3)) + " mmol";
  }

  static String mass(Estimate massKg) {
    return estimate(massKg.times(1e3)) + " g";
  }

  static String estimate(Estimate estimate) {
    return String.format(
        Locale.ROOT, "%.4f ± %.4f", estimate.value(), estimate.standardUncertainty());
  }

  static String duration(double seconds) {
    return String.format(Locale.ROOT, "%.0f s", seconds);
  }
}
