package tarnish.controller.control;

import java.util.Locale;
import java.util.TreeMap;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.reading.Channel;

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

  static String temperatureRate(double kPerS) {
    return String.format(Locale.ROOT, "%.1f K/min", kPerS * 60);
  }

  /** A value of a channel in the unit of its kind. */
  static String value(Channel channel, double value) {
    return switch (channel.kind()) {
      case TEMPERATURE -> temperature(value);
      case PRESSURE -> pressure(value);
      case FRACTION -> String.format(Locale.ROOT, "%.1f %%", value * 100);
      case CONTACT -> value >= 0.5 ? "closed" : "open";
    };
  }

  static String answer(Request.Answer answer) {
    StringBuilder words = new StringBuilder();
    new TreeMap<>(answer.values())
        .forEach(
            (name, massKg) ->
                words.append(String.format(Locale.ROOT, "%s %.4f g; ", name, massKg * 1e3)));
    words.append(answer.remark().isBlank() ? "done" : answer.remark());
    return words.toString();
  }
}
