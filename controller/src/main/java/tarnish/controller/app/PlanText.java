package tarnish.controller.app;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import tarnish.controller.files.ReadResult;
import tarnish.controller.files.RecipeReader;
import tarnish.shared.planning.PlanLine;
import tarnish.shared.planning.PlanLine.Verdict;
import tarnish.shared.planning.PlanningSheet;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.RigDescription;

/** A planning sheet as aligned text or JSON. */
record PlanText(PlanningSheet sheet, boolean invented) {
  private static final ObjectMapper MAPPER = new ObjectMapper();

  /** The sheet of a recipe's text on a rig; empty where the recipe cannot be read. */
  static List<PlanLine> lines(String recipeText, RigDescription rig) {
    ReadResult<Recipe> read = RecipeReader.read("recipe", recipeText, Optional.of(rig));
    return read.isGood() ? PlanningSheet.of(read.value(), rig).lines() : List.of();
  }

  String words() {
    StringBuilder text = new StringBuilder();
    text.append("plan: ").append(sheet.recipe()).append(" on ").append(sheet.rig());
    text.append(invented ? " (invented demonstration data)\n\n" : "\n\n");
    int verdicts = width(line -> line.verdict().words());
    int whats = width(PlanLine::what);
    int values = width(PlanLine::value);
    for (PlanLine line : sheet.lines()) {
      text.append(padded(line.verdict() == Verdict.OK ? "" : line.verdict().words(), verdicts));
      text.append("  ").append(padded(line.what(), whats));
      text.append("  ").append(padded(line.value(), values));
      text.append("  ").append(line.source()).append('\n');
    }
    return text.append('\n').append(sum()).append('\n').toString();
  }

  private String sum() {
    return "warnings: "
        + sheet.count(Verdict.WARNING)
        + ", open questions: "
        + sheet.count(Verdict.OPEN)
        + ". A plan is no permit: hard-wired limits must protect you.";
  }

  String json() {
    Map<String, Object> all = new LinkedHashMap<>();
    all.put("recipe", sheet.recipe());
    all.put("rig", sheet.rig());
    all.put("invented", invented);
    all.put("warnings", sheet.count(Verdict.WARNING));
    all.put("openQuestions", sheet.count(Verdict.OPEN));
    List<Map<String, Object>> lines = new ArrayList<>();
    sheet.lines().forEach(line -> lines.add(object(line)));
    all.put("lines", lines);
    try {
      return MAPPER.writeValueAsString(all) + "\n";
    } catch (JsonProcessingException impossible) {
      throw new AssertionError(impossible);
    }
  }

  private static Map<String, Object> object(PlanLine line) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("verdict", line.verdict().words());
    object.put("what", line.what());
    object.put("text", line.value());
    line.number()
        .ifPresent(
            number -> {
              object.put("value", number.value());
              object.put("unit", number.unit());
            });
    object.put("source", line.source());
    return object;
  }

  private int width(Function<PlanLine, String> part) {
    return sheet.lines().stream().mapToInt(line -> part.apply(line).length()).max().orElse(0);
  }

  private static String padded(String text, int width) {
    return text + " ".repeat(width - text.length());
  }
}
