package tarnish.controller.app;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import tarnish.controller.control.Words;
import tarnish.controller.control.trial.ChannelLook;
import tarnish.controller.control.trial.Trials;
import tarnish.controller.devices.ChannelTalk;
import tarnish.controller.service.BenchView.ChannelLine;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Reading;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;

/** Every channel in words: value, raw value, quality, noise, rate, latency, and what is odd. */
final class ChannelLines {
  private final RigDescription rig;
  private final ReferencePoints references;

  ChannelLines(RigDescription rig) {
    this.rig = rig;
    this.references = new ReferencePoints(rig);
  }

  List<ChannelLine> of(Map<Channel, ChannelWatch> watches, Readings now) {
    List<ChannelLine> lines = new ArrayList<>();
    watches.forEach(
        (channel, watch) -> {
          if (watch.talk() != null) {
            lines.add(line(channel, watch, now));
          }
        });
    return lines;
  }

  private ChannelLine line(Channel channel, ChannelWatch watch, Readings now) {
    ChannelLook look = watch.shown();
    ChannelTalk talk = watch.talk();
    boolean contact = channel.kind() == Channel.Kind.CONTACT;
    double newest = watch.newest();
    String uncorrected =
        talk.uncorrected() instanceof Reading.Good good && !contact
            ? CalibrationDraft.printed(channel, good.value())
            : "";
    return new ChannelLine(
        channel.words(),
        talk.device(),
        Double.isNaN(newest) ? "–" : Words.value(channel, newest),
        talk.raw(),
        uncorrected,
        quality(look, watch),
        contact || look.good() < 2 ? "" : CalibrationDraft.difference(channel, look.noise()),
        contact || look.good() < 2 ? "" : rate(channel, look.slopePerS()),
        String.format(Locale.ROOT, "%.1f /s", watch.answersPerS()),
        Double.isNaN(talk.answerMillis())
            ? ""
            : String.format(Locale.ROOT, "%.1f ms", talk.answerMillis()),
        remark(channel, look),
        Trials.canBeCalibrated(channel) ? references.of(channel, now) : List.of());
  }

  private static String quality(ChannelLook look, ChannelWatch watch) {
    String share =
        String.format(Locale.ROOT, "%.0f %% good", 100.0 * look.good() / Math.max(1, look.ticks()));
    return look.good() == look.ticks() || watch.lastReason() == null
        ? share
        : share + ", " + watch.lastReason().words();
  }

  private static String rate(Channel channel, double perS) {
    return CalibrationDraft.difference(channel, 60 * perS) + "/min";
  }

  private String remark(Channel channel, ChannelLook look) {
    SensorDescription sensor = rig.sensor(channel).orElseThrow();
    if (channel.kind() == Channel.Kind.CONTACT || look.good() < 4) {
      return "";
    }
    double expected = Math.hypot(sensor.noise(), sensor.resolution() / Math.sqrt(12));
    if (look.noise() > 3 * expected) {
      return "more than three times noisier than the rig file says: look at shield and earth";
    }
    return look.noise() == 0 && sensor.noise() > sensor.resolution()
        ? "does not move at all: is it really measuring?"
        : "";
  }
}
