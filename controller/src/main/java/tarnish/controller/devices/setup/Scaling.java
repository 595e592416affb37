package tarnish.controller.devices.setup;

import tarnish.shared.quantity.Dimension;
import tarnish.shared.quantity.Unit;
import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Reading;
import tarnish.shared.sensors.CurrentLoop;
import tarnish.shared.sensors.LinearScale;

/** How the number that a device gives becomes a reading in SI units. */
public sealed interface Scaling {
  /** The reading; a device fault where {@code raw} is not a finite number. */
  Reading value(double raw);

  /** What the reading is of; {@link Dimension#NUMBER} for a contact. */
  Dimension dimension();

  /** The device's number, times {@code scale}, plus {@code offset}, is a number of {@code unit}. */
  record InUnit(double scale, double offset, Unit unit) implements Scaling {
    @Override
    public Reading value(double raw) {
      double number = raw * scale + offset;
      return Double.isFinite(number)
          ? new Reading.Good(unit.toSi(number))
          : new Reading.Bad(BadReason.DEVICE_FAULT);
    }

    @Override
    public Dimension dimension() {
      return unit.dimension();
    }
  }

  /** A 4-20 mA signal, failures by NAMUR NE 43; the device's number times {@code scale} is in A. */
  record Loop(double scale, CurrentLoop loop, Dimension dimension) implements Scaling {
    @Override
    public Reading value(double raw) {
      return loop.value(raw * scale);
    }
  }

  /**
   * A voltage on a straight line; the device's number times {@code scale} is in V.
   *
   * @param line from the lowest to the highest voltage that is believed
   */
  record Straight(double scale, LinearScale line, Dimension dimension) implements Scaling {
    @Override
    public Reading value(double raw) {
      return line.value(raw * scale);
    }
  }

  /** A contact: a device that gives {@code closedIs} says closed, and the opposite open. */
  record Contact(int closedIs) implements Scaling {
    @Override
    public Reading value(double raw) {
      if (raw != 0 && raw != 1) {
        return new Reading.Bad(BadReason.DEVICE_FAULT);
      }
      return new Reading.Good(raw == closedIs ? 1 : 0);
    }

    @Override
    public Dimension dimension() {
      return Dimension.NUMBER;
    }
  }

  /** The chip itself gives a temperature in K. */
  record Kelvin() implements Scaling {
    @Override
    public Reading value(double raw) {
      return Double.isFinite(raw) ? new Reading.Good(raw) : new Reading.Bad(BadReason.DEVICE_FAULT);
    }

    @Override
    public Dimension dimension() {
      return Dimension.TEMPERATURE;
    }
  }
}
