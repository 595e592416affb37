package tarnish.controller.service;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import tarnish.controller.access.Session;
import tarnish.controller.control.Request;
import tarnish.controller.journal.Journal.EventLine;
import tarnish.controller.library.RecipeLibrary;

/** What the page may ask for. Everything goes through the bench's queue or its checks. */
final class Writes {
  /** The count that an act was decided on, as {@code /api/status} gave it: see {@link Changes}. */
  static final String STATE_HEADER = "X-Tarnish-State";

  /** A name that a page gave itself, so that its own acts do not make it old. */
  static final String PAGE_HEADER = "X-Tarnish-Page";

  private static final int REQUEST_BYTES_MAX = 16 * 1024;
  private static final String SOMEBODY = "somebody at the page";
  private static final int ANSWER_LENGTH_MAX = 500;

  private final Bench bench;
  private final Optional<Workshop> workshop;

  Writes(Bench bench, Optional<Workshop> workshop) {
    this.bench = bench;
    this.workshop = workshop;
  }

  void addTo(RoutesConfig routes) {
    routes.post("/api/abort", this::abort);
    routes.post("/api/requests", this::request);
    routes.post("/api/corrections", this::correct);
    workshop.ifPresent(it -> routes.post("/api/batches", context -> start(context, it)));
  }

  /**
   * The emergency: no body to read, no name. Without people to sign in not even a token that could
   * be out of date; it cannot come from another site all the same, since the header it needs makes
   * a browser ask first, and nothing here says yes.
   */
  private void abort(Context context) {
    Acts.say(context, "safe now");
    Request abort =
        new Request.Abort(
            Access.visitor(context).session().map(it -> it.person().name()).orElse(SOMEBODY));
    bench.changes().take(page(context), "safe now was pressed", abort);
    queue(context, abort);
  }

  private void request(Context context) {
    JsonNode node = Json.read(Bodies.read(context, REQUEST_BYTES_MAX));
    Optional<Session> session = Access.visitor(context).session();
    if (session.isPresent() && node instanceof ObjectNode object) {
      // Whoever is signed in acts under that name and no other.
      object.put("by", session.get().person().name());
    }
    submit(context, RequestReader.read(node));
  }

  /** The name under which an act goes into the record: who is signed in, else what was given. */
  String name(Context context, String given) {
    String name =
        Access.visitor(context).session().map(it -> it.person().name()).orElse(given.strip());
    if (name.isEmpty()) {
      throw Refused.malformed("'by' must be there: a name for the record.");
    }
    Acts.by(context, name);
    return name;
  }

  /** Refuses what was decided on an old state, before much work is done for it. */
  void mustBeFresh(Context context) {
    long decidedOn = decidedOn(context);
    if (decidedOn > bench.changes().version()) {
      throw new Refused(409, "The page is old: look again, then decide.");
    }
  }

  /** Puts a request into the queue, if nothing has come between. */
  void submit(Context context, Request request) {
    String words = ActWords.of(request);
    Acts.by(context, request.by());
    Acts.say(context, words);
    String sentence = request.by() + ": " + words;
    if (request instanceof Request.Pause || request instanceof Request.Abort) {
      // Makes things safer: right whatever else has changed.
      decidedOn(context);
      bench.changes().take(page(context), sentence, request);
    } else {
      Optional<String> between =
          bench.changes().claim(decidedOn(context), page(context), sentence, request);
      if (between.isPresent()) {
        throw new Refused(409, between.get());
      }
    }
    queue(context, request);
  }

  private void queue(Context context, Request request) {
    if (!bench.submit(request)) {
      throw new Refused(
          429,
          "Too many requests are waiting; try again in a moment."
              + " In an emergency use the switch at the bench.");
    }
    context.header(STATE_HEADER, String.valueOf(bench.changes().version()));
    context.status(202);
    Reads.answer(context, Map.of("taken", true));
  }

  private static long decidedOn(Context context) {
    String state = context.header(STATE_HEADER);
    if (state == null || !state.matches("[0-9]{1,16}")) {
      throw new Refused(
          428, "An act must say what it was decided on, in the header " + STATE_HEADER + ".");
    }
    return Long.parseLong(state);
  }

  private static String page(Context context) {
    String page = context.header(PAGE_HEADER);
    return page != null && page.matches("[0-9a-zA-Z-]{8,64}") ? page : "";
  }

  /** The former entry is looked up here, so that a correction refers to what really stands. */
  private void correct(Context context) {
    Fields fields =
        Fields.of(
            Json.read(Bodies.read(context, REQUEST_BYTES_MAX)),
            Set.of("by", "ofSeconds", "former", "remark"));
    String by = name(context, fields.textOrEmpty("by", RequestReader.NAME_LENGTH_MAX));
    long millis = Math.round(fields.numberFrom("ofSeconds", 0, 1e8) * 1000);
    String former = fields.text("former", 3000);
    String remark = fields.line("remark", RequestReader.REMARK_LENGTH_MAX);
    Integer batch = bench.status().batch();
    List<EventLine> there = batch == null ? List.of() : bench.journal().events(batch, millis, 100);
    boolean found =
        there.stream()
            .anyMatch(
                line ->
                    line.millis() == millis
                        && line.sentence().equals(former)
                        && isEntry(line.kind()));
    if (!found) {
      throw new Refused(409, "There is no such entry in the ledger of the batch that runs.");
    }
    submit(context, new Request.Correction(by, millis, former, remark));
  }

  private static boolean isEntry(String kind) {
    return Set.of("LedgerEntered", "Weighed", "Answered").contains(kind);
  }

  private void start(Context context, Workshop where) {
    Fields fields =
        Fields.of(
            Json.read(Bodies.read(context, LibraryRoutes.BODY_BYTES_MAX)),
            Set.of("recipe", "by", "answers"));
    String text = fields.text("recipe", RecipeLibrary.TEXT_LENGTH_MAX);
    String by = name(context, fields.textOrEmpty("by", RequestReader.NAME_LENGTH_MAX));
    Acts.say(
        context, "start the recipe with SHA-256 " + tarnish.controller.library.Checksum.of(text));
    Map<String, String> answers =
        new LinkedHashMap<>(fields.texts("answers", 20, ANSWER_LENGTH_MAX));
    Request marker = new Request.Start(by);
    Optional<String> between =
        bench.changes().claim(decidedOn(context), page(context), by + ": start", marker);
    if (between.isPresent()) {
      throw new Refused(409, between.get());
    }
    Optional<String> whyNot = where.start(text, by, answers);
    if (whyNot.isPresent()) {
      throw new Refused(409, whyNot.get());
    }
    context.status(202);
    Reads.answer(context, Map.of("taken", true));
  }
}
