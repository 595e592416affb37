package tarnish.controller.files;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import tarnish.controller.control.InterlockTable;
import tarnish.shared.rig.Defeat;
import tarnish.shared.rig.RigDescription;

/** Reads which interlocks of a rig may be defeated for a while. */
final class DefeatReader {
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

  private DefeatReader() {}

  static Defeat read(Node node, Faults faults) {
    Fields fields = new Fields(node, "defeat", faults, List.of("interlocks", "at most"));
    double atMostS = fields.quantity("at most", Bound.OUTAGE, "30 min");
    List<String> names = new ArrayList<>();
    Node list = fields.node("interlocks", "[door open]").orElse(null);
    if (list instanceof Node.Sequence sequence) {
      for (Node item : sequence.items()) {
        if (item instanceof Node.Scalar scalar) {
          names.add(scalar.text().strip());
        } else {
          faults.add(item.place(), item.words(), "the name of an interlock, e.g. door open");
        }
      }
    } else if (list != null) {
      fields.fault("interlocks", list.words(), "a list of interlocks, e.g. [door open]");
    }
    return new Defeat(names, atMostS);
  }

  /** The names must be rows of this rig that may be done without for a while. */
  static void check(RigDescription rig, Fields top) {
    if (rig.defeat().interlocks().isEmpty()) {
      return;
    }
    List<String> known =
        InterlockTable.names(rig).stream().filter(name -> !NEVER.contains(name)).toList();
    for (String name : rig.defeat().interlocks()) {
      if (!known.contains(name)) {
        top.fault(
            "defeat",
            "'" + Faults.shortened(name) + "' as an interlock to defeat",
            "one of " + String.join(", ", known));
      }
    }
  }
}
