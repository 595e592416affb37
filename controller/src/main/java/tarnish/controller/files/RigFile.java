package tarnish.controller.files;

import java.util.Optional;
import tarnish.controller.devices.setup.DeviceSetup;
import tarnish.shared.rig.RigDescription;

/**
 * All that a rig file says: the bench, the devices it is reached through if it names any, and how
 * its interlocks are proved.
 */
public record RigFile(RigDescription rig, Optional<DeviceSetup> devices, ProofRule proof) {}
