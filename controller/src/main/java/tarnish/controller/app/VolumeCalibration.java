package tarnish.controller.app;

import java.io.IOException;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import tarnish.controller.app.SteadyLook.Seen;
import tarnish.controller.service.Bench;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.gas.Expansion;
import tarnish.shared.quantity.Dimension;
import tarnish.shared.quantity.NotAQuantity;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.RigDescription;

/**
 * Measures the hot volume with inert gas from a bulb of known volume, step by step, and keeps it
 * with its uncertainty. Every valve of the bench stays shut: the person works the bulb's tap.
 */
final class VolumeCalibration {
  private final RigDescription rig;
  private final Bench bench;
  private final BenchTalk talk;

  VolumeCalibration(RigDescription rig, Bench bench, BenchTalk talk) {
    this.rig = rig;
    this.bench = bench;
    this.talk = talk;
  }

  void run(Path data) throws IOException {
    String vessel = rig.vessel().name();
    talk.say("Hot volume of " + vessel + " by expanding inert gas from a bulb.");
    talk.say("1. Empty vessel in its place, oven at rest, bulb with its tap shut fitted to it.");
    Estimate bulbM3 =
        quantity("Volume of the bulb up to its tap (e.g. 100.0 mL ± 0.1 mL): ", Dimension.VOLUME);
    talk.say("2. Pump the vessel down by hand, shut its valve and wait until the gauge rests.");
    talk.ask("Press Enter then: ");
    Shown before = shown();
    talk.say("   vessel at " + Quantities.print(before.pressure.value(), Unit.MILLIBAR, 2));
    Estimate bulbPa =
        quantity(
            "3. Pressure of the inert gas in the bulb, by the same gauge if it can be"
                + " (e.g. 950.0 mbar ± 0.3 mbar): ",
            Dimension.PRESSURE);
    talk.say("4. Open the tap of the bulb and wait until the gauge rests.");
    talk.ask("Press Enter then: ");
    Shown after = shown();
    talk.say("   both at " + Quantities.print(after.pressure.value(), Unit.MILLIBAR, 2));
    Estimate hot = hotM3(bulbM3, bulbPa, before, after);
    double file = rig.vessel().volume().hotM3();
    talk.say(
        "Hot volume "
            + Quantities.printEstimate(hot, Unit.MILLILITRE)
            + "; until now "
            + Quantities.printEstimate(
                new Estimate(file, rig.vessel().hotStandardUncertaintyM3()), Unit.MILLILITRE)
            + ".");
    if (!talk.confirms("Keep this volume and use it from now on?")) {
      talk.say("Nothing was kept.");
      return;
    }
    String now = OffsetDateTime.now(ZoneOffset.UTC).truncatedTo(ChronoUnit.SECONDS).toString();
    VolumeFile.in(data).add(vessel, now, hot);
    talk.say("Kept with the date " + now + "; the service uses it from its next start on.");
  }

  private Estimate hotM3(Estimate bulbM3, Estimate bulbPa, Shown before, Shown after) {
    Estimate coldM3 =
        new Estimate(rig.vessel().volume().coldM3(), rig.vessel().coldStandardUncertaintyM3());
    try {
      return Expansion.hotM3(
          bulbM3, coldM3, bulbPa, before.pressure, after.pressure, after.sample, after.room);
    } catch (IllegalArgumentException e) {
      throw new CommandFailure(e.getMessage() + ". Nothing was kept.");
    }
  }

  private record Shown(Estimate pressure, Estimate sample, Estimate room) {}

  private Shown shown() {
    var seen = SteadyLook.at(bench);
    Estimate room =
        seen.containsKey(Channel.ROOM_TEMPERATURE)
            ? value(Channel.ROOM_TEMPERATURE, seen.get(Channel.ROOM_TEMPERATURE))
            : new Estimate(295, 3);
    return new Shown(
        value(Channel.VESSEL_PRESSURE, seen.get(Channel.VESSEL_PRESSURE)),
        value(Channel.SAMPLE_TEMPERATURE, seen.get(Channel.SAMPLE_TEMPERATURE)),
        room);
  }

  /** A temperature may be off by its sensor; of a pressure only the zero matters here. */
  private Estimate value(Channel channel, Seen seen) {
    if (seen == null || !seen.isSteady()) {
      throw new CommandFailure(
          "The " + channel.words() + " gave no steady value. Nothing was kept.");
    }
    double sensor =
        rig.sensor(channel)
            .map(s -> Math.hypot(s.standardUncertainty(), s.resolution() / Math.sqrt(12)))
            .orElse(0.0);
    return new Estimate(seen.mean(), Math.hypot(seen.meanDeviation(), sensor));
  }

  private Estimate quantity(String question, Dimension dimension) throws IOException {
    for (int i = 0; i < 3; i++) {
      try {
        return Quantities.parseEstimate(talk.ask(question), dimension);
      } catch (NotAQuantity wrong) {
        talk.say("  found " + wrong.found() + ", expected " + wrong.expected());
      }
    }
    throw new CommandFailure("No value was given. Nothing was kept.");
  }
}
