package tarnish.controller.service;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/** The fields of a JSON object, read strictly: nothing unknown, nothing of the wrong type. */
final class Fields {
  private final JsonNode object;

  private Fields(JsonNode object) {
    this.object = object;
  }

  /**
   * @param known every field that may be there
   * @throws Refused if {@code node} is not an object or has another field
   */
  static Fields of(JsonNode node, Set<String> known) {
    if (node == null || !node.isObject()) {
      throw Refused.malformed("The request must be one JSON object.");
    }
    node.fieldNames()
        .forEachRemaining(
            name -> {
              if (!known.contains(name)) {
                throw Refused.malformed(
                    "The request has a field that is not known here; known are "
                        + String.join(", ", new TreeSet<>(known))
                        + ".");
              }
            });
    return new Fields(node);
  }

  /** One line of text with something in it, trimmed. */
  String line(String name, int lengthMax) {
    String text = text(name, lengthMax, false).strip();
    if (text.isEmpty()) {
      throw Refused.malformed("'" + name + "' must not be empty.");
    }
    return text;
  }

  /** Text that may be empty, missing, or of several lines. */
  String textOrEmpty(String name, int lengthMax) {
    return object.has(name) ? text(name, lengthMax, true) : "";
  }

  /** Text of several lines with something in it, as it stands. */
  String text(String name, int lengthMax) {
    String text = text(name, lengthMax, true);
    if (text.isBlank()) {
      throw Refused.malformed("'" + name + "' must not be empty.");
    }
    return text;
  }

  int wholeNumber(String name, int least, int greatest) {
    JsonNode node = object.get(name);
    if (node == null || !node.isIntegralNumber() || !node.canConvertToInt()) {
      throw Refused.malformed("'" + name + "' must be a whole number.");
    }
    int value = node.intValue();
    if (value < least || value > greatest) {
      throw Refused.malformed("'" + name + "' must be between " + least + " and " + greatest + ".");
    }
    return value;
  }

  /** A finite number from {@code least} to {@code greatest}. */
  double numberFrom(String name, double least, double greatest) {
    JsonNode node = object.get(name);
    if (node == null || !node.isNumber()) {
      throw Refused.malformed("'" + name + "' must be a number.");
    }
    double value = finite(name, node);
    if (!(value >= least && value <= greatest)) {
      throw Refused.malformed("'" + name + "' must be between " + least + " and " + greatest + ".");
    }
    return value;
  }

  /** A finite number above {@code above} and at most {@code greatest}. */
  double number(String name, double above, double greatest) {
    double value = finite(name, object.path(name));
    if (!(value > above && value <= greatest)) {
      throw Refused.malformed(
          "'" + name + "' must be above " + above + " and at most " + greatest + ".");
    }
    return value;
  }

  /** Finite numbers by name; empty if the field is missing. */
  Map<String, Double> numbers(String name, int countMax, int nameLengthMax) {
    Map<String, Double> values = new LinkedHashMap<>();
    JsonNode node = object.get(name);
    if (node == null) {
      return values;
    }
    if (!node.isObject() || node.size() > countMax) {
      throw Refused.malformed(
          "'" + name + "' must be an object of at most " + countMax + " numbers.");
    }
    node.properties()
        .forEach(
            field -> {
              checkText(name, field.getKey(), nameLengthMax, false);
              values.put(field.getKey(), finite(name, field.getValue()));
            });
    return values;
  }

  /** Short texts by name; empty if the field is missing. */
  Map<String, String> texts(String name, int countMax, int lengthMax) {
    Map<String, String> values = new LinkedHashMap<>();
    JsonNode node = object.get(name);
    if (node == null) {
      return values;
    }
    if (!node.isObject() || node.size() > countMax) {
      throw Refused.malformed(
          "'" + name + "' must be an object of at most " + countMax + " texts.");
    }
    for (Map.Entry<String, JsonNode> field : node.properties()) {
      checkText(name, field.getKey(), lengthMax, false);
      if (!field.getValue().isTextual()) {
        throw Refused.malformed("'" + name + "' must be an object of texts.");
      }
      checkText(name, field.getValue().textValue(), lengthMax, false);
      values.put(field.getKey(), field.getValue().textValue());
    }
    return values;
  }

  private static double finite(String name, JsonNode node) {
    double value = node.isNumber() ? node.doubleValue() : Double.NaN;
    if (!Double.isFinite(value)) {
      throw Refused.malformed("'" + name + "' must be a finite number, and every value of it.");
    }
    return value;
  }

  private String text(String name, int lengthMax, boolean manyLines) {
    JsonNode node = object.get(name);
    if (node == null || !node.isTextual()) {
      throw Refused.malformed("'" + name + "' must be there and be text.");
    }
    checkText(name, node.textValue(), lengthMax, manyLines);
    return node.textValue();
  }

  static void checkText(String name, String text, int lengthMax, boolean manyLines) {
    if (text.length() > lengthMax) {
      throw Refused.malformed("'" + name + "' must be at most " + lengthMax + " characters long.");
    }
    boolean clean =
        text.codePoints()
            .allMatch(c -> isPrintable(c) || manyLines && (c == '\n' || c == '\r' || c == '\t'));
    if (!clean) {
      throw Refused.malformed("'" + name + "' has a character that cannot be printed.");
    }
  }

  /**
   * Half a surrogate pair cannot be stored as UTF-8, and marks that turn the direction of writing
   * can make a text read otherwise than it is; both are refused with the controls.
   */
  private static boolean isPrintable(int c) {
    int type = Character.getType(c);
    boolean turnsDirection = c >= 0x202A && c <= 0x202E || c >= 0x2066 && c <= 0x2069;
    return type != Character.CONTROL
        && type != Character.SURROGATE
        && type != Character.LINE_SEPARATOR
        && type != Character.PARAGRAPH_SEPARATOR
        && !turnsDirection;
  }
}
