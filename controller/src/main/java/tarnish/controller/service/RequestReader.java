package tarnish.controller.service;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import tarnish.controller.control.Presence;
import tarnish.controller.control.Request;

/** Turns what a page sends into a request; only the types listed here can come from the web. */
final class RequestReader {
  static final int NAME_LENGTH_MAX = 60;
  private static final int ALARM_LENGTH_MAX = 100;
  private static final int REASON_LENGTH_MAX = 500;
  static final int REMARK_LENGTH_MAX = 2000;
  private static final int VALUES_MAX = 20;
  private static final double MINUTES_MAX = 24 * 60;

  private static final Map<String, Function<JsonNode, Request>> TYPES =
      new TreeMap<>(
          Map.ofEntries(
              Map.entry("pause", node -> new Request.Pause(by(node))),
              Map.entry("resume", node -> new Request.Resume(by(node))),
              Map.entry("restart", node -> new Request.Restart(by(node))),
              Map.entry("stop", node -> new Request.Stop(by(node))),
              Map.entry("abort", node -> new Request.Abort(by(node))),
              Map.entry("acknowledge", RequestReader::acknowledge),
              Map.entry("reset", RequestReader::reset),
              Map.entry("answer", RequestReader::answer),
              Map.entry("loss", LedgerReader::loss),
              Map.entry("transfer", LedgerReader::transfer),
              Map.entry("vesselChange", LedgerReader::vesselChange),
              Map.entry("sourceChange", LedgerReader::sourceChange),
              Map.entry("addition", LedgerReader::addition),
              Map.entry("sampleTaken", LedgerReader::sampleTaken),
              Map.entry("note", RequestReader::note),
              Map.entry("checkIn", RequestReader::checkIn),
              Map.entry("checkOut", node -> new Request.CheckOut(by(node))),
              Map.entry("handOver", RequestReader::handOver),
              Map.entry("shelve", RequestReader::shelve),
              Map.entry("unshelve", RequestReader::unshelve),
              Map.entry("defeat", RequestReader::defeat),
              Map.entry("enforce", RequestReader::enforce)));

  private RequestReader() {}

  /**
   * @throws Refused if the type is not known or a field is missing, unknown or out of its range
   */
  static Request read(JsonNode node) {
    JsonNode type = node == null ? null : node.get("type");
    Function<JsonNode, Request> reader =
        type == null || !type.isTextual() ? null : TYPES.get(type.textValue());
    if (reader == null) {
      throw Refused.malformed("'type' must be one of " + String.join(", ", TYPES.keySet()) + ".");
    }
    return reader.apply(node);
  }

  private static String by(JsonNode node) {
    return name(Fields.of(node, Set.of("type", "by")));
  }

  static String name(Fields fields) {
    return fields.line("by", NAME_LENGTH_MAX);
  }

  private static Request acknowledge(JsonNode node) {
    Fields fields = Fields.of(node, Set.of("type", "by", "alarm"));
    return new Request.Acknowledge(name(fields), fields.line("alarm", ALARM_LENGTH_MAX));
  }

  private static Request reset(JsonNode node) {
    Fields fields = Fields.of(node, Set.of("type", "by", "alarm", "reason"));
    return new Request.Reset(
        name(fields),
        fields.line("alarm", ALARM_LENGTH_MAX),
        fields.line("reason", REASON_LENGTH_MAX));
  }

  private static Request note(JsonNode node) {
    Fields fields = Fields.of(node, Set.of("type", "by", "remark"));
    return new Request.Note(name(fields), fields.line("remark", REMARK_LENGTH_MAX));
  }

  private static Request checkIn(JsonNode node) {
    Fields fields = Fields.of(node, Set.of("type", "by", "hours"));
    return new Request.CheckIn(name(fields), fields.number("hours", 0, Presence.HOURS_MAX));
  }

  private static Request handOver(JsonNode node) {
    Fields fields = Fields.of(node, Set.of("type", "by", "to", "hours"));
    return new Request.HandOver(
        name(fields),
        fields.line("to", NAME_LENGTH_MAX),
        fields.number("hours", 0, Presence.HOURS_MAX));
  }

  private static Request shelve(JsonNode node) {
    Fields fields = Fields.of(node, Set.of("type", "by", "alarm", "minutes", "reason"));
    return new Request.Shelve(
        name(fields),
        fields.line("alarm", ALARM_LENGTH_MAX),
        fields.number("minutes", 0, MINUTES_MAX),
        fields.line("reason", REASON_LENGTH_MAX));
  }

  private static Request unshelve(JsonNode node) {
    Fields fields = Fields.of(node, Set.of("type", "by", "alarm"));
    return new Request.Unshelve(name(fields), fields.line("alarm", ALARM_LENGTH_MAX));
  }

  private static Request defeat(JsonNode node) {
    Fields fields = Fields.of(node, Set.of("type", "by", "alarm", "minutes", "reason"));
    return new Request.Defeat(
        name(fields),
        fields.line("alarm", ALARM_LENGTH_MAX),
        fields.number("minutes", 0, MINUTES_MAX),
        fields.line("reason", REASON_LENGTH_MAX));
  }

  private static Request enforce(JsonNode node) {
    Fields fields = Fields.of(node, Set.of("type", "by", "alarm"));
    return new Request.Enforce(name(fields), fields.line("alarm", ALARM_LENGTH_MAX));
  }

  private static Request answer(JsonNode node) {
    Fields fields = Fields.of(node, Set.of("type", "by", "questionNumber", "values", "remark"));
    return new Request.Answer(
        name(fields),
        fields.wholeNumber("questionNumber", 0, Integer.MAX_VALUE),
        fields.numbers("values", VALUES_MAX, ALARM_LENGTH_MAX),
        fields.textOrEmpty("remark", REMARK_LENGTH_MAX));
  }
}
