package tarnish.controller.service;

import com.fasterxml.jackson.databind.JsonNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.Map;
import java.util.Set;

/** What the bench page looks at and asks for. Nothing here touches an output. */
final class BenchPages {
  private static final int BYTES_MAX = 4096;
  private static final int WORDS_MAX = 200;
  private static final int QUESTION_MAX = 1000;

  private final Bench bench;
  private final Guard guard;

  BenchPages(Bench bench, Guard guard) {
    this.bench = bench;
    this.guard = guard;
  }

  void addTo(RoutesConfig routes) {
    routes.get("/api/bench", context -> Reads.answer(context, bench.benchView()));
    routes.post("/api/bench", this::ask);
  }

  private void ask(Context context) throws IOException {
    guard.checkWrite(context);
    byte[] body = context.req().getInputStream().readNBytes(BYTES_MAX + 1);
    if (body.length > BYTES_MAX) {
      context.header("Connection", "close");
      throw new Refused(413, "The request is longer than " + BYTES_MAX / 1024 + " KiB.");
    }
    if (!bench.askBench(ask(Json.read(body)))) {
      throw new Refused(429, "Too much is being asked of the bench; try again in a moment.");
    }
    context.status(202);
    Reads.answer(context, Map.of("taken", true));
  }

  private static BenchAsk ask(JsonNode json) {
    String type = json.path("type").asText();
    Fields fields =
        Fields.of(json, Set.of("type", "by", "trial", "question", "channel", "upper", "reference"));
    String by = fields.line("by", RequestReader.NAME_LENGTH_MAX);
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
