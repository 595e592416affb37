package tarnish.controller.record;

import java.util.List;

/** What a record is written on. The same words and pictures become a page or printed sheets. */
interface Paper {
  /** How a table is set. */
  enum Setting {
    NUMBERS,
    LINES,
    SUMS;

    String word() {
      return name().toLowerCase(java.util.Locale.ROOT);
    }
  }

  /** The head of the whole record: what it is, and of what. */
  void title(String kind, String title);

  /** Something that must be seen before all else. */
  void notice(String words);

  void section(String title);

  void paragraph(String words);

  /** A text line by line as it stands, such as a recipe. */
  void verbatim(String text);

  /** Names and values. */
  void facts(String[]... facts);

  /** A table whose heading repeats on each page; the first cell heads its row. */
  void table(Setting setting, List<String> heads, List<List<String>> rows);

  void figure(Chart picture, String caption);

  /** Lines for a pen. */
  void signatures(String... what);
}
