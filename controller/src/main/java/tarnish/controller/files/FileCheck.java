package tarnish.controller.files;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tarnish.shared.quantity.NearestWord;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.RigDescription;

/** Checks a file of either kind for the command line and tells the outcome in lines of text. */
public final class FileCheck {
  private FileCheck() {}

  /**
   * The outcome.
   *
   * @param ok whether the file may be used
   * @param lines to be printed: a summary, or one line for each fault
   */
  public record Report(boolean ok, List<String> lines) {
    public Report {
      lines = List.copyOf(lines);
    }
  }

  /**
   * Tells by the first key whether the text is a recipe or a rig, and checks it.
   *
   * @param rig the rig that a recipe is held against; a rig file is checked by itself
   */
  public static Report check(String fileName, String text, Optional<RigDescription> rig) {
    ReadResult<String> kind = FileText.check(fileName, text).then(t -> kind(fileName, t));
    if (!kind.isGood()) {
      return bad(kind);
    }
    if (kind.value().equals("rig")) {
      ReadResult<RigDescription> read = RigReader.read(fileName, text);
      return read.isGood() ? good(fileName, FileSummary.of(read.value())) : bad(read);
    }
    ReadResult<Recipe> read = RecipeReader.read(fileName, text, rig);
    return read.isGood() ? good(fileName, FileSummary.of(read.value(), rig)) : bad(read);
  }

  private static ReadResult<String> kind(String fileName, String text) {
    Faults faults = new Faults(fileName);
    Optional<Node> root = NodeReader.read(text, faults);
    if (root.isEmpty()) {
      return ReadResult.faulty(faults.list());
    }
    if (root.get() instanceof Node.Mapping mapping && !mapping.entries().isEmpty()) {
      Node.Entry first = mapping.entries().get(0);
      List<String> kinds = List.of("recipe", "rig");
      if (!kinds.contains(first.key())) {
        String meant =
            NearestWord.to(first.key(), kinds).map(w -> "; did you mean '" + w + "'?").orElse("");
        faults.add(
            first.keyPlace(),
            "'" + Faults.shortened(first.key()) + "' as the first key",
            "'recipe' or 'rig', which says what the file is" + meant);
      }
      return faults.result(first::key);
    }
    faults.add(
        root.get().place(), root.get().words(), "a file that begins with 'recipe:' or 'rig:'");
    return ReadResult.faulty(faults.list());
  }

  private static Report good(String fileName, List<String> summary) {
    List<String> lines = new ArrayList<>();
    lines.add(fileName + ": good");
    summary.forEach(line -> lines.add("  " + line));
    return new Report(true, lines);
  }

  private static Report bad(ReadResult<?> read) {
    return new Report(false, read.faults().stream().map(Fault::toString).toList());
  }
}
