package tarnish.shared.sensors;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

/** The tables and the stated errors of NIST Monograph 175 (1993), NIST SRD 60. */
class ThermocoupleTableTest {
  private static final long SEED = 20_260_101;
  private static final double ICE_K = 273.15;

  record Point(Thermocouple type, double celsius, double millivolt) {
    static Point parse(String line) {
      String[] cells = line.split(",");
      return new Point(
          Thermocouple.valueOf(cells[0]),
          Double.parseDouble(cells[1]),
          Double.parseDouble(cells[2]));
    }
  }

  /** Range of a published inverse in °C and its stated error in K. */
  record Inverse(Thermocouple type, double low, double high, double least, double greatest) {
    /**
     * The stated errors are rounded to one digit; evaluated over 4001 points a range, the published
     * polynomials exceed them by up to 0.0034 K, above 1064 °C by less than 0.0001 K.
     */
    double slack() {
      return low >= 1064 ? 0.0001 : 0.004;
    }

    boolean holds(double celsius) {
      return celsius >= low && celsius <= high;
    }

    boolean allows(double error) {
      return error >= least - slack() && error <= greatest + slack();
    }
  }

  private static final List<Inverse> STATED =
      List.of(
          new Inverse(Thermocouple.B, 250, 700, -0.02, 0.03),
          new Inverse(Thermocouple.B, 700, 1820, -0.01, 0.02),
          new Inverse(Thermocouple.E, -200, 0, -0.01, 0.03),
          new Inverse(Thermocouple.E, 0, 1000, -0.02, 0.02),
          new Inverse(Thermocouple.J, -210, 0, -0.05, 0.03),
          new Inverse(Thermocouple.J, 0, 760, -0.04, 0.04),
          new Inverse(Thermocouple.J, 760, 1200, -0.04, 0.03),
          new Inverse(Thermocouple.K, -200, 0, -0.02, 0.04),
          new Inverse(Thermocouple.K, 0, 500, -0.05, 0.04),
          new Inverse(Thermocouple.K, 500, 1372, -0.05, 0.06),
          new Inverse(Thermocouple.N, -200, 0, -0.02, 0.03),
          new Inverse(Thermocouple.N, 0, 600, -0.02, 0.03),
          new Inverse(Thermocouple.N, 600, 1300, -0.04, 0.02),
          new Inverse(Thermocouple.R, -50, 250, -0.02, 0.02),
          new Inverse(Thermocouple.R, 250, 1064, -0.005, 0.005),
          new Inverse(Thermocouple.R, 1064, 1664.5, -0.0005, 0.001),
          new Inverse(Thermocouple.R, 1664.5, 1768.1, -0.001, 0.002),
          new Inverse(Thermocouple.S, -50, 250, -0.02, 0.02),
          new Inverse(Thermocouple.S, 250, 1064, -0.01, 0.01),
          new Inverse(Thermocouple.S, 1064, 1664.5, -0.0002, 0.0002),
          new Inverse(Thermocouple.S, 1664.5, 1768.1, -0.002, 0.002),
          new Inverse(Thermocouple.T, -200, 0, -0.02, 0.04),
          new Inverse(Thermocouple.T, 0, 400, -0.03, 0.03));

  static List<Point> table() throws IOException {
    try (BufferedReader reader =
        new BufferedReader(
            new InputStreamReader(
                ThermocoupleTableTest.class.getResourceAsStream("its90-points.csv"),
                StandardCharsets.UTF_8))) {
      return reader.lines().filter(line -> !line.startsWith("#")).map(Point::parse).toList();
    }
  }

  static Stream<Inverse> stated() {
    return STATED.stream();
  }

  @Test
  void theTableHasEveryTypeAndAllItsPoints() throws IOException {
    assertEquals(135, table().size());
    assertEquals(8, table().stream().map(Point::type).distinct().count());
  }

  @ParameterizedTest
  @MethodSource("table")
  void voltageAgreesWithThePrintedDigitsOfTheTable(Point point) {
    double millivolt = 1e3 * point.type.voltage(point.celsius + ICE_K);
    assertEquals(point.millivolt, millivolt, 0.0005 + 1e-9);
  }

  @ParameterizedTest
  @MethodSource("table")
  void temperatureOfEachTablePointIsWithinTheStatedError(Point point) {
    if (point.celsius + ICE_K < point.type.readableMinK()) {
      return; // Type B up to 42 °C, see ThermocoupleTest.
    }
    double error = roundTripError(point.type, point.celsius);
    List<Inverse> applicable =
        STATED.stream().filter(i -> i.type == point.type && i.holds(point.celsius)).toList();
    if (applicable.isEmpty()) {
      assertEquals(0, error, 1e-6, "inverted numerically");
    } else {
      assertTrue(applicable.stream().anyMatch(i -> i.allows(error)), "off by " + error + " K");
    }
  }

  @ParameterizedTest
  @MethodSource("stated")
  void temperatureFromVoltageStaysWithinTheStatedErrorOverTheWholeRange(Inverse inverse) {
    SplittableRandom random = new SplittableRandom(SEED);
    // The limits in mV are rounded to 1 µV, so the next piece may begin up to 0.2 K early.
    double margin = 0.2;
    for (int i = 0; i < 4000; i++) {
      double celsius = random.nextDouble(inverse.low + margin, inverse.high - margin);
      double error = roundTripError(inverse.type, celsius);
      assertTrue(
          inverse.allows(error), "off by " + error + " K at " + celsius + " °C, seed " + SEED);
    }
  }

  @ParameterizedTest
  @EnumSource
  void everyReadableTemperatureComesBackWithinSixHundredthsOfAKelvin(Thermocouple type) {
    SplittableRandom random = new SplittableRandom(SEED);
    for (int i = 0; i < 10_000; i++) {
      double kelvin = random.nextDouble(type.readableMinK(), type.maxK());
      double error = roundTripError(type, kelvin - ICE_K);
      assertEquals(0, error, 0.06, type + " at " + kelvin + " K, seed " + SEED);
    }
  }

  @ParameterizedTest
  @EnumSource(names = {"B", "E", "K", "N", "T"})
  void temperatureBelowThePublishedInverseIsAsExactAsTheForwardFunction(Thermocouple type) {
    SplittableRandom random = new SplittableRandom(SEED);
    double highCelsius = type == Thermocouple.B ? 249 : -201;
    for (int i = 0; i < 2000; i++) {
      double celsius = random.nextDouble(type.readableMinK() - ICE_K, highCelsius);
      assertEquals(0, roundTripError(type, celsius), 1e-6, type + " at " + celsius + " °C");
    }
  }

  private static double roundTripError(Thermocouple type, double celsius) {
    double volts = type.voltage(celsius + ICE_K);
    return Expect.good(type.temperature(volts - type.voltage(ICE_K), ICE_K)) - ICE_K - celsius;
  }
}
