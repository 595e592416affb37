package tarnish.controller.control;

import java.util.Locale;
import java.util.TreeMap;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;
import tarnish.shared.reading.Channel;

/** Values in the words and units of the record. */
public final class Words {
  private Words() {}

  public static String pressure(double pressurePa) {
    return Quantities.print(pressurePa, Unit.MILLIBAR, 1);
  }

  static String pressureRate(double paPerS) {
    return Quantities.print(paPerS, Unit.MILLIBAR_PER_MINUTE, 3);
  }

  public static String temperature(double temperatureK) {
    return Quantities.print(temperatureK, Unit.CELSIUS, 1);
  }

  static String temperatureRate(double kPerS) {
    return Quantities.print(kPerS, Unit.KELVIN_PER_MINUTE, 1);
  }

  public static String amount(Estimate amountMol) {
    return Quantities.printEstimate(amountMol, Unit.MILLIMOLE);
  }

  public static String mass(Estimate massKg) {
    return Quantities.printEstimate(massKg, Unit.GRAM);
  }

  /** A share of a whole as a percentage with its standard uncertainty. */
  public static String percent(Estimate share) {
    return Quantities.printEstimate(share.times(100), Unit.ONE) + " %";
  }

  /** A pure number with its standard uncertainty. */
  public static String estimate(Estimate estimate) {
    return Quantities.printEstimate(estimate, Unit.ONE);
  }

  public static String duration(double seconds) {
    return Quantities.printDuration(seconds);
  }

  /** A time that has passed: cut to what is shown, for what is not earned yet is not claimed. */
  static String durationSoFar(double seconds) {
    double shownS = seconds >= 86_400 ? 3600 : seconds >= 3600 ? 60 : 1;
    return duration(StrictMath.floor(seconds / shownS) * shownS);
  }

  /** A value of a channel in the unit of its kind. */
  public static String value(Channel channel, double value) {
    return switch (channel.kind()) {
      case TEMPERATURE -> temperature(value);
      case PRESSURE -> pressure(value);
      case FRACTION -> Quantities.print(value, Unit.PERCENT, 1);
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
