package tarnish.controller.control;

import tarnish.shared.gas.SecondVirial;
import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;

/**
 * How pressure and temperatures tell the amount of gas, and how wrong that may be.
 *
 * <pre>
 *   n = p/R (V_hot/T_hot + V_cold/T_room),   T_hot = T_sample + w (T_oven - T_sample)
 * </pre>
 *
 * <p>In a soak no heat flows and the gas is as warm as the sample; in a ramp the glass runs ahead
 * of it and the gas a little too, under a reacting sample it stays behind. So w is 0 and uncertain.
 * Every systematic error (one gauge, one volume, one thermocouple: the same error in every amount)
 * is one of {@link #ERRORS} numbers of unit variance, so that amounts taken at different times are
 * correlated as they really are (JCGM 100:2008, 5.2).
 *
 * @param volume hot and cold gas space
 * @param hotUncertaintyM3 of the hot space
 * @param coldUncertaintyM3 of the cold space
 * @param gaugeGain relative standard uncertainty of the gauge's gain
 * @param gaugeZeroPa standard uncertainty of the gauge's zero as delivered
 * @param sampleK standard uncertainty of the sample sensor's offset, in K
 * @param sampleGain of its gain
 * @param ovenK standard uncertainty of the oven sensor's offset, in K
 * @param ovenGain of its gain
 * @param roomK standard uncertainty of the room temperature, in K
 * @param virial whether the gas is so dense on this rig that it is not taken as ideal
 */
public record GasModel(
    TwoZoneVolume volume,
    double hotUncertaintyM3,
    double coldUncertaintyM3,
    double gaugeGain,
    double gaugeZeroPa,
    double sampleK,
    double sampleGain,
    double ovenK,
    double ovenGain,
    double roomK,
    boolean virial) {

  /** The same for a gas taken as ideal. */
  GasModel(
      TwoZoneVolume volume,
      double hotUncertaintyM3,
      double coldUncertaintyM3,
      double gaugeGain,
      double gaugeZeroPa,
      double sampleK,
      double sampleGain,
      double ovenK,
      double ovenGain,
      double roomK) {
    this(
        volume,
        hotUncertaintyM3,
        coldUncertaintyM3,
        gaugeGain,
        gaugeZeroPa,
        sampleK,
        sampleGain,
        ovenK,
        ovenGain,
        roomK,
        false);
  }

  /** Error of the ideal gas law from which on it is corrected. */
  private static final double IDEAL_ENOUGH = 1e-3;

  /** Where a cold vessel is: the gas is least ideal there, in K. */
  private static final double COLD_K = 293.15;

  /**
   * Whether a rig's gas has to be corrected: always or never, for a switch would look like uptake.
   */
  private static boolean isFarFromIdeal(RigDescription rig) {
    return StrictMath.abs(idealGasError(rig)) > IDEAL_ENOUGH;
  }

  /** What an amount would be wrong by at the rig's highest pressure, cold and full of oxygen. */
  static double idealGasError(RigDescription rig) {
    double highestPa =
        StrictMath.max(rig.attended().pressureMaxPa(), rig.unattended().pressureMaxPa());
    return SecondVirial.OXYGEN.idealGasError(highestPa, COLD_K);
  }

  static final int GAUGE_GAIN = 0;
  static final int GAUGE_ZERO = 1;
  static final int HOT_VOLUME = 2;
  static final int COLD_VOLUME = 3;
  static final int SAMPLE_OFFSET = 4;
  static final int SAMPLE_GAIN = 5;
  static final int OVEN = 6;
  static final int HOT_MIX = 7;
  static final int ROOM = 8;

  /** The leak's rate, what was filled in for unseen uptake, and the valve's learnt flow. */
  static final int LEAK = 9;

  static final int UNSEEN = 10;
  static final int VALVE = 11;

  /** How many systematic errors there are. */
  static final int ERRORS = 12;

  private static final double R = TwoZoneVolume.GAS_CONSTANT;

  /** w and its standard uncertainty: common practice, not measured on a rig. */
  private static final double OVEN_SHARE = 0;

  private static final double OVEN_SHARE_UNCERTAINTY = 0.1;

  /** The gas is nowhere exactly as warm as the sample's sensor, in K: common practice. */
  private static final double GAS_TO_SAMPLE_K = 1;

  /** Room temperature without a sensor for it, in K: common practice. */
  private static final double UNMEASURED_ROOM_K = 3;

  static GasModel of(RigDescription rig) {
    SensorDescription gauge = rig.sensor(Channel.VESSEL_PRESSURE).orElse(null);
    SensorDescription sample = rig.sensor(Channel.SAMPLE_TEMPERATURE).orElse(null);
    SensorDescription oven = rig.sensor(Channel.OVEN_TEMPERATURE).orElse(null);
    return new GasModel(
        rig.vessel().volume(),
        rig.vessel().hotStandardUncertaintyM3(),
        rig.vessel().coldStandardUncertaintyM3(),
        gauge == null ? 0 : gauge.gainStandardUncertainty(),
        gauge == null ? 0 : gauge.standardUncertainty(),
        sample == null ? 0 : sample.standardUncertainty(),
        sample == null ? 0 : sample.gainStandardUncertainty(),
        oven == null ? 0 : oven.standardUncertainty(),
        oven == null ? 0 : oven.gainStandardUncertainty(),
        rig.sensor(Channel.ROOM_TEMPERATURE)
            .map(SensorDescription::standardUncertainty)
            .orElse(UNMEASURED_ROOM_K),
        isFarFromIdeal(rig));
  }

  /** The same sensors on another vessel. */
  GasModel withVolume(TwoZoneVolume other, double hotUncertainty, double coldUncertainty) {
    return new GasModel(
        other,
        hotUncertainty,
        coldUncertainty,
        gaugeGain,
        gaugeZeroPa,
        sampleK,
        sampleGain,
        ovenK,
        ovenGain,
        roomK,
        virial);
  }

  /** Temperatures at one moment, in K. */
  record Heat(double sampleK, double ovenK, double roomK) {}

  double hotK(Heat heat) {
    return heat.sampleK() + OVEN_SHARE * (heat.ovenK() - heat.sampleK());
  }

  /** V/T of the gas space in m³/K. */
  double volumeOverTemperature(Heat heat) {
    return volume.volumeOverTemperature(hotK(heat), heat.roomK());
  }

  double amountMol(double pressurePa, Heat heat) {
    if (!virial) {
      return pressurePa / R * volumeOverTemperature(heat);
    }
    double hotK = hotK(heat);
    double hot = volume.hotM3() / hotK / (1 + excess(pressurePa, hotK));
    double cold = volume.coldM3() / heat.roomK() / (1 + excess(pressurePa, heat.roomK()));
    return pressurePa / R * (hot + cold);
  }

  private static double excess(double pressurePa, double temperatureK) {
    return SecondVirial.OXYGEN.idealGasError(StrictMath.max(0, pressurePa), temperatureK);
  }

  /**
   * What one standard deviation of each error does to an amount of gas, in mol.
   *
   * @param zeroUncertaintyPa of the gauge's zero as it is known by now
   */
  double[] errors(double pressurePa, Heat heat, double zeroUncertaintyPa) {
    double hotK = hotK(heat);
    double hotMol = pressurePa / R * volume.hotM3() / hotK;
    double coldMol = pressurePa / R * volume.coldM3() / heat.roomK();
    double perHotK = -hotMol / hotK;
    double[] errors = new double[ERRORS];
    errors[GAUGE_GAIN] = (hotMol + coldMol) * gaugeGain;
    errors[GAUGE_ZERO] = volumeOverTemperature(heat) / R * zeroUncertaintyPa;
    errors[HOT_VOLUME] = hotMol / volume.hotM3() * hotUncertaintyM3;
    errors[COLD_VOLUME] = volume.coldM3() > 0 ? coldMol / volume.coldM3() * coldUncertaintyM3 : 0;
    errors[SAMPLE_OFFSET] = perHotK * (1 - OVEN_SHARE) * StrictMath.hypot(sampleK, GAS_TO_SAMPLE_K);
    errors[SAMPLE_GAIN] = perHotK * (1 - OVEN_SHARE) * sampleGain * heat.sampleK();
    errors[OVEN] = perHotK * OVEN_SHARE * StrictMath.hypot(ovenK, ovenGain * heat.ovenK());
    errors[HOT_MIX] = perHotK * OVEN_SHARE_UNCERTAINTY * (heat.ovenK() - heat.sampleK());
    errors[ROOM] = -coldMol / heat.roomK() * roomK;
    return errors;
  }
}
