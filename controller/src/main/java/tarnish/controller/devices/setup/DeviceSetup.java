package tarnish.controller.devices.setup;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.Switch;

/**
 * The devices of a rig and what each is for.
 *
 * @param devices all of them
 * @param sources where each fitted channel is read
 * @param sinks where each switch is set
 * @param heaterDuty where an analogue heater's duty is set
 */
public record DeviceSetup(
    List<DeviceSpec> devices,
    Map<Channel, Point> sources,
    Map<Switch, Point> sinks,
    Optional<Point> heaterDuty) {
  public DeviceSetup {
    devices = List.copyOf(devices);
    sources = Map.copyOf(sources);
    sinks = Map.copyOf(sinks);
  }
}
