package tarnish.sim;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Reading;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.SensorDescription;
import tarnish.shared.rig.SensorElement;

class SensorsTest {
  private static final Channel OVEN = Channel.OVEN_TEMPERATURE;
  private final double[] trueValues = new double[Channel.COUNT];
  private final FaultPanel faults = new FaultPanel();

  @ParameterizedTest
  @ValueSource(doubles = {0.25, 0.5, 6})
  void lagIsExactForAnyStep(double stepS) {
    Sensors sensors = sensors(0, 0, 0, 3);
    trueValues[OVEN.ordinal()] = 400;
    for (int i = 0; i < 6 / stepS; i++) {
      sensors.advance(trueValues, stepS);
    }
    assertEquals(400 - 100 * StrictMath.exp(-2), read(sensors).value(OVEN), 0.001);
  }

  @Test
  void systematicErrorIsGainThenOffset() {
    assertEquals(300 * 1.01 - 2, read(sensors(-2, 0.01, 0, 0)).value(OVEN), 0.001);
  }

  @Test
  void noiseHasItsStatedSpread() {
    Sensors sensors = sensors(0, 0, 0.5, 0);
    double squares = 0;
    for (int i = 0; i < 20_000; i++) {
      double off = read(sensors).value(OVEN) - 300;
      squares += off * off;
    }
    assertEquals(0.5, StrictMath.sqrt(squares / 20_000), 0.01);
  }

  @Test
  void aValueOutOfRangeIsAReasonAndNotANumber() {
    Sensors sensors = sensors(0, 0, 0, 0);
    trueValues[OVEN.ordinal()] = 1001;
    sensors.advance(trueValues, 0.25);
    assertEquals(new Reading.Bad(BadReason.ABOVE_RANGE), read(sensors).at(OVEN));
    trueValues[OVEN.ordinal()] = 199;
    sensors.advance(trueValues, 0.25);
    assertEquals(new Reading.Bad(BadReason.BELOW_RANGE), read(sensors).at(OVEN));
  }

  private Sensors sensors(double offset, double gain, double noise, double lagS) {
    trueValues[OVEN.ordinal()] = 300;
    SensorDescription oven =
        new SensorDescription(
            OVEN, SensorElement.THERMOCOUPLE_K, 0.001, 200, 1000, 1, 0.01, noise, lagS);
    BenchSpec nominal = BenchSpec.nominal(TestBench.rig(), TestBench.copper());
    BenchSpec spec =
        new BenchSpec(
            1,
            800,
            nominal.thermal(),
            nominal.gas(),
            nominal.solid(),
            nominal.room(),
            List.of(new SensorError(OVEN, offset, gain)),
            0);
    return new Sensors(spec, List.of(oven), trueValues, faults);
  }

  private static Readings read(Sensors sensors) {
    double[] resolutions = new double[Channel.COUNT];
    resolutions[OVEN.ordinal()] = 0.001;
    Readings readings = new Readings(resolutions);
    sensors.read(readings, 295, 0);
    return readings;
  }
}
