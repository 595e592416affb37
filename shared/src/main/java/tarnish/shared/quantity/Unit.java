package tarnish.shared.quantity;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Arrays;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * The closed list of units, by dimension.
 *
 * <p>SI value = (number + offset) × multiplier / divisor. Factors from the SI brochure, 9th ed.;
 * atm = 101325 Pa and Torr = 101325/760 Pa.
 */
public enum Unit {
  CELSIUS("°C", Dimension.TEMPERATURE, "1", "1"),
  KELVIN("K", Dimension.TEMPERATURE, "1", "1"),

  KELVIN_DIFFERENCE("K", Dimension.TEMPERATURE_DIFFERENCE, "1", "1"),

  KELVIN_PER_SECOND("K/s", Dimension.TEMPERATURE_RATE, "1", "1"),
  KELVIN_PER_MINUTE("K/min", Dimension.TEMPERATURE_RATE, "1", "60"),
  KELVIN_PER_HOUR("K/h", Dimension.TEMPERATURE_RATE, "1", "3600"),

  PASCAL("Pa", Dimension.PRESSURE, "1", "1"),
  HECTOPASCAL("hPa", Dimension.PRESSURE, "100", "1"),
  KILOPASCAL("kPa", Dimension.PRESSURE, "1000", "1"),
  MILLIBAR("mbar", Dimension.PRESSURE, "100", "1"),
  BAR("bar", Dimension.PRESSURE, "100000", "1"),
  ATMOSPHERE("atm", Dimension.PRESSURE, "101325", "1"),
  TORR("Torr", Dimension.PRESSURE, "101325", "760"),

  PASCAL_PER_SECOND("Pa/s", Dimension.PRESSURE_RATE, "1", "1"),
  PASCAL_PER_MINUTE("Pa/min", Dimension.PRESSURE_RATE, "1", "60"),
  PASCAL_PER_HOUR("Pa/h", Dimension.PRESSURE_RATE, "1", "3600"),
  MILLIBAR_PER_SECOND("mbar/s", Dimension.PRESSURE_RATE, "100", "1"),
  MILLIBAR_PER_MINUTE("mbar/min", Dimension.PRESSURE_RATE, "100", "60"),
  MILLIBAR_PER_HOUR("mbar/h", Dimension.PRESSURE_RATE, "100", "3600"),

  MILLISECOND("ms", Dimension.TIME, "1", "1000"),
  SECOND("s", Dimension.TIME, "1", "1"),
  MINUTE("min", Dimension.TIME, "60", "1"),
  HOUR("h", Dimension.TIME, "3600", "1"),
  DAY("d", Dimension.TIME, "86400", "1"),

  KILOGRAM("kg", Dimension.MASS, "1", "1"),
  GRAM("g", Dimension.MASS, "1", "1000"),
  MILLIGRAM("mg", Dimension.MASS, "1", "1000000"),
  MICROGRAM("µg", Dimension.MASS, "1", "1000000000"),

  MOLE("mol", Dimension.AMOUNT, "1", "1"),
  MILLIMOLE("mmol", Dimension.AMOUNT, "1", "1000"),
  MICROMOLE("µmol", Dimension.AMOUNT, "1", "1000000"),

  WATT("W", Dimension.POWER, "1", "1"),
  KILOWATT("kW", Dimension.POWER, "1000", "1"),

  KILOJOULE_PER_MOLE("kJ/mol", Dimension.ENERGY_PER_AMOUNT, "1000", "1"),
  JOULE_PER_MOLE("J/mol", Dimension.ENERGY_PER_AMOUNT, "1", "1"),

  CUBIC_METRE("m³", Dimension.VOLUME, "1", "1"),
  CUBIC_DECIMETRE("dm³", Dimension.VOLUME, "1", "1000"),
  LITRE("L", Dimension.VOLUME, "1", "1000"),
  MILLILITRE("mL", Dimension.VOLUME, "1", "1000000"),
  CUBIC_CENTIMETRE("cm³", Dimension.VOLUME, "1", "1000000"),

  CUBIC_METRE_PER_SECOND("m³/s", Dimension.VOLUME_RATE, "1", "1"),
  CUBIC_METRE_PER_HOUR("m³/h", Dimension.VOLUME_RATE, "1", "3600"),
  LITRE_PER_SECOND("L/s", Dimension.VOLUME_RATE, "1", "1000"),
  LITRE_PER_MINUTE("L/min", Dimension.VOLUME_RATE, "1", "60000"),
  MILLILITRE_PER_MINUTE("mL/min", Dimension.VOLUME_RATE, "1", "60000000"),

  METRE("m", Dimension.LENGTH, "1", "1"),
  CENTIMETRE("cm", Dimension.LENGTH, "1", "100"),
  MILLIMETRE("mm", Dimension.LENGTH, "1", "1000"),

  PERCENT("%", Dimension.FRACTION, "1", "100"),
  PARTS_PER_MILLION("ppm", Dimension.FRACTION, "1", "1000000"),

  CUBIC_METRE_PER_SECOND_PASCAL("m³/(s·Pa)", Dimension.SONIC_CONDUCTANCE, "1", "1"),
  CUBIC_DECIMETRE_PER_SECOND_BAR("dm³/(s·bar)", Dimension.SONIC_CONDUCTANCE, "1", "100000000"),

  PER_KELVIN("/K", Dimension.PER_TEMPERATURE, "1", "1"),

  VOLT("V", Dimension.VOLTAGE, "1", "1"),
  MILLIVOLT("mV", Dimension.VOLTAGE, "1", "1000"),

  AMPERE("A", Dimension.CURRENT, "1", "1"),
  MILLIAMPERE("mA", Dimension.CURRENT, "1", "1000"),

  OHM("Ω", Dimension.RESISTANCE, "1", "1"),
  KILOHM("kΩ", Dimension.RESISTANCE, "1000", "1"),

  /** A plain number; written without any unit. */
  ONE("", Dimension.NUMBER, "1", "1");

  private static final Unit[] UNITS = values();
  private static final BigDecimal CELSIUS_ZERO_K = new BigDecimal("273.15");

  private final String symbol;
  private final Dimension dimension;
  private final BigDecimal multiplier;
  private final BigDecimal divisor;
  private final String plainSymbol;

  Unit(String symbol, Dimension dimension, String multiplier, String divisor) {
    this.symbol = symbol;
    this.dimension = dimension;
    this.multiplier = new BigDecimal(multiplier);
    this.divisor = new BigDecimal(divisor);
    this.plainSymbol = plainSpelling(symbol);
  }

  public String symbol() {
    return symbol;
  }

  public Dimension dimension() {
    return dimension;
  }

  /** The number of this unit that {@code valueSi}, finite and in SI units, is. */
  public double of(double valueSi) {
    return decimalOf(valueSi).doubleValue();
  }

  /** The SI value of {@code number}, finite, of this unit. */
  public double toSi(double number) {
    return toSi(new BigDecimal(number));
  }

  double toSi(BigDecimal number) {
    return quotient(number.add(offset()).multiply(multiplier), divisor).doubleValue();
  }

  BigDecimal decimalOf(double valueSi) {
    return quotient(new BigDecimal(valueSi).multiply(divisor), multiplier).subtract(offset());
  }

  /** Division is by far the slowest part, and most units need none. */
  private static BigDecimal quotient(BigDecimal dividend, BigDecimal by) {
    return by.equals(BigDecimal.ONE) ? dividend : dividend.divide(by, MathContext.DECIMAL128);
  }

  /** How many of this unit make one SI unit, for differences. */
  BigDecimal perSi() {
    return quotient(divisor, multiplier);
  }

  private BigDecimal offset() {
    return this == CELSIUS ? CELSIUS_ZERO_K : BigDecimal.ZERO;
  }

  /** The unit of {@code dimension} that {@code text} names, in any spelling that is accepted. */
  static Optional<Unit> find(String text, Dimension dimension) {
    String plain = plainSpelling(text);
    return Arrays.stream(UNITS)
        .filter(unit -> unit.dimension == dimension && unit.plainSymbol.equals(plain))
        .findFirst();
  }

  /** Apart, because an enum's constants are made before its own static fields. */
  private static final class Spelling {
    private static final Pattern MULTIPLIED = Pattern.compile("\\s*[·⋅*.\\s]\\s*");
  }

  /** One ASCII spelling for all that a keyboard may offer: m3 for m³, s.Pa for s·Pa, ug for µg. */
  private static String plainSpelling(String text) {
    String plain = text.replace('³', '3').replace('µ', 'u').replace('μ', 'u').replace("°", "deg");
    plain = plain.replace('\u2126', 'Ω').replace("ohm", "Ω");
    plain = plain.startsWith("1/") ? plain.substring(1) : plain;
    return Spelling.MULTIPLIED.matcher(plain).replaceAll(".");
  }
}
