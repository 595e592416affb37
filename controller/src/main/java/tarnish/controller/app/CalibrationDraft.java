package tarnish.controller.app;

import java.util.Locale;
import tarnish.controller.control.trial.ChannelLook;
import tarnish.controller.devices.Calibration;
import tarnish.controller.devices.Calibration.Mark;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.quantity.Dimension;
import tarnish.shared.quantity.NotAQuantity;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.SensorDescription;

/**
 * Two points of a calibration as they are taken. Immutable.
 *
 * @param low null until it is taken
 * @param high null until it is taken
 */
record CalibrationDraft(SensorDescription sensor, Mark low, Mark high) {
  private static final int VALUES_MIN = 5;

  /** Something that makes no point or no calibration; its message is for the person. */
  static final class Unfit extends Exception {
    private static final long serialVersionUID = 1L;

    Unfit(String message) {
      super(message);
    }
  }

  static CalibrationDraft of(SensorDescription sensor) {
    return new CalibrationDraft(sensor, null, null);
  }

  Channel channel() {
    return sensor.channel();
  }

  /** With a point taken now: what the sensor showed before any calibration, and what is true. */
  CalibrationDraft with(ChannelLook uncorrected, String typed, boolean upper) throws Unfit {
    if (uncorrected.good() < VALUES_MIN || !uncorrected.isSteady()) {
      throw new Unfit("The " + channel().words() + " gave no steady value over the last seconds.");
    }
    Estimate reference = reference(typed);
    double meanU = uncorrected.noise() / Math.sqrt(uncorrected.good());
    Mark mark =
        new Mark(
            uncorrected.mean(),
            Math.hypot(meanU, sensor.resolution() / Math.sqrt(12)),
            reference.value(),
            reference.standardUncertainty());
    return upper
        ? new CalibrationDraft(sensor, low, mark)
        : new CalibrationDraft(sensor, mark, high);
  }

  private Estimate reference(String typed) throws Unfit {
    Dimension dimension =
        switch (channel().kind()) {
          case TEMPERATURE -> Dimension.TEMPERATURE;
          case PRESSURE -> Dimension.PRESSURE;
          default -> Dimension.FRACTION;
        };
    try {
      return Quantities.parseEstimate(typed, dimension);
    } catch (NotAQuantity wrong) {
      throw new Unfit("Found " + wrong.found() + ", expected " + wrong.expected() + ".");
    }
  }

  /**
   * @param date ISO 8601 calendar time
   */
  Calibration finished(String date) throws Unfit {
    if (low == null || high == null) {
      throw new Unfit("Take both points first.");
    }
    try {
      return new Calibration(channel(), date, low, high);
    } catch (IllegalArgumentException e) {
      throw new Unfit(e.getMessage());
    }
  }

  /** A value in the unit of the channel, with three decimals. */
  static String printed(Channel channel, double value) {
    return switch (channel.kind()) {
      case TEMPERATURE -> Quantities.print(value, Unit.CELSIUS, 3);
      case PRESSURE -> Quantities.print(value, Unit.MILLIBAR, 3);
      default -> Quantities.print(value, Unit.PERCENT, 3);
    };
  }

  /** A difference in the unit of the channel, with three decimals. */
  static String difference(Channel channel, double value) {
    return channel.kind() == Channel.Kind.TEMPERATURE
        ? Quantities.print(value, Unit.KELVIN_DIFFERENCE, 3)
        : printed(channel, value);
  }

  static String words(Channel channel, Mark mark) {
    return "shows %s where it is %s ± %s"
        .formatted(
            printed(channel, mark.shown()),
            printed(channel, mark.reference()),
            difference(channel, mark.referenceStandardUncertainty()));
  }

  /** What a calibration does to its two points. */
  static String effect(Calibration it) {
    Channel channel = it.channel();
    return String.format(
        Locale.ROOT,
        "gain %.6f; %s becomes %s ± %s, %s becomes %s ± %s (standard uncertainties)",
        it.gain(),
        printed(channel, it.low().shown()),
        printed(channel, it.correct(it.low().shown())),
        difference(channel, it.standardUncertainty(it.low().shown())),
        printed(channel, it.high().shown()),
        printed(channel, it.correct(it.high().shown())),
        difference(channel, it.standardUncertainty(it.high().shown())));
  }
}
