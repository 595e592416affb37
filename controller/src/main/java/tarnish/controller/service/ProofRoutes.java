package tarnish.controller.service;

import com.fasterxml.jackson.databind.JsonNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** The proof tests on the page: to look at, to note a result, to run one on the simulator. */
final class ProofRoutes {
  private static final int BYTES_MAX = 16 * 1024;
  private static final int ROW_LENGTH_MAX = 100;
  private static final int REMARK_LENGTH_MAX = 500;

  private final Bench bench;
  private final Guard guard;

  ProofRoutes(Bench bench, Guard guard) {
    this.bench = bench;
    this.guard = guard;
  }

  void addTo(RoutesConfig routes) {
    routes.get("/api/prooftests", this::lines);
    routes.post("/api/prooftests", this::note);
    routes.post("/api/prooftests/simulated", this::simulate);
  }

  private ProofTests tests() {
    return bench
        .proofTests()
        .orElseThrow(() -> Refused.unknown("This service keeps no proof tests."));
  }

  private void lines(Context context) {
    if (bench.proofTests().isEmpty()) {
      Reads.answer(context, Map.of("rule", "", "lines", java.util.List.of()));
      return;
    }
    Reads.answer(context, Map.of("rule", tests().rule(), "lines", tests().lines()));
  }

  private void note(Context context) {
    guard.checkWrite(context);
    Fields fields = Fields.of(body(context), Set.of("row", "acted", "by", "remark"));
    boolean acted = fields.wholeNumber("acted", 0, 1) == 1;
    answer(
        context,
        tests()
            .note(
                fields.line("row", ROW_LENGTH_MAX),
                acted,
                fields.line("by", RequestReader.NAME_LENGTH_MAX),
                fields.textOrEmpty("remark", REMARK_LENGTH_MAX)));
  }

  private void simulate(Context context) {
    guard.checkWrite(context);
    Fields fields = Fields.of(body(context), Set.of("row", "by"));
    answer(
        context,
        tests()
            .simulate(
                fields.line("row", ROW_LENGTH_MAX),
                fields.line("by", RequestReader.NAME_LENGTH_MAX)));
  }

  private static void answer(Context context, Optional<String> whyNot) {
    if (whyNot.isPresent()) {
      throw new Refused(409, whyNot.get());
    }
    Reads.answer(context, Map.of("taken", true));
  }

  private static JsonNode body(Context context) {
    try {
      byte[] body = context.req().getInputStream().readNBytes(BYTES_MAX + 1);
      if (body.length > BYTES_MAX) {
        context.header("Connection", "close");
        throw new Refused(413, "The request is longer than " + BYTES_MAX / 1024 + " KiB.");
      }
      return Json.read(body);
    } catch (IOException e) {
      throw Refused.malformed("The request broke off.");
    }
  }
}
