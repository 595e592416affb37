package tarnish.controller.record;

import java.util.ArrayList;
import java.util.List;

/** Breaks words into lines of a given width. */
final class Wrap {
  private Wrap() {}

  /**
   * At spaces where there are any, else within a word. The result has at least one line.
   *
   * @param known words as {@link Face#known} gives them
   */
  static List<String> lines(String known, Face face, double size, double width) {
    List<String> lines = new ArrayList<>();
    String line = "";
    for (String word : known.split(" ")) {
      String longer = line.isEmpty() ? word : line + " " + word;
      if (face.width(longer, size) <= width) {
        line = longer;
        continue;
      }
      if (!line.isEmpty()) {
        lines.add(line);
      }
      line = word;
      while (face.width(line, size) > width && line.length() > 1) {
        int fitting = fitting(line, face, size, width);
        lines.add(line.substring(0, fitting));
        line = line.substring(fitting);
      }
    }
    lines.add(line);
    return lines;
  }

  /** How many characters fit, at least one, never half of a pair. */
  static int fitting(String word, Face face, double size, double width) {
    int fitting = word.offsetByCodePoints(0, 1);
    while (fitting < word.length()) {
      int next = word.offsetByCodePoints(fitting, 1);
      if (face.width(word.substring(0, next), size) > width) {
        break;
      }
      fitting = next;
    }
    return fitting;
  }

  /** The widest single word. */
  static double widestWord(String known, Face face, double size) {
    double widest = 0;
    for (String word : known.split(" ")) {
      widest = StrictMath.max(widest, face.width(word, size));
    }
    return widest;
  }
}
