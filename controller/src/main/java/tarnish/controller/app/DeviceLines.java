package tarnish.controller.app;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tarnish.controller.devices.DeviceHealth;
import tarnish.controller.devices.DeviceRig;

/** How the devices of a real bench do, in sentences. */
final class DeviceLines {
  private DeviceLines() {}

  static List<String> of(DeviceRig rig) {
    List<String> lines = new ArrayList<>();
    rig.health().forEach(health -> lines.add(line(health)));
    rig.others()
        .forEach((name, reading) -> lines.add("No sensor of the rig: " + name + ", " + reading));
    lines.addAll(rig.unconfirmed());
    return lines;
  }

  private static String line(DeviceHealth health) {
    return String.format(
        Locale.ROOT,
        "%s at %s: %s, answers in %.1f ms (worst %.1f ms), %d answers, %d troubles, opened %d"
            + " times%s",
        health.device(),
        health.place(),
        health.condition().words(),
        health.lastMillis(),
        health.worstMillis(),
        health.answers(),
        health.troubles(),
        health.openings(),
        health.lastTrouble().isEmpty() ? "" : "; last trouble: " + health.lastTrouble());
  }
}
