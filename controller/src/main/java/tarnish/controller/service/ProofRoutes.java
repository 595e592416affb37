package tarnish.controller.service;

import com.fasterxml.jackson.databind.JsonNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** The proof tests on the page: to look at, to note a result, to run one on the simulator. */
final class ProofRoutes {
  private static final int BYTES_MAX = 16 * 1024;
  private static final int ROW_LENGTH_MAX = 100;
  private static final int REMARK_LENGTH_MAX = 500;

  private final Bench bench;
  private final Writes writes;

  ProofRoutes(Bench bench, Writes writes) {
    this.bench = bench;
    this.writes = writes;
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
    Acts.say(context, "note a proof test");
    Fields fields = Fields.of(body(context), Set.of("row", "acted", "by", "remark"));
    boolean acted = fields.wholeNumber("acted", 0, 1) == 1;
    answer(
        context,
        tests()
            .note(
                fields.line("row", ROW_LENGTH_MAX),
                acted,
                by(context, fields),
                fields.textOrEmpty("remark", REMARK_LENGTH_MAX)));
  }

  private void simulate(Context context) {
    Acts.say(context, "run a proof test on the simulator");
    Fields fields = Fields.of(body(context), Set.of("row", "by"));
    answer(context, tests().simulate(fields.line("row", ROW_LENGTH_MAX), by(context, fields)));
  }

  private static void answer(Context context, Optional<String> whyNot) {
    if (whyNot.isPresent()) {
      throw new Refused(409, whyNot.get());
    }
    Reads.answer(context, Map.of("taken", true));
  }

  private String by(Context context, Fields fields) {
    return writes.name(context, fields.textOrEmpty("by", RequestReader.NAME_LENGTH_MAX));
  }

  private static JsonNode body(Context context) {
    return Json.read(Bodies.read(context, BYTES_MAX));
  }
}
