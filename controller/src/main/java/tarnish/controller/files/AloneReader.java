package tarnish.controller.files;

import java.util.List;
import java.util.Optional;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.recipe.Recipe.Overdue;
import tarnish.shared.recipe.Recipe.Resume;
import tarnish.shared.recipe.Recipe.WhenAlone;

/** Reads what a recipe lets the batch do with nobody there. */
final class AloneReader {
  private AloneReader() {}

  static WhenAlone read(Node node, Faults faults) {
    Fields fields = new Fields(node, "alone", faults, List.of("when overdue", "after a power cut"));
    Overdue overdue =
        fields.has("when overdue")
            ? fields.word("when overdue", Overdue.values(), Overdue::words)
            : Overdue.GO_ON;
    Optional<Resume> resume =
        fields.optionalNode("after a power cut").map(cut -> resume(cut, faults));
    return new WhenAlone(overdue, resume);
  }

  private static Resume resume(Node node, Faults faults) {
    Fields fields =
        new Fields(
            node, "after a power cut", faults, List.of("resume within", "sample", "pressure"));
    double outageS = fields.quantity("resume within", Bound.OUTAGE, "10 min");
    Quantities.Range sample = fields.range("sample", Bound.TEMPERATURE, "20 °C to 300 °C");
    Quantities.Range pressure = fields.range("pressure", Bound.PRESSURE, "300 mbar to 1000 mbar");
    return new Resume(outageS, sample.from(), sample.to(), pressure.from(), pressure.to());
  }
}
