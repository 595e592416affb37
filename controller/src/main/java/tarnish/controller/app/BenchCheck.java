package tarnish.controller.app;

import java.io.IOException;
import java.util.Locale;
import java.util.Map;
import tarnish.controller.app.BenchLook.Seen;
import tarnish.controller.control.Words;
import tarnish.controller.devices.DeviceHealth;
import tarnish.controller.devices.DeviceRig;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;
import tarnish.shared.rig.Switch;

/** The walk through a bench: first all sensors with everything off, then one output at a time. */
final class BenchCheck {
  /** Warms an oven of a few kg by less than a kelvin. Common practice. */
  private static final double HEATER_ENERGY_MAX_J = 1_000;

  private static final double HEATER_MAX_S = 2;
  private static final double VALVE_S = 0.5;
  private static final double PUMP_S = 2;

  /** How long the effect of a pulse is looked for. */
  private static final double AFTER_S = 5;

  /** Nothing is pulsed on a warm bench: touchable with gloves. Common practice. */
  private static final double WARM_K = 323.15;

  /** A change this many times its noise is one. */
  private static final double CLEAR = 6;

  private final RigDescription rig;
  private final BatchBench bench;
  private final BenchLook look;
  private final BenchTalk talk;

  BenchCheck(RigDescription rig, BatchBench bench, BenchLook look, BenchTalk talk) {
    this.rig = rig;
    this.bench = bench;
    this.look = look;
    this.talk = talk;
  }

  void run() throws IOException {
    talk.say("Bench check of " + rig.name() + (bench.isReal() ? "" : " (simulated)"));
    Map<Channel, Seen> still = look.look(Outputs.OFF);
    channels(still);
    devices();
    outputs();
    look.look(Outputs.OFF, 1);
    talk.say("Everything is off.");
  }

  private void channels(Map<Channel, Seen> all) {
    talk.say(
        String.format(
            "%-24s %-14s %-12s %6s %9s  %s",
            "sensor", "value", "noise", "good", "answers/s", "raw"));
    all.forEach(
        (channel, seen) -> {
          boolean contact = channel.kind() == Channel.Kind.CONTACT;
          String value = seen.count() == 0 ? "none" : Words.value(channel, seen.last());
          String noise = contact || seen.count() < 2 ? "" : noise(channel, seen.noise());
          talk.say(
              String.format(
                  Locale.ROOT,
                  "%-24s %-14s %-12s %5.0f%% %9.1f  %s",
                  channel.words(),
                  value,
                  noise,
                  100 * seen.goodShare(),
                  seen.answersPerS(),
                  look.raw(channel)));
          remark(channel, seen);
        });
  }

  private static String noise(Channel channel, double noise) {
    return switch (channel.kind()) {
      case TEMPERATURE -> String.format(Locale.ROOT, "%.3f K", noise);
      case PRESSURE -> String.format(Locale.ROOT, "%.3f mbar", noise / 100);
      default -> String.format(Locale.ROOT, "%.4f %%", 100 * noise);
    };
  }

  private void remark(Channel channel, Seen seen) {
    if (seen.lastReason() != null) {
      talk.say("  ! " + channel.words() + ": " + seen.lastReason().words());
    }
    SensorDescription sensor = rig.sensor(channel).orElseThrow();
    double expected = Math.hypot(sensor.noise(), sensor.resolution() / Math.sqrt(12));
    if (channel.kind() != Channel.Kind.CONTACT && seen.count() > 3) {
      if (seen.noise() > 3 * expected) {
        talk.say("  ! three times noisier than the rig file says: look at shield and earth");
      }
      if (seen.noise() == 0 && sensor.noise() > sensor.resolution()) {
        talk.say("  ! does not move at all: is it really measuring?");
      }
    }
  }

  private void devices() {
    if (!(bench.rig() instanceof DeviceRig devices)) {
      return;
    }
    for (DeviceHealth health : devices.health()) {
      talk.say(
          String.format(
              Locale.ROOT,
              "device %s at %s: %s, answers in %.1f ms (worst %.1f ms), %d answers, %d troubles, opened"
                  + " %d times%s",
              health.device(),
              health.place(),
              health.condition().words(),
              health.lastMillis(),
              health.worstMillis(),
              health.answers(),
              health.troubles(),
              health.openings(),
              health.lastTrouble().isEmpty() ? "" : "; last trouble: " + health.lastTrouble()));
    }
    devices
        .others()
        .forEach((name, reading) -> talk.say("no sensor of the rig: " + name + ", " + reading));
    devices.unconfirmed().forEach(sentence -> talk.say("  ! " + sentence));
  }

  private void outputs() throws IOException {
    talk.say("Outputs, one at a time. Stand where you can see the bench and reach the stop.");
    for (Switch each : Switch.values()) {
      if (each == Switch.HEARTBEAT) {
        continue;
      }
      String whyNot = whyNot(each);
      double forS = pulseS(each);
      String what =
          String.format(
              Locale.ROOT,
              "Pulse the %s for %.2f s%s?",
              each.words(),
              forS,
              each == Switch.HEATER
                  ? String.format(Locale.ROOT, " (%.0f J)", forS * rig.heater().ratedPowerW())
                  : "");
      if (!whyNot.isEmpty()) {
        talk.say("  ! the " + each.words() + " is not pulsed: " + whyNot);
      } else if (talk.confirms(what)) {
        pulse(each, forS);
      } else {
        talk.say("  left out");
      }
    }
  }

  private double pulseS(Switch which) {
    return switch (which) {
      case HEATER -> Math.min(HEATER_MAX_S, HEATER_ENERGY_MAX_J / rig.heater().ratedPowerW());
      case PUMP -> PUMP_S;
      default -> VALVE_S;
    };
  }

  /** Looked at again right before each pulse: the person may have taken a while to answer. */
  private String whyNot(Switch which) {
    look.look(Outputs.OFF, 1);
    Readings now = look.readings();
    if (now.valueOr(Channel.EMERGENCY_STOP, 0) < 0.5) {
      return "the emergency stop is pressed or its circuit is not whole";
    }
    if (which == Switch.HEATER
        && !(now.valueOr(Channel.SAMPLE_TEMPERATURE, Double.MAX_VALUE) < WARM_K
            && now.valueOr(Channel.OVEN_TEMPERATURE, Double.MAX_VALUE) < WARM_K)) {
      return "sample and oven must be known and below 50 °C";
    }
    if ((which == Switch.OXYGEN || which == Switch.INERT)
        && !(now.valueOr(Channel.VESSEL_PRESSURE, Double.MAX_VALUE)
            < rig.unattended().pressureMaxPa())) {
      return "the vessel pressure must be known and below the unattended limit";
    }
    return "";
  }

  private void pulse(Switch which, double forS) {
    String stillNot = whyNot(which);
    if (!stillNot.isEmpty()) {
      talk.say("  ! not any more: " + stillNot);
      return;
    }
    Map<Channel, Seen> before = look.look(Outputs.OFF, AFTER_S);
    int duty = which == Switch.HEATER ? 1000 : 0;
    try {
      // Whole ticks, but never longer than allowed.
      double tickS = rig.tickMillis() / 1000.0;
      look.look(Outputs.of(duty, which), Math.max(tickS, Math.floor(forS / tickS) * tickS));
    } finally {
      bench.rig().write(Outputs.OFF);
    }
    Map<Channel, Seen> after = look.look(Outputs.OFF, AFTER_S);
    effect(which, before, after);
  }

  private void effect(Switch which, Map<Channel, Seen> before, Map<Channel, Seen> after) {
    boolean any = false;
    for (Channel channel : before.keySet()) {
      double change = after.get(channel).mean() - before.get(channel).mean();
      double noise = Math.max(before.get(channel).noise(), after.get(channel).noise());
      double least =
          Math.max(
              CLEAR * noise / Math.sqrt(AFTER_S), rig.sensor(channel).orElseThrow().resolution());
      if (Math.abs(change) > least) {
        any = true;
        talk.say(
            "  "
                + channel.words()
                + (change > 0 ? " rose by " : " fell by ")
                + noise(channel, Math.abs(change)));
        boolean temperature = channel.kind() == Channel.Kind.TEMPERATURE;
        if (which == Switch.HEATER && temperature && change < 0) {
          talk.say("  ! it fell while the heater was on: its two wires may be swapped");
        }
        boolean filling = which == Switch.OXYGEN || which == Switch.INERT;
        if (filling && channel == Channel.VESSEL_PRESSURE && change < 0) {
          talk.say("  ! it fell while gas was let in: is this another valve?");
        }
      }
    }
    if (!any) {
      talk.say("  no sensor moved clearly: look and listen whether it switched");
    }
  }
}
