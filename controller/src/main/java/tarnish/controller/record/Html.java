package tarnish.controller.record;

import java.util.List;

/** Markup of the record. Whatever comes from the batch goes through {@link #text}. */
final class Html implements Paper {
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

  private void element(String tag, String words) {
    raw("<" + tag + ">").raw(text(words)).raw("</" + tag + ">\n");
  }

  /** Everything up to the content; {@code style} is the only style sheet. */
  Html head(String title, String style) {
    raw("<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n");
    raw("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
    element("title", title);
    return raw("<style>" + style + "</style></head>\n<body>\n");
  }

  Html foot() {
    return raw("</main>\n</body></html>\n");
  }

  @Override
  public void title(String kind, String title) {
    raw("<header>");
    element("p", kind);
    element("h1", title);
    raw("</header>\n<main>\n");
  }

  @Override
  public void notice(String words) {
    raw("<p class=\"notice\">").raw(text(words)).raw("</p>\n");
  }

  @Override
  public void section(String title) {
    element("h2", title);
  }

  @Override
  public void paragraph(String words) {
    element("p", words);
  }

  @Override
  public void verbatim(String text) {
    element("pre", text);
  }

  @Override
  public void facts(String[]... facts) {
    raw("<dl>\n");
    for (String[] fact : facts) {
      raw("<div><dt>")
          .raw(text(fact[0]))
          .raw("</dt><dd>")
          .raw(text(unbroken(fact[1])))
          .raw("</dd></div>\n");
    }
    raw("</dl>\n");
  }

  /** Keeps a number and its unit on one line. */
  private static String unbroken(String words) {
    return words.replaceAll("(?<=[0-9)]) (?=[°%a-zA-Z])", "\u00a0").replace(" ± ", "\u00a0±\u00a0");
  }

  @Override
  public void table(Setting setting, List<String> heads, List<List<String>> rows) {
    raw("<table class=\"" + setting.word() + "\"><thead><tr>");
    heads.forEach(head -> raw("<th scope=\"col\">").raw(text(head)).raw("</th>"));
    raw("</tr></thead><tbody>\n");
    for (List<String> row : rows) {
      raw("<tr>");
      row.forEach(cell -> raw("<td>").raw(text(cell)).raw("</td>"));
      raw("</tr>\n");
    }
    raw("</tbody></table>\n");
  }

  @Override
  public void figure(Chart picture, String caption) {
    SvgPen pen = new SvgPen(picture.says(), Chart.WIDTH, picture.height());
    picture.draw(pen);
    raw("<figure>").raw(pen.toString()).raw("<figcaption>").raw(text(caption));
    raw("</figcaption></figure>\n");
  }

  @Override
  public void signatures(String... what) {
    raw("<p class=\"sign\">");
    for (String each : what) {
      raw("<span>").raw(text(each)).raw("</span>");
    }
    raw("</p>\n");
  }

  @Override
  public String toString() {
    return to.toString();
  }
}
