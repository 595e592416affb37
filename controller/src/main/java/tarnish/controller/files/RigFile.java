package tarnish.controller.files;

import java.util.Optional;
import tarnish.controller.devices.setup.DeviceSetup;
import tarnish.shared.rig.RigDescription;

/** All that a rig file says: the bench, and the devices it is reached through if it names any. */
public record RigFile(RigDescription rig, Optional<DeviceSetup> devices) {}
