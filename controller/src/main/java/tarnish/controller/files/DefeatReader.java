package tarnish.controller.files;

import java.util.ArrayList;
import java.util.List;
import tarnish.shared.rig.Defeat;

/** Reads which interlocks of a rig may be defeated for a while. */
final class DefeatReader {
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
}
