package tarnish.controller.control.trial;

import java.util.EnumMap;
import java.util.Map;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;

/** What all sensors said over some time. Immutable. */
public final class Look {
  static final Look NONE = new Look(0, new EnumMap<>(Channel.class));

  private final double seconds;
  private final Map<Channel, ChannelLook> byChannel;

  private Look(double seconds, Map<Channel, ChannelLook> byChannel) {
    this.seconds = seconds;
    this.byChannel = byChannel;
  }

  Look with(Readings readings, double tickS) {
    Map<Channel, ChannelLook> next = new EnumMap<>(Channel.class);
    double nowS = seconds + tickS;
    for (Channel channel : Channel.values()) {
      if (readings.isFitted(channel)) {
        ChannelLook old = at(channel);
        next.put(
            channel,
            readings.isGood(channel) ? old.saw(readings.value(channel), nowS) : old.missed());
      }
    }
    return new Look(nowS, next);
  }

  public double seconds() {
    return seconds;
  }

  public ChannelLook at(Channel channel) {
    return byChannel.getOrDefault(channel, ChannelLook.NONE);
  }
}
