package tarnish.shared.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import tarnish.shared.estimate.Estimate;

class QuantitiesTest {

  /** Conversion factors: SI brochure, 9th edition, tables 4 and 8; atm and Torr: NIST SP 811. */
  @ParameterizedTest
  @CsvSource({
    "100 °C, TEMPERATURE, 373.15",
    "-20 °C, TEMPERATURE, 253.15",
    "20 degC, TEMPERATURE, 293.15",
    "300 K, TEMPERATURE, 300",
    "3 K, TEMPERATURE_DIFFERENCE, 3",
    "6 K/min, TEMPERATURE_RATE, 0.1",
    "36 K/h, TEMPERATURE_RATE, 0.01",
    "0.5 K/s, TEMPERATURE_RATE, 0.5",
    "950 mbar, PRESSURE, 95000",
    "0.1 mbar, PRESSURE, 10",
    "1.5 bar, PRESSURE, 150000",
    "101.325 kPa, PRESSURE, 101325",
    "1013.25 hPa, PRESSURE, 101325",
    "1 atm, PRESSURE, 101325",
    "760 Torr, PRESSURE, 101325",
    "0.3 mbar/min, PRESSURE_RATE, 0.5",
    "36 mbar/h, PRESSURE_RATE, 1",
    "2 Pa/s, PRESSURE_RATE, 2",
    "250 ms, TIME, 0.25",
    "30 min, TIME, 1800",
    "1 h 30 min, TIME, 5400",
    "2 d 4 h 30 min 1.5 s, TIME, 189001.5",
    "4.000 g, MASS, 0.004",
    "1 mg, MASS, 1e-6",
    "2 µg, MASS, 2e-9",
    "2 ug, MASS, 2e-9",
    "2 μg, MASS, 2e-9",
    "0.1 mmol, AMOUNT, 1e-4",
    "5 µmol, AMOUNT, 5e-6",
    "0.8 kW, POWER, 800",
    "-312 kJ/mol, ENERGY_PER_AMOUNT, -312000",
    "250 mL, VOLUME, 2.5e-4",
    "0.25 dm3, VOLUME, 2.5e-4",
    "250 cm³, VOLUME, 2.5e-4",
    "3.6 m³/h, VOLUME_RATE, 0.001",
    "0.3 L/s, VOLUME_RATE, 3e-4",
    "6 L/min, VOLUME_RATE, 1e-4",
    "44 mm, LENGTH, 0.044",
    "98 %, FRACTION, 0.98",
    "5 ppm, FRACTION, 5e-6",
    "1e-8 m³/(s·Pa), SONIC_CONDUCTANCE, 1e-8",
    "1 dm³/(s·bar), SONIC_CONDUCTANCE, 1e-8",
    "1 dm3/(s*bar), SONIC_CONDUCTANCE, 1e-8",
    "1 dm3/(s bar), SONIC_CONDUCTANCE, 1e-8",
    "0.02 /K, PER_TEMPERATURE, 0.02",
    "0.02 1/K, PER_TEMPERATURE, 0.02",
    "0.5, NUMBER, 0.5",
    "+5 K, TEMPERATURE_DIFFERENCE, 5",
    "5K, TEMPERATURE_DIFFERENCE, 5",
    "1.5e3 Pa, PRESSURE, 1500"
  })
  void aNumberWithItsUnitIsRead(String text, Dimension dimension, double expectedSi) {
    assertEquals(expectedSi, Quantities.parse(text, dimension));
  }

  @Test
  void aNoBreakSpaceBeforeTheUnitIsASpace() {
    assertEquals(373.15, Quantities.parse("100\u00a0°C", Dimension.TEMPERATURE));
    assertEquals(100, Quantities.parse("1\u202fmbar", Dimension.PRESSURE));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        " ",
        "mbar",
        "NaN mbar",
        "Infinity mbar",
        "-Infinity mbar",
        "0x10 mbar",
        "1,5 mbar",
        "1.000,5 mbar",
        "1 000 mbar",
        "1.5.0 mbar",
        ".5 mbar",
        "5. mbar",
        "1e999 mbar",
        "1e9999999999 mbar",
        "1 e3 mbar",
        "--1 mbar",
        "+-1 mbar",
        "1 Mbar",
        "1 mBar",
        "1 PA",
        "1 mbar 2",
        "1 mbar 2 mbar",
        "1mbar/",
        "1 °C",
        "1 K",
        "1",
        "1d mbar",
        "1f",
        "١ mbar",
        "1 m bar",
        "1 mbar\u0000",
        "1 psi",
        "1 mbar abs",
        "(1 mbar)",
        "one mbar"
      })
  void whatIsNoPressureIsRefused(String text) {
    NotAQuantity wrong =
        assertThrows(NotAQuantity.class, () -> Quantities.parse(text, Dimension.PRESSURE));
    assertTrue(wrong.expected().contains("e.g. 900 mbar"), wrong.getMessage());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "30 min 1 h",
        "1 h 2 h",
        "1 h -5 min",
        "1 h and 5 min",
        "1 h 30",
        "1:30",
        "1h30",
        "5 minutes",
        "1 month",
        "1 h, 5 min",
        "h",
        "5"
      })
  void whatIsNoTimeIsRefused(String text) {
    assertThrows(NotAQuantity.class, () -> Quantities.parse(text, Dimension.TIME));
  }

  @Test
  void degreesCelsiusAreNoDifference() {
    NotAQuantity wrong =
        assertThrows(
            NotAQuantity.class, () -> Quantities.parse("3 °C", Dimension.TEMPERATURE_DIFFERENCE));
    assertEquals(
        "found '3 °C', expected a temperature difference in K, e.g. 3 K: °C names a point on a"
            + " scale, not a difference",
        wrong.getMessage());
  }

  @Test
  void degreesCelsiusPerMinuteAreNoRate() {
    NotAQuantity wrong =
        assertThrows(
            NotAQuantity.class, () -> Quantities.parse("5 °C/min", Dimension.TEMPERATURE_RATE));
    assertEquals(
        "found '5 °C/min', expected a temperature rate in K/min, K/h or K/s, e.g. 5 K/min:"
            + " differences are in K, not °C",
        wrong.getMessage());
  }

  @Test
  void aBareNumberIsToldWhichUnitsThereAre() {
    NotAQuantity wrong =
        assertThrows(NotAQuantity.class, () -> Quantities.parse("150", Dimension.TEMPERATURE));
    assertEquals(
        "found '150' without a unit, expected a temperature in °C or K, e.g. 150 °C",
        wrong.getMessage());
  }

  @ParameterizedTest
  @EnumSource(Dimension.class)
  void theExampleOfEveryDimensionIsRead(Dimension dimension) {
    assertTrue(Quantities.parse(dimension.example(), dimension) > 0);
  }

  @Test
  void aRangeRunsUpwards() {
    assertEquals(
        new Quantities.Range(60, 1800), Quantities.parseRange("60 s to 30 min", Dimension.TIME));
    for (String text : new String[] {"30 min to 60 s", "1 s to 1 s", "1 s", "1 s to 2 s to 3 s"}) {
      assertThrows(NotAQuantity.class, () -> Quantities.parseRange(text, Dimension.TIME));
    }
  }

  @Test
  void anEstimateIsAValueWithItsUncertainty() {
    assertEquals(
        new Estimate(0.004, 1e-6), Quantities.parseEstimate("4.000 g ± 1 mg", Dimension.MASS));
    assertEquals(
        new Estimate(0.004, 1e-6), Quantities.parseEstimate("4.000 g +/- 1 mg", Dimension.MASS));
    assertEquals(
        new Estimate(373.15, 1.5),
        Quantities.parseEstimate("100 °C ± 1.5 K", Dimension.TEMPERATURE));
    for (String text : new String[] {"4 g", "4 g ± -1 mg", "4 g ± 1", "4 ± 1 g", "100 °C ± 1 °C"}) {
      assertThrows(NotAQuantity.class, () -> Quantities.parseEstimate(text, Dimension.MASS));
    }
  }

  @Test
  void valuesPrintWithTheDecimalsAskedFor() {
    assertEquals("900.0 mbar", Quantities.print(90_000, Unit.MILLIBAR, 1));
    assertEquals("20.00 °C", Quantities.print(293.15, Unit.CELSIUS, 2));
    assertEquals("0 °C", Quantities.print(273.149, Unit.CELSIUS, 0));
    assertEquals("-1 °C", Quantities.print(272.15, Unit.CELSIUS, 0));
    assertEquals("98 %", Quantities.print(0.98, Unit.PERCENT, 0));
    assertEquals("0.98", Quantities.print(0.98, Unit.ONE, 2));
    assertEquals("1.5 bar", Quantities.printShort(150_000, Unit.BAR));
    assertEquals("150 °C", Quantities.printShort(423.15, Unit.CELSIUS));
    assertThrows(IllegalArgumentException.class, () -> Quantities.print(Double.NaN, Unit.BAR, 1));
  }

  /** Rounding of an uncertainty: JCGM 100:2008, 7.2.6. */
  @ParameterizedTest
  @CsvSource({
    "0.9731, 0.0117, ONE, 0.973 ± 0.012",
    "0.97, 0.0996, ONE, 0.97 ± 0.10",
    "0.97, 0.0994, ONE, 0.970 ± 0.099",
    "1234, 123, ONE, 1230 ± 120",
    "0.004902, 0.0000117, GRAM, (4.902 ± 0.012) g",
    "573.15, 1.5, CELSIUS, (300.0 ± 1.5) °C",
    "5, 0, ONE, 5",
    "-0.02, 0.31, ONE, -0.02 ± 0.31"
  })
  void anEstimatePrintsToThePlaceThatItsUncertaintyAllows(
      double value, double uncertainty, Unit unit, String expected) {
    assertEquals(expected, Quantities.printEstimate(new Estimate(value, uncertainty), unit));
  }

  @ParameterizedTest
  @CsvSource({
    "0, 0 s",
    "0.04, 0 s",
    "0.25, 0.2 s",
    "9.96, 10 s",
    "45, 45 s",
    "59.7, 1 min",
    "90, 1 min 30 s",
    "3599.9, 1 h",
    "4320, 1 h 12 min",
    "4349, 1 h 12 min",
    "86399, 1 d",
    "93600, 1 d 2 h",
    "1209600, 14 d",
    "-90, -1 min 30 s"
  })
  void aDurationPrintsByItsTwoLargestUnits(double seconds, String expected) {
    assertEquals(expected, Quantities.printDuration(seconds));
  }
}
