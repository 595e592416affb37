package tarnish.controller.record;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tarnish.controller.control.Words;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.GasSource;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;

/** The bench as its file described it for this batch. */
final class BenchPart {
  private final RigDescription rig;
  private final InForce inForce;
  private final Paper paper;

  BenchPart(RigDescription rig, InForce inForce, Paper paper) {
    this.rig = rig;
    this.inForce = inForce;
    this.paper = paper;
  }

  void write() {
    paper.section("The bench");
    paper.facts(
        fact("Rig", rig.name() + ", " + rig.connection().words()),
        fact("Vessel", rig.vessel().name() + ", " + rig.vessel().glass().words()),
        fact("Gas space", gasSpace()),
        fact("Seal", rig.vessel().sealMaterial() + ", " + temperature(rig.vessel().sealMaxK())),
        fact("Oxygen from", source(rig.oxygen())),
        fact("Inert gas from", source(rig.inert())));
    sensors();
    paper.paragraph(
        "Uncertainties are those that the rig file states. Certificates of calibration and proof"
            + " tests of the hard-wired limits are kept outside this program: attach them.");
    calibrations();
    proofs();
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
              difference(sensor.channel(), sensor.resolution()),
              difference(sensor.channel(), sensor.standardUncertainty()),
              Quantities.printShort(sensor.gainStandardUncertainty(), Unit.PERCENT)));
    }
    paper.table(
        Paper.Setting.NUMBERS,
        List.of("Sensor", "Element", "One step", "Offset uncertainty", "Gain uncertainty"),
        rows);
  }

  private void calibrations() {
    paper.section("Calibrations in force");
    if (inForce.calibrations().isEmpty()) {
      paper.paragraph(
          inForce.known()
              ? "None was on record when the batch began: readings stand as their devices gave them."
              : "Not looked up for this record.");
      return;
    }
    paper.table(
        Paper.Setting.NUMBERS,
        List.of("Sensor", "Calibrated", "Between", "Gain", "Uncertainty there"),
        inForce.calibrations().stream().map(BenchPart::row).toList());
  }

  private static List<String> row(InForce.Calibrated each) {
    Channel channel = each.channel();
    return List.of(
        channel.words(),
        Clock.minute(each.date()),
        Words.value(channel, each.low()) + " and " + Words.value(channel, each.high()),
        String.format(Locale.ROOT, "%.5f", each.gain()),
        difference(channel, twoDigits(each.lowStandardUncertainty()))
            + " and "
            + difference(channel, twoDigits(each.highStandardUncertainty())));
  }

  /** An uncertainty is given with two digits (JCGM 100:2008, 7.2.6). */
  private static double twoDigits(double value) {
    return new BigDecimal(value).round(new MathContext(2)).doubleValue();
  }

  private void proofs() {
    paper.section("Proof tests in force");
    if (inForce.proofs().isEmpty()) {
      paper.paragraph(
          inForce.known()
              ? "None of the software interlocks was on record as proved when the batch began."
              : "Not looked up for this record.");
      return;
    }
    paper.table(
        Paper.Setting.LINES,
        List.of("Proved", "Interlock", "Outcome", "Due again", "By", "How"),
        inForce.proofs().stream()
            .map(
                each ->
                    List.of(
                        each.date(),
                        each.row(),
                        each.passed() ? "passed" : "FAILED",
                        each.due(),
                        each.by(),
                        each.how()))
            .toList());
  }

  private static String difference(Channel channel, double valueSi) {
    return switch (channel.kind()) {
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
