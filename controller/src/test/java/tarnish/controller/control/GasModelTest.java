package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tarnish.shared.gas.SecondVirial;
import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.Limits;

/** 500 mbar in 250 mL at 600 K and 80 mL at 300 K, n = pV/(RT) by hand. */
class GasModelTest {
  private static final double R = 8.31446261815324;
  private static final double PRESSURE_PA = 50_000;
  private static final GasModel.Heat HEAT = new GasModel.Heat(600, 650, 300);
  private static final double HOT_MOL = 50_000 * 250e-6 / R / 600;
  private static final double COLD_MOL = 50_000 * 80e-6 / R / 300;

  /** Errors: 2 and 1 mL, gain 1 %, zero 40 Pa, sample 2 K and 0.3 %, oven 1.5 K and 0.2 %, 1 K. */
  private static final GasModel MODEL =
      new GasModel(new TwoZoneVolume(250e-6, 80e-6), 2e-6, 1e-6, 0.01, 40, 2, 0.003, 1.5, 0.002, 1);

  @Test
  void theAmountIsThatOfBothPartsOfTheVessel() {
    assertEquals(HOT_MOL + COLD_MOL, MODEL.amountMol(PRESSURE_PA, HEAT), 1e-12);
    assertEquals(250e-6 / 600 + 80e-6 / 300, MODEL.volumeOverTemperature(HEAT), 1e-15);
    assertEquals(600, MODEL.hotK(HEAT), "the gas is as warm as the sample");
  }

  @Test
  void everyErrorMovesTheAmountByItsOwnDerivative() {
    double[] errors = MODEL.errors(PRESSURE_PA, HEAT, 30);
    assertEquals(GasModel.ERRORS, errors.length);
    assertEquals((HOT_MOL + COLD_MOL) * 0.01, errors[GasModel.GAUGE_GAIN], 1e-12);
    assertEquals((HOT_MOL + COLD_MOL) * 30 / 50_000, errors[GasModel.GAUGE_ZERO], 1e-12);
    assertEquals(HOT_MOL * 2 / 250, errors[GasModel.HOT_VOLUME], 1e-12);
    assertEquals(COLD_MOL / 80, errors[GasModel.COLD_VOLUME], 1e-12);
    // Warmer gas is less gas. The gas itself is within 1 K of the sensor.
    assertEquals(-HOT_MOL / 600 * Math.sqrt(5), errors[GasModel.SAMPLE_OFFSET], 1e-12);
    assertEquals(-HOT_MOL * 0.003, errors[GasModel.SAMPLE_GAIN], 1e-12);
    assertEquals(0, errors[GasModel.OVEN], 1e-30, "the oven does not count as long as w is 0");
    assertEquals(-HOT_MOL / 600 * 0.1 * 50, errors[GasModel.HOT_MIX], 1e-12);
    assertEquals(-COLD_MOL / 300, errors[GasModel.ROOM], 1e-12);
    assertEquals(0, errors[GasModel.LEAK]);
    assertEquals(0, errors[GasModel.UNSEEN]);
    assertEquals(0, errors[GasModel.VALVE]);
  }

  @Test
  void aVesselWithoutAColdPartHasNoErrorOfIt() {
    double[] errors =
        MODEL.withVolume(new TwoZoneVolume(250e-6, 0), 2e-6, 0).errors(PRESSURE_PA, HEAT, 30);
    assertEquals(0, errors[GasModel.COLD_VOLUME]);
    assertEquals(0, errors[GasModel.ROOM], 1e-30);
    assertEquals(HOT_MOL * 0.01, errors[GasModel.GAUGE_GAIN], 1e-12);
  }

  @Test
  void theErrorsAreThoseOfTheRigsSensors() {
    GasModel of = GasModel.of(new TestRig().build());
    assertEquals(0.001, of.gaugeGain());
    assertEquals(50, of.gaugeZeroPa());
    assertEquals(1.5, of.sampleK());
    assertEquals(0.002, of.sampleGain());
    assertEquals(1.5, of.ovenK());
    assertEquals(0.002, of.ovenGain());
    assertEquals(1.5, of.roomK());
    assertEquals(1.5e-6, of.hotUncertaintyM3());
    assertEquals(1e-6, of.coldUncertaintyM3());
  }

  @Test
  void aSensorThatIsNotFittedHasNoErrorAndARoomWithoutOneIsKnownToThreeKelvin() {
    TestRig rig = new TestRig();
    rig.notFitted.addAll(
        List.of(
            Channel.VESSEL_PRESSURE,
            Channel.SAMPLE_TEMPERATURE,
            Channel.OVEN_TEMPERATURE,
            Channel.ROOM_TEMPERATURE));
    GasModel of = GasModel.of(rig.build());
    double sum =
        of.gaugeGain()
            + of.gaugeZeroPa()
            + of.sampleK()
            + of.sampleGain()
            + of.ovenK()
            + of.ovenGain();
    assertEquals(0, sum);
    assertEquals(3, of.roomK());
  }

  private static TestRig upTo(double pressurePa) {
    TestRig rig = new TestRig();
    Limits l = rig.unattended;
    rig.unattended =
        new Limits(l.sampleMaxK(), l.ovenMaxK(), l.sealMaxK(), pressurePa, l.rampMaxKPerS(), 2000);
    return rig;
  }

  /** B of oxygen is some -17 cm³/mol in the cold: B p/(RT) is 0.8 per mille at 1100 mbar. */
  @Test
  void oxygenIsTakenAsIdealUntilItIsWrongByAPerMille() {
    double ideal = GasModel.idealGasError(new TestRig().build());
    assertEquals(-17e-6 * 110_000 / R / 293.15, ideal, 5e-5);
    assertFalse(GasModel.of(new TestRig().build()).virial());
    double perPa = Math.abs(ideal) / 110_000;
    assertFalse(GasModel.of(upTo(0.99e-3 / perPa).build()).virial());
    assertTrue(GasModel.of(upTo(1.01e-3 / perPa).build()).virial());
  }

  @Test
  void aDenseGasHoldsMoreThanAnIdealOne() {
    GasModel dense = GasModel.of(upTo(300_000).build());
    assertTrue(dense.virial());
    double hot = SecondVirial.OXYGEN.idealGasError(250_000, 600);
    double cold = SecondVirial.OXYGEN.idealGasError(250_000, 300);
    assertTrue(cold < -1.5e-3, "the cold part is far from ideal: " + cold);
    assertEquals(
        5 * (HOT_MOL / (1 + hot) + COLD_MOL / (1 + cold)), dense.amountMol(250_000, HEAT), 1e-12);
    // A gauge that shows less than nothing tells of no gas, ideal or not.
    double perPa = (HOT_MOL + COLD_MOL) / PRESSURE_PA;
    assertEquals(-20 * perPa, dense.amountMol(-20, HEAT), 1e-15);
  }
}
