package tarnish.controller.service;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import tarnish.controller.library.LineDiff;
import tarnish.controller.library.RecipeLibrary;
import tarnish.controller.library.RecipeLibrary.Version;

/** The recipe library: versions, their texts and differences, checks and rehearsals. */
final class LibraryRoutes {
  static final int BODY_BYTES_MAX = 256 * 1024;

  private final Workshop workshop;
  private final Writes writes;

  LibraryRoutes(Workshop workshop, Writes writes) {
    this.workshop = workshop;
    this.writes = writes;
  }

  void addTo(RoutesConfig routes) {
    routes.get("/api/recipes", context -> Reads.answer(context, Map.of("recipes", list())));
    routes.get("/api/recipes/{name}/{number}", this::text);
    routes.get("/api/recipes/{name}/{number}/differences", this::differences);
    routes.get("/api/rehearsals/{id}", this::rehearsal);
    routes.post("/api/recipes/check", this::check);
    routes.post("/api/recipes/rehearse", this::rehearse);
    routes.post("/api/recipes", this::save);
  }

  private record Entry(String name, List<Version> versions) {}

  private List<Entry> list() {
    return workshop.library().all().entrySet().stream()
        .map(each -> new Entry(each.getKey(), each.getValue()))
        .toList();
  }

  private Version version(Context context, String number) {
    String name = context.pathParam("name");
    int wanted = number.matches("[0-9]{1,6}") ? Integer.parseInt(number) : 0;
    return workshop
        .library()
        .find(name, wanted)
        .orElseThrow(() -> Refused.unknown("The library has no such version of a recipe."));
  }

  private void text(Context context) {
    Version version = version(context, context.pathParam("number"));
    Reads.answer(context, Map.of("version", version, "text", text(version)));
  }

  private String text(Version version) {
    try {
      return workshop.library().text(version);
    } catch (IOException e) {
      throw new Refused(
          409,
          "The text of that version is gone or was changed behind the library's back; its checksum"
              + " is "
              + version.sha256()
              + ".");
    }
  }

  private void differences(Context context) {
    Version after = version(context, context.pathParam("number"));
    String from = context.queryParam("from");
    Version before = version(context, from == null ? "" : from);
    Reads.answer(
        context,
        Map.of("before", before, "after", after, "lines", LineDiff.of(text(before), text(after))));
  }

  private void check(Context context) {
    Fields fields = Fields.of(Json.read(Bodies.read(context, BODY_BYTES_MAX)), Set.of("recipe"));
    String text = fields.text("recipe", RecipeLibrary.TEXT_LENGTH_MAX);
    Reads.answer(context, workshop.check(text));
  }

  private void rehearse(Context context) {
    Acts.say(context, "rehearse a recipe");
    Fields fields = Fields.of(Json.read(Bodies.read(context, BODY_BYTES_MAX)), Set.of("recipe"));
    String text = fields.text("recipe", RecipeLibrary.TEXT_LENGTH_MAX);
    if (!workshop.check(text).good()) {
      throw new Refused(409, "The recipe has faults: mend them first.");
    }
    answer(context, workshop.rehearse(text, null));
  }

  static void answer(Context context, java.util.Optional<Workshop.RehearsalReport> rehearsal) {
    Reads.answer(
        context,
        rehearsal.orElseThrow(
            () -> new Refused(429, "Several rehearsals wait; try again in a minute.")));
  }

  private void rehearsal(Context context) {
    Reads.answer(
        context,
        workshop
            .rehearsal(context.pathParam("id"))
            .orElseThrow(() -> Refused.unknown("That rehearsal is not known any more.")));
  }

  private void save(Context context) throws IOException {
    Fields fields =
        Fields.of(
            Json.read(Bodies.read(context, BODY_BYTES_MAX)),
            Set.of("name", "recipe", "basedOn", "by", "remark"));
    String name = fields.line("name", 80);
    Acts.say(context, "keep a version of the recipe '" + name + "'");
    String by = writes.name(context, fields.textOrEmpty("by", RequestReader.NAME_LENGTH_MAX));
    String text = fields.text("recipe", RecipeLibrary.TEXT_LENGTH_MAX);
    try {
      Version version =
          workshop
              .library()
              .save(
                  name,
                  text,
                  fields.wholeNumber("basedOn", 0, 1_000_000),
                  by,
                  fields.textOrEmpty("remark", 500).strip(),
                  OffsetDateTime.now().truncatedTo(ChronoUnit.SECONDS).toString());
      Acts.say(
          context,
          "keep a version of the recipe '"
              + name
              + "': "
              + version.number()
              + ", SHA-256 "
              + version.sha256());
      context.status(201);
      Map<String, Object> answer = new LinkedHashMap<>();
      answer.put("version", version);
      Reads.answer(context, answer);
    } catch (RecipeLibrary.NotKept e) {
      throw new Refused(409, e.getMessage());
    }
  }
}
