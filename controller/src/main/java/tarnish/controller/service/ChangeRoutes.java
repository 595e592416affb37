package tarnish.controller.service;

import com.fasterxml.jackson.databind.JsonNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.Map;
import java.util.Set;
import tarnish.controller.control.Request;

/**
 * Changes of the steps while a batch runs: shown, rehearsed, and only then taken. What is taken
 * carries how the rehearsal went, as this service saw it and not as a page says.
 */
final class ChangeRoutes {
  private static final int BODY_BYTES_MAX = 16 * 1024;
  private static final int POSITION_MAX = 10_000;
  private static final int VALUES_MAX = 6;
  private static final int REASON_LENGTH_MAX = 500;

  private final Workshop workshop;
  private final Writes writes;

  ChangeRoutes(Workshop workshop, Writes writes) {
    this.workshop = workshop;
    this.writes = writes;
  }

  void addTo(RoutesConfig routes) {
    routes.get("/api/changes", c -> Reads.answer(c, Map.of("steps", workshop.openSteps())));
    routes.post("/api/changes/preview", this::preview);
    routes.post("/api/changes/rehearse", this::rehearse);
    routes.post("/api/changes", this::take);
  }

  private Request read(Context context) {
    JsonNode node = Json.read(Bodies.read(context, BODY_BYTES_MAX));
    Fields fields = Fields.of(node, Set.of("type", "by", "position", "values", "reason"));
    String by = writes.name(context, fields.textOrEmpty("by", RequestReader.NAME_LENGTH_MAX));
    int position = fields.wholeNumber("position", 0, POSITION_MAX);
    String reason = fields.textOrEmpty("reason", REASON_LENGTH_MAX).strip();
    String type = fields.line("type", 20);
    return switch (type) {
      case "skipSoak" -> new Request.SkipSoak(by, position, reason, "");
      case "changeStep" ->
          new Request.ChangeStep(
              by, position, fields.numbers("values", VALUES_MAX, 20), reason, "");
      default -> throw Refused.malformed("'type' must be skipSoak or changeStep.");
    };
  }

  private void preview(Context context) {
    Reads.answer(context, workshop.preview(read(context)));
  }

  private void rehearse(Context context) {
    Request change = read(context);
    Acts.say(context, "rehearse " + words(change));
    refuseIfBarred(change);
    LibraryRoutes.answer(context, workshop.rehearse("", change));
  }

  private void refuseIfBarred(Request change) {
    String refusal = workshop.preview(change).refusal();
    if (!refusal.isEmpty()) {
      throw new Refused(409, refusal);
    }
  }

  private void take(Context context) {
    Request change = read(context);
    Acts.say(context, words(change));
    refuseIfBarred(change);
    Workshop.RehearsalReport rehearsal =
        workshop
            .rehearse("", change)
            .orElseThrow(() -> new Refused(429, "Several rehearsals wait; try again soon."));
    if (!rehearsal.state().equals("done")) {
      throw new Refused(409, "This change has not been rehearsed yet; look at the result first.");
    }
    if (!rehearsal.good()) {
      throw new Refused(409, "The rehearsal did not end well: " + rehearsal.summary());
    }
    writes.submit(context, rehearsed(change, rehearsal.summary()));
  }

  private static Request rehearsed(Request change, String summary) {
    if (change instanceof Request.SkipSoak skip) {
      return new Request.SkipSoak(skip.by(), skip.position(), skip.reason(), summary);
    }
    Request.ChangeStep step = (Request.ChangeStep) change;
    return new Request.ChangeStep(
        step.by(), step.position(), step.values(), step.reason(), summary);
  }

  private static String words(Request change) {
    return change instanceof Request.SkipSoak skip
        ? "skip the soak of step " + (skip.position() + 1) + ": " + skip.reason()
        : "change step "
            + (((Request.ChangeStep) change).position() + 1)
            + ": "
            + ((Request.ChangeStep) change).reason();
  }
}
