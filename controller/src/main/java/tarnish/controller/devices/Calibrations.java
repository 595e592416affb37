package tarnish.controller.devices;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import tarnish.shared.reading.Channel;

/** The straight-line corrections in force. Immutable. */
public final class Calibrations {
  public static final Calibrations NONE = new Calibrations(List.of());

  private final Map<Channel, Calibration> byChannel = new EnumMap<>(Channel.class);

  /**
   * @param oldestFirst of several for one channel the last one holds
   */
  public Calibrations(List<Calibration> oldestFirst) {
    oldestFirst.forEach(each -> byChannel.put(each.channel(), each));
  }

  public boolean has(Channel channel) {
    return byChannel.containsKey(channel);
  }

  public double correct(Channel channel, double value) {
    Calibration calibration = byChannel.get(channel);
    return calibration == null ? value : calibration.correct(value);
  }

  public List<Calibration> all() {
    return List.copyOf(byChannel.values());
  }
}
