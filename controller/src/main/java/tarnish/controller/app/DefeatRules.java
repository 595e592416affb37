package tarnish.controller.app;

import java.util.List;
import java.util.Set;
import tarnish.controller.control.InterlockTable;
import tarnish.shared.rig.RigDescription;

/** Which rows of a rig's table may be defeated at all. */
final class DefeatRules {
  /** Without these nothing would be left between a fault and the glass; the last have no effect. */
  private static final Set<String> NEVER =
      Set.of(
          "emergency stop",
          "sample too hot",
          "oven too hot",
          "pressure too high",
          "glass over its rating",
          "runaway",
          "heater stuck on",
          "loop overrun",
          "operator overdue",
          "person needed",
          "interlock defeated",
          "pressure low",
          "clock stepped");

  private DefeatRules() {}

  /** Gives the rig back, or fails with the row that cannot be defeated. */
  static RigDescription checked(String fileName, RigDescription rig) {
    List<String> known =
        InterlockTable.names(rig).stream().filter(name -> !NEVER.contains(name)).toList();
    for (String name : rig.defeat().interlocks()) {
      if (!known.contains(name)) {
        throw new CommandFailure(
            fileName
                + ": found '"
                + name
                + "' as an interlock to defeat, expected one of "
                + String.join(", ", known));
      }
    }
    return rig;
  }
}
