package tarnish.controller.files;

import tarnish.shared.quantity.Dimension;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;

/**
 * What a value may be at all, whatever the rig: outside it, it is a slip of the pen.
 *
 * @param unit for printing the ends
 * @param min least SI value
 * @param max greatest SI value
 */
record Bound(Unit unit, double min, double max) {
  static final Bound TEMPERATURE = of(Unit.CELSIUS, -50, 1200);
  static final Bound DIFFERENCE = of(Unit.KELVIN_DIFFERENCE, 0.01, 500);

  /** Less than 1 K cannot be told from noise and draughts, more than 50 K is no careful start. */
  static final Bound PLANNED_RISE = of(Unit.KELVIN_DIFFERENCE, 1, 50);

  static final Bound UNCERTAINTY_K = of(Unit.KELVIN_DIFFERENCE, 0, 100);
  static final Bound RATE = of(Unit.KELVIN_PER_MINUTE, 0.001, 100);
  static final Bound PRESSURE = of(Unit.MILLIBAR, 0.001, 10_000);
  static final Bound SUPPLY = of(Unit.BAR, 0.1, 300);
  static final Bound PRESSURE_RATE = of(Unit.MILLIBAR_PER_MINUTE, 0.000_001, 1_000);
  static final Bound TIME = of(Unit.SECOND, 0, 60 * 86_400);
  static final Bound SOME_TIME = of(Unit.SECOND, 1, 60 * 86_400);
  static final Bound OUTAGE = of(Unit.SECOND, 1, 3600);
  static final Bound TICK = of(Unit.MILLISECOND, 50, 1_000);
  static final Bound MASS = of(Unit.GRAM, 0.001, 10_000);
  static final Bound BALANCE = of(Unit.MILLIGRAM, 0.001, 10_000);
  static final Bound AMOUNT = of(Unit.MILLIMOLE, 0.000_001, 100_000);
  static final Bound ACTIVATION_ENERGY = of(Unit.KILOJOULE_PER_MOLE, 1, 1_000);
  static final Bound ENTHALPY = of(Unit.KILOJOULE_PER_MOLE, -2_000, 500);
  static final Bound FRACTION = of(Unit.PERCENT, 0, 100);
  static final Bound SOME_FRACTION = of(Unit.PERCENT, 0.01, 100);
  static final Bound VOLUME = of(Unit.MILLILITRE, 1, 100_000);
  static final Bound COLD_VOLUME = of(Unit.MILLILITRE, 0, 100_000);
  static final Bound LENGTH = of(Unit.MILLIMETRE, 0.1, 1_000);
  static final Bound POWER = of(Unit.WATT, 1, 20_000);
  static final Bound SPEED = of(Unit.LITRE_PER_SECOND, 0.000_1, 100);
  static final Bound CONDUCTANCE = of(Unit.CUBIC_DECIMETRE_PER_SECOND_BAR, 0.000_001, 10);
  static final Bound GAIN = of(Unit.PER_KELVIN, 0.000_01, 10);
  static final Bound SHARE = of(Unit.ONE, 0, 1);

  /** Takes the ends in {@code unit}. */
  static Bound of(Unit unit, double min, double max) {
    return new Bound(unit, unit.toSi(min), unit.toSi(max));
  }

  Dimension dimension() {
    return unit.dimension();
  }

  boolean allows(double valueSi) {
    return valueSi >= min && valueSi <= max;
  }

  String words() {
    return unit.dimension().words() + " from " + printed(min) + " to " + printed(max);
  }

  private String printed(double valueSi) {
    return unit == Unit.SECOND
        ? Quantities.printDuration(valueSi)
        : Quantities.printShort(valueSi, unit);
  }
}
