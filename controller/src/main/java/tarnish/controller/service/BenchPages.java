package tarnish.controller.service;

import com.fasterxml.jackson.databind.JsonNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.Map;
import java.util.Set;

/** What the bench page looks at and asks for. Nothing here touches an output. */
final class BenchPages {
  private static final int BYTES_MAX = 4096;
  private static final int WORDS_MAX = 200;
  private static final int QUESTION_MAX = 1000;

  private final Bench bench;
  private final Writes writes;

  BenchPages(Bench bench, Writes writes) {
    this.bench = bench;
    this.writes = writes;
  }

  void addTo(RoutesConfig routes) {
    routes.get("/api/bench", context -> Reads.answer(context, bench.benchView()));
    routes.post("/api/bench", this::ask);
  }

  private void ask(Context context) {
    JsonNode json = Json.read(Bodies.read(context, BYTES_MAX));
    Acts.say(context, "check the bench");
    if (!bench.askBench(ask(context, json))) {
      throw new Refused(429, "Too much is being asked of the bench; try again in a moment.");
    }
    context.status(202);
    Reads.answer(context, Map.of("taken", true));
  }

  private BenchAsk ask(Context context, JsonNode json) {
    String type = json.path("type").asText();
    Fields fields =
        Fields.of(json, Set.of("type", "by", "trial", "question", "channel", "upper", "reference"));
    String by = writes.name(context, fields.textOrEmpty("by", RequestReader.NAME_LENGTH_MAX));
    return switch (type) {
      case "begin" -> new BenchAsk.Begin(by, fields.line("trial", WORDS_MAX));
      case "confirm" -> new BenchAsk.Confirm(by, fields.line("question", QUESTION_MAX));
      case "leave" -> new BenchAsk.Leave(by);
      case "note" -> new BenchAsk.Note(by);
      case "mark" ->
          new BenchAsk.Mark(
              by,
              fields.line("channel", WORDS_MAX),
              fields.wholeNumber("upper", 0, 1) == 1,
              fields.line("reference", WORDS_MAX));
      case "accept" -> new BenchAsk.Accept(by);
      case "drop" -> new BenchAsk.Drop(by);
      default ->
          throw Refused.malformed(
              "'type' must be begin, confirm, leave, note, mark, accept or drop.");
    };
  }
}
