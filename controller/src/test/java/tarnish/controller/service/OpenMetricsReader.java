package tarnish.controller.service;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Reads an exposition as strictly as OpenMetrics 1.0.0 words it (sections "ABNF", "Overall
 * Structure", "MetricFamily", "Counter", "Info", "StateSet"): anything else is a failure.
 */
final class OpenMetricsReader {
  private static final String NAME = "[a-zA-Z_:][a-zA-Z0-9_:]*";
  private static final String LABEL = "[a-zA-Z_][a-zA-Z0-9_]*";
  private static final String ESCAPED = "(?:[^\\\\\"\\n]|\\\\[\\\\\"n])*";
  private static final String REAL = "[+-]?(?:\\d+\\.?\\d*|\\.\\d+)(?:[eE][+-]?\\d+)?";
  private static final Pattern DESCRIPTOR =
      Pattern.compile("# (TYPE|UNIT|HELP) (" + NAME + ") (" + ESCAPED + ")");
  private static final Pattern SAMPLE =
      Pattern.compile(
          "("
              + NAME
              + ")(?:\\{("
              + LABEL
              + "=\""
              + ESCAPED
              + "\"(?:,"
              + LABEL
              + "=\""
              + ESCAPED
              + "\")*)?\\})? ("
              + REAL
              + "|NaN|[+-]?Inf)");
  private static final Pattern ONE_LABEL = Pattern.compile("(" + LABEL + ")=\"(" + ESCAPED + ")\"");
  private static final Map<String, List<String>> SUFFIXES =
      Map.of(
          "counter", List.of("_total", "_created"),
          "gauge", List.of(""),
          "info", List.of("_info"),
          "stateset", List.of(""));

  record Sample(String name, Map<String, String> labels, double value) {}

  record Family(String name, String type, String unit, List<Sample> samples) {}

  private final Map<String, Family> families = new LinkedHashMap<>();
  private final Map<String, Map<String, String>> descriptors = new HashMap<>();
  private final Set<String> series = new HashSet<>();
  private String present = "";

  static Map<String, Family> read(String text) {
    return new OpenMetricsReader().families(text);
  }

  private Map<String, Family> families(String text) {
    require(text.endsWith("# EOF\n"), "the exposition must end with '# EOF' and a line feed");
    require(!text.contains("\r"), "lines end with a line feed only");
    String[] lines = text.substring(0, text.length() - "# EOF\n".length()).split("\n");
    for (String line : lines) {
      Matcher descriptor = DESCRIPTOR.matcher(line);
      Matcher sample = SAMPLE.matcher(line);
      if (descriptor.matches()) {
        describe(descriptor.group(1), descriptor.group(2), descriptor.group(3));
      } else {
        require(sample.matches(), "neither a descriptor nor a sample: " + line);
        take(sample.group(1), labels(sample.group(2)), value(sample.group(3)));
      }
    }
    return families;
  }

  private void describe(String kind, String name, String value) {
    if (!name.equals(present)) {
      require(!families.containsKey(name), "family is interleaved or repeated: " + name);
      present = name;
      families.put(name, new Family(name, "", "", new ArrayList<>()));
    }
    Map<String, String> known = descriptors.computeIfAbsent(name, each -> new HashMap<>());
    require(known.put(kind, value) == null, kind + " repeated for " + name);
    Family family = families.get(name);
    require(family.samples().isEmpty(), "descriptor after a sample of " + name);
    String type = known.getOrDefault("TYPE", "");
    String unit = known.getOrDefault("UNIT", "");
    require(type.isEmpty() || SUFFIXES.containsKey(type), "unknown type " + type);
    require(unit.isEmpty() || name.endsWith("_" + unit), name + " lacks its unit " + unit);
    boolean unitless = type.equals("info") || type.equals("stateset");
    require(!unitless || unit.isEmpty(), "info and stateset have no unit");
    families.put(name, new Family(name, type, unit, family.samples()));
  }

  private void take(String name, Map<String, String> labels, double value) {
    Family family = families.get(present);
    require(family != null, "sample before any family: " + name);
    boolean fits =
        SUFFIXES.get(family.type()).stream().anyMatch(end -> name.equals(family.name() + end));
    require(fits, name + " does not belong to the family before it, " + present);
    require(series.add(name + labels), "series repeated: " + name + labels);
    switch (family.type()) {
      case "counter" -> require(value >= 0, "counter below 0");
      case "info" -> require(value == 1, "info must be 1");
      case "stateset" -> {
        require(value == 0 || value == 1, "a state is 0 or 1");
        require(labels.containsKey(family.name()), "a state is named by its family's label");
      }
      default -> require(family.type().equals("gauge"), "unexpected " + family.type());
    }
    family.samples().add(new Sample(name, labels, value));
  }

  private static Map<String, String> labels(String text) {
    Map<String, String> labels = new LinkedHashMap<>();
    Matcher one = ONE_LABEL.matcher(text == null ? "" : text);
    while (one.find()) {
      String value = one.group(2).replace("\\n", "\n").replace("\\\"", "\"").replace("\\\\", "\\");
      require(labels.put(one.group(1), value) == null, "label repeated: " + one.group(1));
    }
    return labels;
  }

  private static double value(String text) {
    return switch (text) {
      case "+Inf", "Inf" -> Double.POSITIVE_INFINITY;
      case "-Inf" -> Double.NEGATIVE_INFINITY;
      default -> Double.parseDouble(text);
    };
  }

  private static void require(boolean condition, String complaint) {
    if (!condition) {
      throw new AssertionError(complaint);
    }
  }
}
