package tarnish.controller.record;

import java.util.List;

/** Markup of the record. Whatever comes from the batch goes through {@link #text}. */
final class Html {
  private final StringBuilder to = new StringBuilder(64 * 1024);

  /** Text as text, whatever it holds. */
  static String text(String any) {
    StringBuilder safe = new StringBuilder(any.length() + 16);
    for (int i = 0; i < any.length(); i++) {
      char c = any.charAt(i);
      switch (c) {
        case '&' -> safe.append("&amp;");
        case '<' -> safe.append("&lt;");
        case '>' -> safe.append("&gt;");
        case '"' -> safe.append("&quot;");
        case '\'' -> safe.append("&#39;");
        default -> safe.append(c);
      }
    }
    return safe.toString();
  }

  /** Adds markup as it is: only constants and what is already escaped. */
  Html raw(String markup) {
    to.append(markup);
    return this;
  }

  Html element(String tag, String words) {
    to.append('<').append(tag).append('>').append(text(words)).append("</").append(tag);
    to.append(">\n");
    return this;
  }

  Html section(String title) {
    raw("<h2>").raw(text(title)).raw("</h2>\n");
    return this;
  }

  /** A list of names and values, two columns of them. */
  Html facts(String[]... facts) {
    raw("<dl>\n");
    for (String[] fact : facts) {
      raw("<div><dt>")
          .raw(text(fact[0]))
          .raw("</dt><dd>")
          .raw(text(unbroken(fact[1])))
          .raw("</dd></div>\n");
    }
    return raw("</dl>\n");
  }

  /** Keeps a number and its unit on one line. */
  private static String unbroken(String words) {
    return words.replaceAll("(?<=[0-9)]) (?=[°%a-zA-Z])", "\u00a0").replace(" ± ", "\u00a0±\u00a0");
  }

  /** A table whose heading repeats on each page; the first cell heads its row. */
  Html table(String className, List<String> heads, List<List<String>> rows) {
    raw("<table class=\"" + className + "\"><thead><tr>");
    heads.forEach(head -> raw("<th scope=\"col\">").raw(text(head)).raw("</th>"));
    raw("</tr></thead><tbody>\n");
    for (List<String> row : rows) {
      raw("<tr>");
      row.forEach(cell -> raw("<td>").raw(text(cell)).raw("</td>"));
      raw("</tr>\n");
    }
    return raw("</tbody></table>\n");
  }

  @Override
  public String toString() {
    return to.toString();
  }
}
