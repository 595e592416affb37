package tarnish.controller.service;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import tarnish.shared.magnetism.MagneticSheet;

/** The worksheet of the magnetic weighing: worked out on request, it changes nothing. */
final class Sheets {
  private static final int SHEET_BYTES_MAX = 16 * 1024;
  private static final int TEXT_LENGTH_MAX = 100;

  void addTo(RoutesConfig routes) {
    routes.get("/api/magnetic", this::fields);
    routes.post("/api/magnetic", this::magnetic);
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
    Set<String> known =
        MagneticSheet.fields().stream().map(MagneticSheet.Field::key).collect(Collectors.toSet());
    Fields given = Fields.of(Json.read(Bodies.read(context, SHEET_BYTES_MAX)), known);
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
