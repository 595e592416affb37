package tarnish.controller.service;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import tarnish.controller.control.Request;

/** What the page may ask for. Everything goes through the bench's queue or its checks. */
final class Writes {
  private static final int REQUEST_BYTES_MAX = 16 * 1024;
  private static final int RECIPE_BYTES_MAX = 256 * 1024;
  private static final int RECIPE_LENGTH_MAX = 100_000;
  private static final String SOMEBODY = "somebody at the page";

  private final Bench bench;
  private final Guard guard;

  Writes(Bench bench, Guard guard) {
    this.bench = bench;
    this.guard = guard;
  }

  void addTo(RoutesConfig routes) {
    routes.post("/api/abort", this::abort);
    routes.post("/api/requests", this::request);
    routes.post("/api/recipes/check", this::check);
    routes.post("/api/batches", this::start);
  }

  /**
   * The emergency: no body to read, no name, no token that could be out of date. It cannot come
   * from another site, since the header it needs makes a browser ask first, and nothing here says
   * yes.
   */
  private void abort(Context context) {
    guard.checkOrigin(context);
    submit(context, new Request.Abort(SOMEBODY));
  }

  private void request(Context context) {
    guard.checkWrite(context);
    submit(context, RequestReader.read(Json.read(body(context, REQUEST_BYTES_MAX))));
  }

  private void submit(Context context, Request request) {
    if (!bench.submit(request)) {
      throw new Refused(
          429,
          "Too many requests are waiting; try again in a moment."
              + " In an emergency use the switch at the bench.");
    }
    context.status(202);
    Reads.answer(context, Map.of("taken", true));
  }

  private void check(Context context) {
    guard.checkWrite(context);
    Fields fields = Fields.of(Json.read(body(context, RECIPE_BYTES_MAX)), Set.of("recipe"));
    String result = bench.checkRecipe(fields.text("recipe", RECIPE_LENGTH_MAX));
    Reads.answer(context, Map.of("result", result));
  }

  private void start(Context context) {
    guard.checkWrite(context);
    Fields fields = Fields.of(Json.read(body(context, RECIPE_BYTES_MAX)), Set.of("recipe", "by"));
    Optional<String> whyNot =
        bench.startBatch(
            fields.text("recipe", RECIPE_LENGTH_MAX),
            fields.line("by", RequestReader.NAME_LENGTH_MAX));
    if (whyNot.isPresent()) {
      throw new Refused(409, whyNot.get());
    }
    context.status(202);
    Reads.answer(context, Map.of("taken", true));
  }

  static byte[] body(Context context, int bytesMax) {
    byte[] body;
    try {
      body = context.req().getInputStream().readNBytes(bytesMax + 1);
    } catch (IOException e) {
      throw Refused.malformed("The request broke off.");
    }
    if (body.length > bytesMax) {
      context.header("Connection", "close");
      throw new Refused(413, "The request is longer than " + bytesMax / 1024 + " KiB.");
    }
    return body;
  }
}
