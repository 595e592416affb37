package tarnish.controller.service;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import tarnish.shared.magnetism.MagneticSheet;
import tarnish.shared.planning.PlanLine;

/** Sheets that are worked out on request and change nothing: the plan and the magnetic weighing. */
final class Sheets {
  private static final int RECIPE_BYTES_MAX = 512 * 1024;
  private static final int RECIPE_LENGTH_MAX = 256 * 1024;
  private static final int SHEET_BYTES_MAX = 16 * 1024;
  private static final int TEXT_LENGTH_MAX = 100;

  private final Bench bench;
  private final Guard guard;

  Sheets(Bench bench, Guard guard) {
    this.bench = bench;
    this.guard = guard;
  }

  void addTo(RoutesConfig routes) {
    routes.post("/api/recipes/plan", this::plan);
    routes.get("/api/magnetic", this::fields);
    routes.post("/api/magnetic", this::magnetic);
  }

  private void plan(Context context) {
    guard.checkWrite(context);
    Fields fields = Fields.of(Json.read(Writes.body(context, RECIPE_BYTES_MAX)), Set.of("recipe"));
    List<PlanLine> lines = bench.planRecipe(fields.text("recipe", RECIPE_LENGTH_MAX));
    Reads.answer(context, Map.of("lines", lines.stream().map(Sheets::line).toList()));
  }

  private static Map<String, Object> line(PlanLine line) {
    Map<String, Object> object = new LinkedHashMap<>();
    object.put("verdict", line.verdict().words());
    object.put("what", line.what());
    object.put("value", line.value());
    object.put("source", line.source());
    return object;
  }

  private void fields(Context context) {
    Reads.answer(
        context,
        Map.of(
            "fields",
            MagneticSheet.fields().stream()
                .map(
                    f ->
                        Map.of(
                            "key",
                            f.key(),
                            "label",
                            f.label(),
                            "example",
                            f.example(),
                            "optional",
                            f.optional()))
                .toList()));
  }

  private void magnetic(Context context) {
    guard.checkWrite(context);
    Set<String> known =
        MagneticSheet.fields().stream().map(MagneticSheet.Field::key).collect(Collectors.toSet());
    Fields given = Fields.of(Json.read(Writes.body(context, SHEET_BYTES_MAX)), known);
    Map<String, String> texts = new LinkedHashMap<>();
    known.forEach(key -> texts.put(key, given.textOrEmpty(key, TEXT_LENGTH_MAX)));
    try {
      List<MagneticSheet.Line> lines = MagneticSheet.evaluate(texts);
      Reads.answer(
          context,
          Map.of(
              "lines",
              lines.stream().map(l -> Map.of("what", l.what(), "value", l.value())).toList()));
    } catch (IllegalArgumentException wrong) {
      throw Refused.malformed(wrong.getMessage());
    }
  }
}
