package tarnish.controller.devices;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import org.junit.jupiter.api.Test;
import tarnish.controller.devices.Calibration.Mark;
import tarnish.shared.reading.Channel;

class CalibrationTest {
  private static Calibration between(Mark low, Mark high) {
    return new Calibration(Channel.SAMPLE_TEMPERATURE, "2026-11-25T10:00Z", low, high);
  }

  private static final Calibration ICE_AND_STEAM =
      between(new Mark(273.65, 0.03, 273.15, 0.04), new Mark(374.15, 0.06, 373.15, 0.08));

  @Test
  void bothPointsBecomeTheirReferences() {
    assertEquals(273.15, ICE_AND_STEAM.correct(273.65), 1e-9);
    assertEquals(373.15, ICE_AND_STEAM.correct(374.15), 1e-9);
    assertEquals(100 / 100.5, ICE_AND_STEAM.gain(), 1e-12);
  }

  @Test
  void theUncertaintyAtAPointIsThatOfThePointAndGrowsBeyond() {
    double gain = 100 / 100.5;
    assertEquals(Math.hypot(0.04, gain * 0.03), ICE_AND_STEAM.standardUncertainty(273.65), 1e-12);
    assertEquals(Math.hypot(0.08, gain * 0.06), ICE_AND_STEAM.standardUncertainty(374.15), 1e-12);
    double at400 = ICE_AND_STEAM.standardUncertainty(273.65 + 400);
    assertEquals(
        Math.hypot(
            (400 / 100.5 - 1) * Math.hypot(0.04, gain * 0.03),
            400 / 100.5 * Math.hypot(0.08, gain * 0.06)),
        at400,
        1e-9);
  }

  @Test
  void swappedOrEqualPointsAndWildGainsAreRefused() {
    Mark low = new Mark(273, 0, 273, 0);
    assertThrows(IllegalArgumentException.class, () -> between(low, low));
    assertThrows(IllegalArgumentException.class, () -> between(low, new Mark(270, 0, 373, 0)));
    assertThrows(IllegalArgumentException.class, () -> between(low, new Mark(400, 0, 373 - 10, 0)));
    assertThrows(
        IllegalArgumentException.class, () -> between(low, new Mark(Double.NaN, 0, 373, 0)));
  }

  @Test
  void theLastCalibrationOfAChannelHolds() {
    Calibration older = between(new Mark(273, 0, 274, 0), new Mark(373, 0, 374, 0));
    Calibrations all = new Calibrations(List.of(older, ICE_AND_STEAM));
    assertEquals(273.15, all.correct(Channel.SAMPLE_TEMPERATURE, 273.65), 1e-9);
    assertEquals(300, all.correct(Channel.OVEN_TEMPERATURE, 300));
  }
}
