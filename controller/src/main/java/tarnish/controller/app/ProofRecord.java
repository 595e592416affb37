package tarnish.controller.app;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * The dated record of proof tests: a file of one JSON object a line beside the journal, only ever
 * added to.
 */
final class ProofRecord {
  static final String FILE = "proof-tests.jsonl";

  private static final ObjectMapper JSON = new ObjectMapper();

  private final Path file;

  ProofRecord(Path folder) {
    file = folder.resolve(FILE);
  }

  /**
   * One row proved, or not.
   *
   * @param how by what: the simulator, or a person at the bench
   * @param due when it must be proved again
   */
  record Entry(
      String row,
      boolean passed,
      double withinS,
      LocalDate date,
      LocalDate due,
      String by,
      String rig,
      String how) {}

  void add(List<Entry> entries) {
    StringBuilder lines = new StringBuilder();
    for (Entry each : entries) {
      ObjectNode node = JSON.createObjectNode();
      node.put("row", each.row());
      node.put("passed", each.passed());
      if (Double.isFinite(each.withinS())) {
        node.put("withinS", each.withinS());
      }
      node.put("date", each.date().toString());
      node.put("due", each.due().toString());
      node.put("by", each.by());
      node.put("rig", each.rig());
      node.put("how", each.how());
      lines.append(node).append('\n');
    }
    try {
      Files.createDirectories(file.toAbsolutePath().getParent());
      Files.writeString(
          file,
          lines,
          StandardCharsets.UTF_8,
          StandardOpenOption.CREATE,
          StandardOpenOption.APPEND,
          StandardOpenOption.DSYNC);
    } catch (IOException e) {
      throw new CommandFailure("Cannot write " + file + ": " + e.getMessage() + ".");
    }
  }

  /** The newest entry of each row; a line that cannot be read counts as no proof. */
  Map<String, Entry> newest() {
    return newest(LocalDate.MAX);
  }

  /** The newest entry of each row up to and including a day. */
  Map<String, Entry> newest(LocalDate until) {
    Map<String, Entry> newest = new TreeMap<>();
    if (!Files.exists(file)) {
      return newest;
    }
    try {
      for (String line : Files.readAllLines(file, StandardCharsets.UTF_8)) {
        try {
          Entry entry = entry(JSON.readTree(line));
          if (!entry.date().isAfter(until)) {
            newest.put(entry.row(), entry);
          }
        } catch (IOException | RuntimeException damaged) {
          continue;
        }
      }
    } catch (IOException e) {
      throw new CommandFailure("Cannot read " + file + ": " + e.getMessage() + ".");
    }
    return newest;
  }

  private static Entry entry(JsonNode node) {
    return new Entry(
        node.get("row").textValue(),
        node.get("passed").booleanValue(),
        node.path("withinS").asDouble(Double.NaN),
        LocalDate.parse(node.get("date").textValue()),
        LocalDate.parse(node.get("due").textValue()),
        node.get("by").textValue(),
        node.get("rig").textValue(),
        node.get("how").textValue());
  }

  /** The rows that are not proved today: never, too long ago, or without success. */
  List<String> overdue(List<String> rows, LocalDate today) {
    Map<String, Entry> newest = newest();
    List<String> overdue = new ArrayList<>();
    for (String row : rows) {
      Entry entry = newest.get(row);
      if (entry == null || !entry.passed() || today.isAfter(entry.due())) {
        overdue.add(row);
      }
    }
    return overdue;
  }
}
