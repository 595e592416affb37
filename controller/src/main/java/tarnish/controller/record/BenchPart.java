package tarnish.controller.record;

import java.util.ArrayList;
import java.util.List;
import tarnish.controller.control.Words;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;
import tarnish.shared.rig.GasSource;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;

/** The bench as its file described it for this batch. */
final class BenchPart {
  private final RigDescription rig;
  private final Html html;

  BenchPart(RigDescription rig, Html html) {
    this.rig = rig;
    this.html = html;
  }

  void write() {
    html.section("The bench")
        .facts(
            fact("Rig", rig.name() + ", " + rig.connection().words()),
            fact("Vessel", rig.vessel().name() + ", " + rig.vessel().glass().words()),
            fact("Gas space", gasSpace()),
            fact("Seal", rig.vessel().sealMaterial() + ", " + temperature(rig.vessel().sealMaxK())),
            fact("Oxygen from", source(rig.oxygen())),
            fact("Inert gas from", source(rig.inert())));
    sensors();
    html.element(
        "p",
        "Uncertainties are those that the rig file states. Certificates of calibration and proof"
            + " tests of the hard-wired limits are kept outside this program: attach them.");
  }

  private String gasSpace() {
    return Quantities.printShort(rig.vessel().volume().hotM3(), Unit.MILLILITRE)
        + " hot, "
        + Quantities.printShort(rig.vessel().volume().coldM3(), Unit.MILLILITRE)
        + " cold";
  }

  private static String source(GasSource gas) {
    return gas.name()
        + ", "
        + Quantities.printShort(gas.oxygenFraction(), Unit.PERCENT)
        + " O₂, "
        + Words.pressure(gas.supplyPressurePa());
  }

  private void sensors() {
    List<List<String>> rows = new ArrayList<>();
    for (SensorDescription sensor : rig.sensors()) {
      rows.add(
          List.of(
              sensor.channel().words(),
              sensor.element().words(),
              difference(sensor, sensor.resolution()),
              difference(sensor, sensor.standardUncertainty()),
              Quantities.printShort(sensor.gainStandardUncertainty(), Unit.PERCENT)));
    }
    html.table(
        "numbers",
        List.of("Sensor", "Element", "One step", "Offset uncertainty", "Gain uncertainty"),
        rows);
  }

  private static String difference(SensorDescription sensor, double valueSi) {
    return switch (sensor.channel().kind()) {
      case TEMPERATURE -> Quantities.printShort(valueSi, Unit.KELVIN_DIFFERENCE);
      case PRESSURE -> Quantities.printShort(valueSi, Unit.MILLIBAR);
      case FRACTION -> Quantities.printShort(valueSi, Unit.PERCENT);
      case CONTACT -> "–";
    };
  }

  private static String temperature(double temperatureK) {
    return Words.temperature(temperatureK);
  }

  private static String[] fact(String name, String value) {
    return new String[] {name, value};
  }
}
