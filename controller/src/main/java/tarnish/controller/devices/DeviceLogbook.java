package tarnish.controller.devices;

import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tarnish.controller.devices.DeviceHealth.Condition;
import tarnish.controller.devices.setup.DeviceSpec;

/** What is noted of one device. Written by the device's thread; the published page is for any. */
final class DeviceLogbook {
  private static final Logger LOG = LoggerFactory.getLogger(DeviceLogbook.class);

  private final DeviceSpec spec;
  private Condition condition = Condition.NEVER_SEEN;
  private double lastMillis;
  private double worstMillis;
  private long answers;
  private long troubles;
  private long openings;
  private String lastTrouble = "";
  private volatile DeviceHealth published;

  DeviceLogbook(DeviceSpec spec) {
    this.spec = spec;
    publish();
  }

  void opened() {
    openings++;
    publish();
  }

  void answered(double millis) {
    lastMillis = millis;
    worstMillis = Math.max(worstMillis, millis);
    answers++;
    if (condition != Condition.ANSWERING) {
      LOG.info("{} at {} answers.", spec.name(), spec.link().place());
      condition = Condition.ANSWERING;
    }
  }

  void trouble(DeviceTrouble trouble) {
    troubles++;
    lastTrouble = trouble.getMessage();
    if (condition == Condition.ANSWERING && trouble.kind() != DeviceTrouble.Kind.REFUSED) {
      condition = Condition.FALTERING;
      LOG.warn("{} falters: {}", spec.name(), trouble.getMessage());
    }
  }

  void notOpened() {
    troubles++;
  }

  void lost(String why) {
    if (condition != Condition.LOST) {
      LOG.warn("{} at {} is lost: {}", spec.name(), spec.link().place(), why);
    }
    condition = Condition.LOST;
    lastTrouble = why;
  }

  /** Lets others see what was noted up to now. */
  void publish() {
    published =
        new DeviceHealth(
            spec.name(),
            spec.link().place(),
            condition,
            lastMillis,
            worstMillis,
            answers,
            troubles,
            openings,
            lastTrouble,
            0);
  }

  /** What was published last. */
  DeviceHealth health(long unconfirmedMillis) {
    DeviceHealth last = published;
    return new DeviceHealth(
        last.device(),
        last.place(),
        last.condition(),
        last.lastMillis(),
        last.worstMillis(),
        last.answers(),
        last.troubles(),
        last.openings(),
        last.lastTrouble(),
        unconfirmedMillis);
  }
}
