package tarnish.controller.control.trial;

import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;
import tarnish.shared.reading.Channel;

/** Differences of readings in words. */
final class Amounts {
  private Amounts() {}

  static String kelvin(double differenceK) {
    return Quantities.print(differenceK, Unit.KELVIN_DIFFERENCE, 1);
  }

  static String perSecond(double ratePaPerS) {
    return Quantities.print(ratePaPerS, Unit.MILLIBAR, 2) + "/s";
  }

  static String difference(Channel channel, double difference) {
    return switch (channel.kind()) {
      case TEMPERATURE -> Quantities.print(difference, Unit.KELVIN_DIFFERENCE, 2);
      case PRESSURE -> Quantities.print(difference, Unit.MILLIBAR, 2);
      default -> Quantities.print(difference, Unit.PERCENT, 2);
    };
  }
}
