package tarnish.controller.control;

import java.util.ArrayList;
import java.util.List;
import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.Defeat;
import tarnish.shared.rig.GasSource;
import tarnish.shared.rig.Heater;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.Regulation;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;
import tarnish.shared.rig.SensorElement;
import tarnish.shared.rig.Vessel;

/** An invented bench for tests; change a field, then {@link #build}. */
final class TestRig {
  static final double ROOM_PA = 101_300;
  static final double HOT_M3 = 250e-6;
  static final double COLD_M3 = 80e-6;

  Heater heater = new Heater(Heater.Actuator.ANALOGUE, 800, 10, 1, 1);
  Regulation regulation = new Regulation(Channel.SAMPLE_TEMPERATURE, 0.02, 900, 60, 0.5, 80);
  Limits attended = new Limits(873.15, 973.15, 433.15, 110_000, 10 / 60.0, 4000);
  Limits unattended = new Limits(833.15, 923.15, 413.15, 106_000, 6 / 60.0, 2000);
  boolean ventOpenWhenSafe = false;
  double pumpM3PerS = 3e-4;
  double pressureGain = 0.001;
  double pressureZeroPa = 50;
  double pressureNoisePa = 10;
  double pressureResolutionPa = 10;
  double temperatureNoiseK = 0.05;
  List<Channel> notFitted = new ArrayList<>();
  RigDescription.Connection connection = RigDescription.Connection.SIMULATED;
  Defeat defeat = Defeat.NONE;

  RigDescription build() {
    List<SensorDescription> sensors = new ArrayList<>();
    for (Channel channel : Channel.values()) {
      if (!notFitted.contains(channel)) {
        sensors.add(sensor(channel));
      }
    }
    return new RigDescription(
        "test bench",
        true,
        connection,
        250,
        sensors,
        heater,
        new GasSource("bottle", 0.995, 0.001, 150_000, 2.2e-11, 0.3),
        new GasSource("argon", 5e-6, 3e-6, 150_000, 1.1e-10, 0.3),
        pumpM3PerS,
        30,
        2e-10,
        ROOM_PA,
        new Vessel(
            "quartz tube",
            Vessel.Glass.FUSED_QUARTZ,
            0.044,
            0.002,
            new TwoZoneVolume(HOT_M3, COLD_M3),
            1.5e-6,
            1e-6,
            "FKM elastomer",
            473.15),
        regulation,
        attended,
        unattended,
        ventOpenWhenSafe,
        defeat,
        RigDescription.USUAL_BALANCE_KG);
  }

  private SensorDescription sensor(Channel channel) {
    return switch (channel.kind()) {
      case TEMPERATURE ->
          new SensorDescription(
              channel,
              SensorElement.THERMOCOUPLE_K,
              0.01,
              173.15,
              1473.15,
              1.5,
              0.002,
              temperatureNoiseK,
              3);
      case PRESSURE ->
          new SensorDescription(
              channel,
              SensorElement.CURRENT_LOOP,
              pressureResolutionPa,
              -2500,
              1e6,
              pressureZeroPa,
              pressureGain,
              pressureNoisePa,
              0.05);
      case FRACTION ->
          new SensorDescription(
              channel, SensorElement.CURRENT_LOOP, 1e-4, 0, 0.25, 0.002, 0, 0.0002, 20);
      case CONTACT -> new SensorDescription(channel, SensorElement.CONTACT, 1, 0, 1, 0, 0, 0, 0);
    };
  }
}
