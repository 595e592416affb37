package tarnish.shared.vessel;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.rig.Vessel;
import tarnish.shared.rig.Vessel.Glass;

/** The tubes are invented; the sizes are common ones. */
class PressureRatingTest {
  private static final long SEED = 1595;
  private static final double ROOM_K = 293.15;
  private static final double ICE_K = 273.15;

  // EN 1595, p [bar] = 140 w / (od - w), evaluated by hand.
  @ParameterizedTest
  @CsvSource({
    "10, 1.0, 15.556",
    "20, 1.8, 13.846",
    "30, 2.0, 10.000",
    "50, 2.5, 7.368",
    "100, 5.0, 7.368",
    "100, 3.0, 4.330"
  })
  void borosilicateFollowsTheTubeFormula(double outsideMm, double wallMm, double bar) {
    Vessel tube = tube(Glass.BOROSILICATE, (outsideMm - 2 * wallMm) / 1e3, wallMm / 1e3);
    assertEquals(bar, PressureRating.allowedGaugePa(tube, ROOM_K) / 1e5, 0.0005);
  }

  // The same turned round: w = od p / (140 + p), 0.7092 mm for 1 bar at 100 mm.
  @Test
  void theWallForOneBarHoldsOneBar() {
    double wallM = 0.7092e-3;
    Vessel tube = tube(Glass.BOROSILICATE, 0.100 - 2 * wallM, wallM);
    assertEquals(1e5, PressureRating.allowedGaugePa(tube, ROOM_K), 10);
  }

  // p = S w / r with S = 6.895 MPa, evaluated by hand.
  @ParameterizedTest
  @CsvSource({"23, 1, 299783", "23, 2, 599565", "10, 1, 689500"})
  void fusedQuartzFollowsTheThinWallFormula(double radiusMm, double wallMm, double pascal) {
    Vessel tube = tube(Glass.FUSED_QUARTZ, 2 * radiusMm / 1e3, wallMm / 1e3);
    assertEquals(pascal, PressureRating.allowedGaugePa(tube, ROOM_K), 1);
  }

  @Test
  void fusedQuartzIsNotRatedAboveTheEndOfItsFormula() {
    assertEquals(
        7e5, PressureRating.allowedGaugePa(tube(Glass.FUSED_QUARTZ, 0.010, 0.003), ROOM_K));
  }

  @Test
  void borosilicateHoldsItsPressureUpTo300CelsiusAndNoneAbove() {
    Vessel tube = tube(Glass.BOROSILICATE, 0.045, 0.0025);
    double cold = PressureRating.allowedGaugePa(tube, ROOM_K);
    assertEquals(cold, PressureRating.allowedGaugePa(tube, 300 + ICE_K));
    assertEquals(0, PressureRating.allowedGaugePa(tube, 300.01 + ICE_K));
    assertEquals(0, PressureRating.allowedGaugePa(tube, 560 + ICE_K), "the annealing point");
    assertEquals(0, PressureRating.allowedGaugePa(tube, -61 + ICE_K));
  }

  // The strain point of fused quartz is 1393 K; read as °C it would allow glass that creeps.
  @Test
  void fusedQuartzHoldsItsPressureUpToAMarginBelowTheStrainPoint() {
    Vessel tube = tube(Glass.FUSED_QUARTZ, 0.046, 0.002);
    double cold = PressureRating.allowedGaugePa(tube, ROOM_K);
    assertEquals(cold, PressureRating.allowedGaugePa(tube, 950 + ICE_K));
    assertEquals(cold, PressureRating.allowedGaugePa(tube, 1273.15));
    assertEquals(0, PressureRating.allowedGaugePa(tube, 1273.16));
    assertEquals(0, PressureRating.allowedGaugePa(tube, 1393));
  }

  @ParameterizedTest
  @EnumSource
  void aThickerWallNeverHoldsLessAndAWiderBoreNeverMore(Glass glass) {
    SplittableRandom random = new SplittableRandom(SEED);
    for (int i = 0; i < 2000; i++) {
      double boreM = random.nextDouble(0.005, 0.200);
      double wallM = random.nextDouble(0.0005, 0.006);
      double pascal = PressureRating.allowedGaugePa(tube(glass, boreM, wallM), ROOM_K);
      double thicker = PressureRating.allowedGaugePa(tube(glass, boreM, 1.1 * wallM), ROOM_K);
      double wider = PressureRating.allowedGaugePa(tube(glass, 1.1 * boreM, wallM), ROOM_K);
      assertTrue(pascal > 0 && thicker >= pascal && wider <= pascal, "seed " + SEED);
    }
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, -1, Double.NaN, Double.POSITIVE_INFINITY})
  void whatIsNoPositiveNumberIsRefused(double wrong) {
    for (Glass glass : Glass.values()) {
      Vessel sound = tube(glass, 0.046, 0.002);
      refused(sound, wrong);
      refused(tube(glass, wrong, 0.002), ROOM_K);
      refused(tube(glass, 0.046, wrong), ROOM_K);
    }
    assertFalse(PressureRating.isPressureVessel(Glass.FUSED_QUARTZ, Double.NaN));
  }

  private static void refused(Vessel vessel, double temperatureK) {
    assertThrows(
        IllegalArgumentException.class, () -> PressureRating.allowedGaugePa(vessel, temperatureK));
  }

  private static Vessel tube(Glass glass, double boreM, double wallM) {
    TwoZoneVolume volume = new TwoZoneVolume(4e-4, 1e-4);
    return new Vessel("test tube", glass, boreM, wallM, volume, 0, 0, "FKM elastomer", 473.15);
  }
}
