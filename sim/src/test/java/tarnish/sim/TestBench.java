package tarnish.sim;

import java.util.List;
import java.util.OptionalDouble;
import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Charge;
import tarnish.shared.recipe.OxideMember;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.GasSource;
import tarnish.shared.rig.Heater;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.Regulation;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;
import tarnish.shared.rig.SensorElement;
import tarnish.shared.rig.Vessel;

/** An invented rig and invented charges for the tests of the plant. */
public final class TestBench {
  private TestBench() {}

  public static RigDescription rig() {
    return rig(Heater.Actuator.ANALOGUE);
  }

  public static RigDescription rig(Heater.Actuator actuator) {
    Limits limits = new Limits(900, 950, 400, 1.3e5, 0.2, 5000);
    return new RigDescription(
        "test bench",
        true,
        RigDescription.Connection.SIMULATED,
        250,
        sensors(),
        new Heater(actuator, 800, 10, 0.5, 1),
        new GasSource("oxygen 99.5", 0.995, 0.001, 2e5, 2e-10, 0.3),
        new GasSource("argon", 1e-5, 1e-6, 1.3e5, 1e-9, 0.3),
        2e-4,
        50,
        2e-9,
        101_325,
        new Vessel(
            "quartz tube",
            Vessel.Glass.FUSED_QUARTZ,
            0.046,
            0.002,
            new TwoZoneVolume(2.5e-4, 1.0e-4),
            2e-6,
            2e-6,
            "FKM elastomer",
            450),
        new Regulation(Channel.SAMPLE_TEMPERATURE, 0.02, 900, 0, 0.5, 60),
        limits,
        limits,
        false);
  }

  private static List<SensorDescription> sensors() {
    return List.of(
        thermometer(Channel.SAMPLE_TEMPERATURE, SensorElement.THERMOCOUPLE_K),
        thermometer(Channel.OVEN_TEMPERATURE, SensorElement.THERMOCOUPLE_K),
        thermometer(Channel.OVEN_TEMPERATURE_PAIR, SensorElement.THERMOCOUPLE_K),
        thermometer(Channel.SEAL_TEMPERATURE, SensorElement.PT100),
        thermometer(Channel.ROOM_TEMPERATURE, SensorElement.PT100),
        gauge(Channel.VESSEL_PRESSURE, 2e5),
        gauge(Channel.SUPPLY_PRESSURE, 1e6),
        new SensorDescription(
            Channel.ROOM_OXYGEN, SensorElement.CURRENT_LOOP, 1e-4, 0, 0.3, 2e-3, 0, 2e-4, 10),
        contact(Channel.EMERGENCY_STOP),
        contact(Channel.DOOR));
  }

  private static SensorDescription thermometer(Channel channel, SensorElement element) {
    return new SensorDescription(channel, element, 0.01, 200, 1500, 1.0, 0.001, 0.05, 3);
  }

  private static SensorDescription gauge(Channel channel, double maxPa) {
    return new SensorDescription(
        channel, SensorElement.CURRENT_LOOP, 1, -1000, maxPa, 50, 0.002, 5, 0.1);
  }

  private static SensorDescription contact(Channel channel) {
    return new SensorDescription(channel, SensorElement.CONTACT, 1, 0, 1, 0, 0, 0, 0);
  }

  public static Recipe copper() {
    return recipe(
        "Cu",
        0.063546,
        List.of(new OxideMember("Cu", 0), new OxideMember("Cu2O", 0.5), new OxideMember("CuO", 1)));
  }

  public static Recipe bariumOxide() {
    return recipe("BaO", 0.153326, List.of(new OxideMember("BaO", 0), new OxideMember("BaO2", 1)));
  }

  public static Recipe nickel() {
    return recipe("Ni", 0.058693, List.of(new OxideMember("Ni", 0), new OxideMember("NiO", 1)));
  }

  private static Recipe recipe(String formula, double kgPerMol, List<OxideMember> series) {
    return new Recipe(
        "test of " + formula,
        true,
        new Charge(formula, 4e-3, 1e-6),
        kgPerMol,
        series,
        series.get(series.size() - 1),
        OptionalDouble.empty(),
        OptionalDouble.of(-479.4e3),
        "quartz tube",
        "oxygen 99.5",
        List.of(),
        List.of());
  }
}
