package tarnish.controller.service;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Executor;
import java.util.function.Function;
import tarnish.controller.journal.Journal.BatchLine;
import tarnish.controller.record.AtTemperature;
import tarnish.controller.record.Comparison;

/** What may be looked at of past batches beyond their curves. Nothing here changes anything. */
final class RecordRoutes {
  private static final long COURSE_PATIENCE_MILLIS = 3_000;

  /** How long the course of a batch that runs is good enough for laying over another. */
  private static final long COURSE_KEPT_MILLIS = 120_000;

  private final Bench bench;
  private final Function<Context, BatchLine> lines;
  private final RecordPages records;
  private final Making<byte[]> courses;

  /**
   * @param lines finds the batch that an address names, or refuses
   */
  RecordRoutes(Bench bench, Function<Context, BatchLine> lines) {
    this.bench = bench;
    this.lines = lines;
    Executor maker = Making.maker();
    records = new RecordPages(bench, maker);
    courses = new Making<>(maker, COURSE_PATIENCE_MILLIS);
  }

  void addTo(RoutesConfig routes) {
    routes.get("/api/compare", this::compare);
    routes.get("/api/batches/{number}/marks", this::marks);
    routes.get("/api/batches/{number}/at-temperature", this::atTemperature);
    routes.get("/api/batches/{number}/record", c -> records.html(c, lines.apply(c)));
    routes.get("/api/batches/{number}/record/pdf", c -> records.pdf(c, lines.apply(c)));
    routes.get("/api/batches/{number}/record/json", c -> records.json(c, lines.apply(c)));
    routes.get("/api/batches/{number}/record/events", c -> records.csv(c, lines.apply(c), false));
    routes.get("/api/batches/{number}/record/samples", c -> records.csv(c, lines.apply(c), true));
  }

  private void marks(Context context) {
    BatchLine line = lines.apply(context);
    double fromS = Reads.seconds("from", Reads.orElse(context.queryParam("from"), "0"));
    Reads.answer(
        context,
        MarkReader.of(
            bench
                .journal()
                .events(line.batch(), StrictMath.round(fromS * 1e3), MarkReader.EVENTS_MAX),
            fromS));
  }

  /** Made in the background; until it is there the answer says so. */
  private void atTemperature(Context context) {
    BatchLine line = lines.apply(context);
    if (line.lastMillis() < 0) {
      throw new Refused(409, "Batch " + line.batch() + " has nothing recorded yet.");
    }
    boolean runs = line.endState().isEmpty();
    Object key = List.of(line.batch(), runs ? line.lastMillis() / COURSE_KEPT_MILLIS : -1L);
    byte[] made =
        courses.get(
            key,
            () -> Json.write(CourseDrawing.of(AtTemperature.of(bench.journal(), line.batch()))));
    if (made == null) {
      context.status(202);
      Reads.answer(context, Map.of("waiting", true));
    } else {
      context.contentType("application/json").result(made);
    }
  }

  private void compare(Context context) {
    String asked = Reads.orElse(context.queryParam("batches"), "");
    if (!asked.matches("[0-9]{1,9}(,[0-9]{1,9}){1,19}")) {
      throw Refused.malformed("'batches' must be two or more numbers, such as 1,2.");
    }
    try {
      Reads.answer(
          context,
          Comparison.of(
              bench.journal(), Arrays.stream(asked.split(",")).map(Integer::valueOf).toList()));
    } catch (IllegalArgumentException e) {
      throw Refused.malformed(e.getMessage());
    }
  }
}
