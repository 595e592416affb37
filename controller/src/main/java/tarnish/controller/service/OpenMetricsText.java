package tarnish.controller.service;

import java.util.Locale;

/**
 * Writes metric families in the OpenMetrics text format 1.0. Families must be written one after the
 * other, each name once; names and labels here are constants of ours, label values may be anything.
 */
final class OpenMetricsText {
  /** Section "Text format" of OpenMetrics 1.0.0. */
  static final String CONTENT_TYPE = "application/openmetrics-text; version=1.0.0; charset=utf-8";

  private final StringBuilder to = new StringBuilder(4096);

  /** The kinds of metric that are used here, by their word in a TYPE line. */
  enum Type {
    COUNTER("_total"),
    GAUGE(""),
    INFO("_info"),
    STATESET("");

    private final String suffix;

    Type(String suffix) {
      this.suffix = suffix;
    }
  }

  /** One family: its samples follow. */
  final class Family {
    private final String sample;

    private Family(String sample) {
      this.sample = sample;
    }

    Family value(double value) {
      return line("", value);
    }

    Family value(String label, String labelValue, double value) {
      return line("{" + label + "=\"" + escaped(labelValue) + "\"}", value);
    }

    private Family line(String labels, double value) {
      to.append(sample).append(labels).append(' ').append(number(value)).append('\n');
      return this;
    }
  }

  /**
   * @param unit the last word of the name, or empty for a metric without one
   */
  Family family(String name, Type type, String unit, String help) {
    if (!unit.isEmpty() && !name.endsWith("_" + unit)) {
      throw new IllegalArgumentException(name + " must end with its unit, " + unit);
    }
    to.append("# TYPE ").append(name).append(' ');
    to.append(type.name().toLowerCase(Locale.ROOT)).append('\n');
    if (!unit.isEmpty()) {
      to.append("# UNIT ").append(name).append(' ').append(unit).append('\n');
    }
    to.append("# HELP ").append(name).append(' ').append(escaped(help)).append('\n');
    return new Family(name + type.suffix);
  }

  /** The whole exposition; a reader that finds no EOF line knows that it was cut off. */
  String end() {
    return to + "# EOF\n";
  }

  private static String number(double value) {
    if (Double.isNaN(value)) {
      return "NaN";
    }
    if (Double.isInfinite(value)) {
      return value > 0 ? "+Inf" : "-Inf";
    }
    boolean whole = value == StrictMath.rint(value) && StrictMath.abs(value) < 1e15;
    return whole ? Long.toString((long) value) : Double.toString(value).toLowerCase(Locale.ROOT);
  }

  private static String escaped(String text) {
    return text.replace("\\", "\\\\").replace("\"", "\\\"").replace("\n", "\\n");
  }
}
