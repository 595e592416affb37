package tarnish.controller.devices.setup;

/** A named input or output of a named device, written {@code T1 of board} in a rig file. */
public record Point(String name, String device) {
  @Override
  public String toString() {
    return name + " of " + device;
  }
}
