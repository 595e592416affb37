package tarnish.controller.journal;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.HashMap;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import tarnish.controller.control.AlarmState;
import tarnish.controller.control.Presence;
import tarnish.controller.control.Request;

/** Requests as JSON in the record, so that a batch can be played again from them. */
final class RequestCodec {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final String CLOCK_STEP = "clockStepS";
  private static final Map<String, Function<JsonNode, Request>> READERS =
      Map.ofEntries(
          Map.entry("Start", node -> new Request.Start(by(node))),
          Map.entry("Pause", node -> new Request.Pause(by(node))),
          Map.entry("Resume", node -> new Request.Resume(by(node))),
          Map.entry("Restart", node -> new Request.Restart(by(node))),
          Map.entry("Stop", node -> new Request.Stop(by(node))),
          Map.entry("Abort", node -> new Request.Abort(by(node))),
          Map.entry("Acknowledge", node -> new Request.Acknowledge(by(node), text(node, "alarm"))),
          Map.entry(
              "Reset",
              node -> new Request.Reset(by(node), text(node, "alarm"), text(node, "reason"))),
          Map.entry("Answer", RequestCodec::answer),
          Map.entry(
              "Loss",
              node ->
                  new Request.Loss(
                      by(node), value(node, "leftKg"), value(node, "lostKg"), remark(node))),
          Map.entry(
              "Transfer",
              node -> new Request.Transfer(by(node), value(node, "arrivedKg"), remark(node))),
          Map.entry(
              "VesselChange",
              node ->
                  new Request.VesselChange(
                      by(node),
                      value(node, "hotM3"),
                      value(node, "hotUncertaintyM3"),
                      value(node, "coldM3"),
                      value(node, "coldUncertaintyM3"),
                      remark(node))),
          Map.entry(
              "SourceChange",
              node ->
                  new Request.SourceChange(
                      by(node),
                      value(node, "oxygenFraction"),
                      value(node, "uncertainty"),
                      value(node, "supplyPa"),
                      remark(node))),
          Map.entry(
              "Addition",
              node -> new Request.Addition(by(node), value(node, "addedKg"), remark(node))),
          Map.entry(
              "SampleTaken",
              node -> new Request.SampleTaken(by(node), value(node, "takenKg"), remark(node))),
          Map.entry("CheckIn", node -> new Request.CheckIn(by(node), number(node.get("hours")))),
          Map.entry("CheckOut", node -> new Request.CheckOut(by(node))),
          Map.entry(
              "HandOver",
              node -> new Request.HandOver(by(node), text(node, "to"), number(node.get("hours")))),
          Map.entry(
              "Shelve",
              node ->
                  new Request.Shelve(
                      by(node),
                      text(node, "alarm"),
                      number(node.get("minutes")),
                      text(node, "reason"))),
          Map.entry("Unshelve", node -> new Request.Unshelve(by(node), text(node, "alarm"))),
          Map.entry(
              "Defeat",
              node ->
                  new Request.Defeat(
                      by(node),
                      text(node, "alarm"),
                      number(node.get("minutes")),
                      text(node, "reason"))),
          Map.entry("Enforce", node -> new Request.Enforce(by(node), text(node, "alarm"))),
          Map.entry("Note", node -> new Request.Note(by(node), remark(node))),
          Map.entry(
              "Photo",
              node ->
                  new Request.Photo(
                      by(node), text(node, "sha256"), whole(node, "bytes"), remark(node))),
          Map.entry(
              "Correction",
              node ->
                  new Request.Correction(
                      by(node), whole(node, "ofMillis"), text(node, "former"), remark(node))),
          Map.entry(
              "Preflight",
              node ->
                  new Request.Preflight(
                      by(node), text(node, "recipeSha256"), texts(node, "answers"))),
          Map.entry(
              "ChangeStep",
              node ->
                  new Request.ChangeStep(
                      by(node),
                      (int) whole(node, "position"),
                      numbers(node, "values"),
                      text(node, "reason"),
                      text(node, "rehearsed"))),
          Map.entry(
              "SkipSoak",
              node ->
                  new Request.SkipSoak(
                      by(node),
                      (int) whole(node, "position"),
                      text(node, "reason"),
                      text(node, "rehearsed"))),
          Map.entry(
              "PowerReturned",
              node -> new Request.PowerReturned(by(node), number(node.get("outageS")))),
          Map.entry("Expect", node -> new Request.Expect(by(node), text(node, "course"))),
          Map.entry("ShellTrouble", RequestCodec::shellTrouble),
          Map.entry(
              "RecordDamaged",
              node ->
                  new Request.RecordDamaged(by(node), text(node, "noticedAt"), text(node, "what"))),
          Map.entry("TakeOver", RequestCodec::takeOver));

  private RequestCodec() {}

  static String encode(Request request) {
    ObjectNode node = JSON.createObjectNode();
    node.put("type", request.getClass().getSimpleName());
    node.put("by", request.by());
    if (request instanceof Request.Acknowledge acknowledge) {
      node.put("alarm", acknowledge.alarm());
    } else if (request instanceof Request.Reset reset) {
      node.put("alarm", reset.alarm());
      node.put("reason", reset.reason());
    } else if (request instanceof Request.Answer answer) {
      node.put("questionNumber", answer.questionNumber());
      ObjectNode values = node.putObject("values");
      // Sorted, because the order of an immutable map differs from run to run.
      new TreeMap<>(answer.values()).forEach((name, value) -> putNumber(values, name, value));
      node.put("remark", answer.remark());
    } else if (request instanceof Request.Loss loss) {
      putNumber(node, "leftKg", loss.leftKg());
      putNumber(node, "lostKg", loss.lostKg());
      node.put("remark", loss.remark());
    } else if (request instanceof Request.Transfer transfer) {
      putNumber(node, "arrivedKg", transfer.arrivedKg());
      node.put("remark", transfer.remark());
    } else if (request instanceof Request.VesselChange change) {
      putNumber(node, "hotM3", change.hotM3());
      putNumber(node, "hotUncertaintyM3", change.hotUncertaintyM3());
      putNumber(node, "coldM3", change.coldM3());
      putNumber(node, "coldUncertaintyM3", change.coldUncertaintyM3());
      node.put("remark", change.remark());
    } else if (request instanceof Request.SourceChange change) {
      putNumber(node, "oxygenFraction", change.oxygenFraction());
      putNumber(node, "uncertainty", change.uncertainty());
      putNumber(node, "supplyPa", change.supplyPa());
      node.put("remark", change.remark());
    } else if (request instanceof Request.Addition addition) {
      putNumber(node, "addedKg", addition.addedKg());
      node.put("remark", addition.remark());
    } else if (request instanceof Request.SampleTaken taken) {
      putNumber(node, "takenKg", taken.takenKg());
      node.put("remark", taken.remark());
    } else if (request instanceof Request.Note note) {
      node.put("remark", note.remark());
    } else if (request instanceof Request.Photo photo) {
      node.put("sha256", photo.sha256());
      node.put("bytes", photo.bytes());
      node.put("remark", photo.remark());
    } else if (request instanceof Request.Correction correction) {
      node.put("ofMillis", correction.ofMillis());
      node.put("former", correction.former());
      node.put("remark", correction.remark());
    } else if (request instanceof Request.Preflight preflight) {
      node.put("recipeSha256", preflight.recipeSha256());
      ObjectNode answers = node.putObject("answers");
      new TreeMap<>(preflight.answers()).forEach(answers::put);
    } else if (request instanceof Request.ChangeStep change) {
      node.put("position", change.position());
      ObjectNode values = node.putObject("values");
      new TreeMap<>(change.values()).forEach((name, value) -> putNumber(values, name, value));
      node.put("reason", change.reason());
      node.put("rehearsed", change.rehearsed());
    } else if (request instanceof Request.SkipSoak skip) {
      node.put("position", skip.position());
      node.put("reason", skip.reason());
      node.put("rehearsed", skip.rehearsed());
    } else if (request instanceof Request.CheckIn in) {
      putNumber(node, "hours", in.hours());
    } else if (request instanceof Request.HandOver over) {
      node.put("to", over.to());
      putNumber(node, "hours", over.hours());
    } else if (request instanceof Request.Shelve shelve) {
      node.put("alarm", shelve.alarm());
      putNumber(node, "minutes", shelve.minutes());
      node.put("reason", shelve.reason());
    } else if (request instanceof Request.Unshelve unshelve) {
      node.put("alarm", unshelve.alarm());
    } else if (request instanceof Request.Defeat defeat) {
      node.put("alarm", defeat.alarm());
      putNumber(node, "minutes", defeat.minutes());
      node.put("reason", defeat.reason());
    } else if (request instanceof Request.Enforce enforce) {
      node.put("alarm", enforce.alarm());
    } else if (request instanceof Request.PowerReturned power) {
      putNumber(node, "outageS", power.outageS());
    } else if (request instanceof Request.Expect expect) {
      node.put("course", expect.course());
    } else if (request instanceof Request.ShellTrouble trouble) {
      node.put("alarm", trouble.alarm());
      node.put("detail", trouble.detail());
      if (trouble.clockStepS() != 0) {
        node.put(CLOCK_STEP, trouble.clockStepS());
      }
    } else if (request instanceof Request.RecordDamaged damaged) {
      node.put("noticedAt", damaged.noticedAt());
      node.put("what", damaged.what());
    } else if (request instanceof Request.TakeOver found) {
      node.put("person", found.presence().by());
      node.put("untilMillis", found.presence().untilMillis());
      node.put("overdue", found.presence().overdue());
      ObjectNode alarms = node.putObject("alarms");
      new TreeMap<>(found.alarms()).forEach((alarm, state) -> alarms.put(alarm, state.name()));
      node.put("firstOut", found.firstOut());
    }
    return node.toString();
  }

  /** The request in words for the list of events. */
  static String sentence(Request request) {
    String asks = request.by() + " asks: ";
    if (request instanceof Request.Acknowledge acknowledge) {
      return asks + "acknowledge '" + acknowledge.alarm() + "'";
    } else if (request instanceof Request.Reset reset) {
      return asks + "reset '" + reset.alarm() + "' (" + reset.reason() + ")";
    } else if (request instanceof Request.Answer answer) {
      return request.by() + " answers question " + answer.questionNumber();
    } else if (request instanceof Request.ChangeStep change) {
      return asks + "change step " + (change.position() + 1) + " (" + change.reason() + ")";
    } else if (request instanceof Request.SkipSoak skip) {
      return asks + "skip the soak of step " + (skip.position() + 1) + " (" + skip.reason() + ")";
    } else if (request instanceof Request.Preflight) {
      return request.by() + " has gone through the list before the start";
    } else if (request instanceof Request.CheckIn in) {
      return asks + "check in for " + in.hours() + " h";
    } else if (request instanceof Request.CheckOut) {
      return asks + "check out";
    } else if (request instanceof Request.HandOver over) {
      return asks + "hand over to " + over.to() + " for " + over.hours() + " h";
    } else if (request instanceof Request.Shelve shelve) {
      return asks + "shelve '" + shelve.alarm() + "' for " + shelve.minutes() + " min";
    } else if (request instanceof Request.Defeat defeat) {
      return asks + "defeat '" + defeat.alarm() + "' for " + defeat.minutes() + " min";
    } else if (request instanceof Request.PowerReturned power) {
      return request.by() + " reports: control is back after " + power.outageS() + " s";
    } else if (request instanceof Request.Expect) {
      return request.by() + " has rehearsed the batch";
    } else if (request instanceof Request.ShellTrouble trouble) {
      return request.by() + " reports '" + trouble.alarm() + "': " + trouble.detail();
    } else if (request instanceof Request.RecordDamaged) {
      return request.by() + " reports: the record was damaged";
    } else if (request instanceof Request.TakeOver) {
      return request.by() + " hands over the bench as it is";
    }
    return asks + request.getClass().getSimpleName().toLowerCase(java.util.Locale.ROOT);
  }

  static Request decode(String json) {
    try {
      JsonNode node = JSON.readTree(json);
      String type = text(node, "type");
      Function<JsonNode, Request> reader = type == null ? null : READERS.get(type);
      if (reader == null) {
        throw new JournalException(
            JournalException.Trouble.TOO_NEW,
            "The record holds a request of an unknown type, " + json);
      }
      return reader.apply(node);
    } catch (JsonProcessingException | NumberFormatException e) {
      throw JournalException.damaged("a request is not readable: " + json);
    }
  }

  private static Request shellTrouble(JsonNode node) {
    String detail = text(node, "detail");
    long clockStepS =
        node.has(CLOCK_STEP) ? whole(node, CLOCK_STEP) : ClockStepWords.secondsIn(detail);
    return new Request.ShellTrouble(by(node), text(node, "alarm"), detail, clockStepS);
  }

  private static Request answer(JsonNode node) {
    JsonNode number = field(node, "questionNumber");
    return new Request.Answer(
        by(node), number.intValue(), numbers(node, "values"), text(node, "remark"));
  }

  private static Request takeOver(JsonNode node) {
    Map<String, AlarmState> alarms = new TreeMap<>();
    texts(node, "alarms").forEach((alarm, state) -> alarms.put(alarm, AlarmState.valueOf(state)));
    return new Request.TakeOver(
        by(node),
        new Presence(
            text(node, "person"),
            field(node, "untilMillis").longValue(),
            field(node, "overdue").booleanValue()),
        alarms,
        text(node, "firstOut"));
  }

  private static Map<String, Double> numbers(JsonNode node, String name) {
    JsonNode values = field(node, name);
    Map<String, Double> byName = new HashMap<>();
    values.fieldNames().forEachRemaining(each -> byName.put(each, number(values.get(each))));
    return byName;
  }

  private static Map<String, String> texts(JsonNode node, String name) {
    JsonNode values = field(node, name);
    Map<String, String> byName = new HashMap<>();
    values.fieldNames().forEachRemaining(each -> byName.put(each, text(values, each)));
    return byName;
  }

  private static long whole(JsonNode node, String name) {
    return field(node, name).longValue();
  }

  /** JSON has no word for infinity or "not a number"; they go as text. */
  private static void putNumber(ObjectNode node, String name, double value) {
    if (Double.isFinite(value)) {
      node.put(name, value);
    } else {
      node.put(name, Double.toString(value));
    }
  }

  private static double number(JsonNode node) {
    if (node == null) {
      throw JournalException.damaged("a request lacks a number");
    }
    return node.isTextual() ? Double.parseDouble(node.textValue()) : node.doubleValue();
  }

  private static double value(JsonNode node, String name) {
    return number(field(node, name));
  }

  private static String remark(JsonNode node) {
    return text(node, "remark");
  }

  private static String by(JsonNode node) {
    return text(node, "by");
  }

  private static String text(JsonNode node, String name) {
    return field(node, name).textValue();
  }

  private static JsonNode field(JsonNode node, String name) {
    JsonNode field = node.get(name);
    if (field == null) {
      throw JournalException.damaged("a request lacks its '" + name + "': " + node);
    }
    return field;
  }
}
