package tarnish.controller.app;

import java.io.IOException;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;
import tarnish.controller.app.BenchLook.Seen;
import tarnish.controller.devices.Calibration;
import tarnish.controller.devices.Calibration.Mark;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.quantity.Dimension;
import tarnish.shared.quantity.NotAQuantity;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.RigDescription;

/** Compares a sensor with two references and keeps the straight line through both. */
final class SensorCalibration {
  /** Boiling point of water at 101325 Pa in K (IAPWS-95: 99.974 °C); from memory. */
  private static final double BOILING_K = 373.124;

  private static final double STANDARD_PA = 101_325;

  /** Molar heat of vaporisation of water there in J/mol; from memory. */
  private static final double VAPORISATION_J_PER_MOL = 40_660;

  private static final double GAS_CONSTANT = 8.314462618;

  private final RigDescription rig;
  private final BenchLook look;
  private final BenchTalk talk;

  SensorCalibration(RigDescription rig, BenchLook look, BenchTalk talk) {
    this.rig = rig;
    this.look = look;
    this.talk = talk;
  }

  void run(String words, Path data) throws IOException {
    Channel channel = channel(words);
    talk.say("Calibration of the " + channel.words() + " of " + rig.name() + " at two points.");
    hint(channel);
    Mark low = mark(channel, "lower");
    Mark high = mark(channel, "upper");
    String now = OffsetDateTime.now(ZoneOffset.UTC).truncatedTo(ChronoUnit.SECONDS).toString();
    Calibration calibration;
    try {
      calibration = new Calibration(channel, now, low, high);
    } catch (IllegalArgumentException e) {
      throw new CommandFailure(e.getMessage() + " Nothing was kept.");
    }
    tell(calibration);
    if (!talk.confirms("Keep this calibration and use it from now on?")) {
      talk.say("Nothing was kept.");
      return;
    }
    CalibrationFile.in(data).add(calibration);
    talk.say("Kept with the date " + now + "; the service uses it from its next start on.");
  }

  private Channel channel(String words) {
    return rig.sensors().stream()
        .map(sensor -> sensor.channel())
        .filter(each -> each.kind() != Channel.Kind.CONTACT && each.words().equals(words))
        .findFirst()
        .orElseThrow(
            () ->
                new CommandFailure(
                    "There is no sensor '"
                        + words
                        + "' to calibrate; there are "
                        + rig.sensors().stream()
                            .map(sensor -> sensor.channel())
                            .filter(each -> each.kind() != Channel.Kind.CONTACT)
                            .map(Channel::words)
                            .collect(Collectors.joining(", "))
                        + "."));
  }

  private void hint(Channel channel) {
    if (channel.kind() == Channel.Kind.TEMPERATURE) {
      look.look(Outputs.OFF, 2);
      double roomPa = look.readings().valueOr(Channel.ROOM_PRESSURE, rig.roomPressurePa());
      talk.say(
          "Stirred crushed ice in water is at 0 °C ± 0.05 K. Water boils now at "
              + Quantities.print(boilingK(roomPa), Unit.CELSIUS, 2)
              + " ± 0.1 K, at "
              + Quantities.print(roomPa, Unit.MILLIBAR, 1)
              + " in the room.");
    } else if (channel.kind() == Channel.Kind.PRESSURE) {
      talk.say(
          "Pumped down well below the gauge's resolution is 0 mbar; the vessel open to the room is"
              + " at what a barometer says.");
    }
  }

  /** Clausius and Clapeyron: 1/T = 1/T0 - R/L ln(p/p0); within 0.05 K from 900 to 1050 hPa. */
  static double boilingK(double pressurePa) {
    return 1
        / (1 / BOILING_K
            - GAS_CONSTANT / VAPORISATION_J_PER_MOL * Math.log(pressurePa / STANDARD_PA));
  }

  private Mark mark(Channel channel, String which) throws IOException {
    Estimate reference = reference(channel, which);
    Seen seen = look.look(Outputs.OFF).get(channel);
    if (seen.count() < 5 || seen.goodShare() < 1) {
      throw new CommandFailure(
          "The "
              + channel.words()
              + " gave no steady value ("
              + (seen.lastReason() == null ? "too few" : seen.lastReason().words())
              + "). Nothing was kept.");
    }
    double meanU = seen.noise() / Math.sqrt(seen.count());
    double resolutionU = rig.sensor(channel).orElseThrow().resolution() / Math.sqrt(12);
    Mark mark =
        new Mark(
            seen.uncorrectedMean(),
            Math.hypot(meanU, resolutionU),
            reference.value(),
            reference.standardUncertainty());
    talk.say("  shows " + printed(channel, mark.shown()));
    return mark;
  }

  private Estimate reference(Channel channel, String which) throws IOException {
    Dimension dimension =
        switch (channel.kind()) {
          case TEMPERATURE -> Dimension.TEMPERATURE;
          case PRESSURE -> Dimension.PRESSURE;
          default -> Dimension.FRACTION;
        };
    String example = dimension == Dimension.TEMPERATURE ? "0 °C ± 0.05 K" : "1013 mbar ± 0.5 mbar";
    for (int i = 0; i < 3; i++) {
      String typed =
          talk.ask(
              "Bring it to the "
                  + which
                  + " reference, wait until it is steady, then type the true value with its"
                  + " standard uncertainty (e.g. "
                  + example
                  + "): ");
      try {
        return Quantities.parseEstimate(typed, dimension);
      } catch (NotAQuantity wrong) {
        talk.say("  found " + wrong.found() + ", expected " + wrong.expected());
      }
    }
    throw new CommandFailure("No reference was given. Nothing was kept.");
  }

  private void tell(Calibration calibration) {
    talk.say(String.format(Locale.ROOT, "gain %.6f", calibration.gain()));
    for (double at : Arrays.asList(calibration.low().shown(), calibration.high().shown())) {
      double corrected = calibration.correct(at);
      talk.say(
          "  "
              + printed(calibration.channel(), at)
              + " becomes "
              + printed(calibration.channel(), corrected)
              + ", standard uncertainty "
              + difference(calibration.channel(), calibration.standardUncertainty(at)));
    }
  }

  private static String printed(Channel channel, double value) {
    return switch (channel.kind()) {
      case TEMPERATURE -> Quantities.print(value, Unit.CELSIUS, 3);
      case PRESSURE -> Quantities.print(value, Unit.MILLIBAR, 3);
      default -> Quantities.print(value, Unit.PERCENT, 3);
    };
  }

  private static String difference(Channel channel, double value) {
    return switch (channel.kind()) {
      case TEMPERATURE -> Quantities.print(value, Unit.KELVIN_DIFFERENCE, 3);
      case PRESSURE -> Quantities.print(value, Unit.MILLIBAR, 3);
      default -> Quantities.print(value, Unit.PERCENT, 3);
    };
  }
}
