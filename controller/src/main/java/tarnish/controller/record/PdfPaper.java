package tarnish.controller.record;

import java.util.List;

/** Sets a record on sheets. */
final class PdfPaper implements Paper {
  private static final double BODY = 8.5;
  private static final double LINE = 1.35;
  private static final double VERBATIM = 6.8;
  private static final double CAPTION = 7;
  private static final double FACT_NAME = 92;
  private static final double FACT_GAP = 12;

  private final Sheets sheets;

  PdfPaper(Sheets sheets) {
    this.sheets = sheets;
  }

  @Override
  public void title(String kind, String title) {
    set(kind, sheets.plain, BODY, Sheets.WIDTH);
    set(title, sheets.bold, 13, Sheets.WIDTH);
    sheets.down(3);
    sheets.rule(Sheets.LEFT, Sheets.LEFT + Sheets.WIDTH, sheets.y(), 1.2, Sheets.INK);
    sheets.down(8);
  }

  @Override
  public void notice(String words) {
    double top = sheets.y();
    set(words, sheets.bold, BODY, Sheets.WIDTH);
    sheets.rule(Sheets.LEFT, Sheets.LEFT + Sheets.WIDTH, sheets.y() - 3, 0.5, Sheets.QUIET);
    sheets.rule(Sheets.LEFT, Sheets.LEFT + Sheets.WIDTH, top + 1, 0.5, Sheets.QUIET);
    sheets.down(6);
  }

  @Override
  public void section(String title) {
    sheets.need(75);
    sheets.down(12);
    set(title, sheets.bold, 11, Sheets.WIDTH);
    sheets.entry(title);
    sheets.rule(Sheets.LEFT, Sheets.LEFT + Sheets.WIDTH, sheets.y() - 2, 0.5, Sheets.QUIET);
    sheets.down(6);
  }

  @Override
  public void paragraph(String words) {
    set(words, sheets.plain, BODY, Sheets.WIDTH);
    sheets.down(3);
  }

  @Override
  public void verbatim(String text) {
    for (String line : text.replace("\t", "  ").split("\\R")) {
      String rest = sheets.mono.known(line);
      do {
        int fitting =
            rest.isEmpty() ? 0 : Wrap.fitting(rest, sheets.mono, VERBATIM, Sheets.WIDTH - 8);
        sheets.need(VERBATIM * LINE);
        sheets.down(VERBATIM * LINE);
        String head = rest.substring(0, fitting);
        sheets.words(head, sheets.mono, VERBATIM, Sheets.LEFT + 8, sheets.y(), Sheets.INK);
        rest = rest.substring(fitting);
      } while (!rest.isEmpty());
    }
    sheets.down(4);
  }

  /** Two columns of them, row by row. */
  @Override
  public void facts(String[]... facts) {
    double column = (Sheets.WIDTH - FACT_GAP) / 2;
    for (int i = 0; i < facts.length; i += 2) {
      int pair = StrictMath.min(2, facts.length - i);
      double height = 0;
      for (int k = 0; k < pair; k++) {
        height = StrictMath.max(height, factHeight(facts[i + k], column));
      }
      sheets.need(height);
      for (int k = 0; k < pair; k++) {
        fact(facts[i + k], Sheets.LEFT + k * (column + FACT_GAP), column);
      }
      sheets.down(height);
    }
    sheets.down(3);
  }

  private List<String> factLines(String words, Face face, double width) {
    return Wrap.lines(face.known(words), face, BODY, width);
  }

  private double factHeight(String[] fact, double column) {
    int name = factLines(fact[0], sheets.plain, FACT_NAME - 4).size();
    int value = factLines(fact[1], sheets.bold, column - FACT_NAME).size();
    return StrictMath.max(name, value) * BODY * LINE;
  }

  private void fact(String[] fact, double x, double column) {
    block(factLines(fact[0], sheets.plain, FACT_NAME - 4), sheets.plain, x);
    block(factLines(fact[1], sheets.bold, column - FACT_NAME), sheets.bold, x + FACT_NAME);
  }

  /** Lines from the present place on, which stays. */
  private void block(List<String> lines, Face face, double x) {
    for (int i = 0; i < lines.size(); i++) {
      double base = sheets.y() - BODY - i * BODY * LINE;
      sheets.words(lines.get(i), face, BODY, x, base, Sheets.INK);
    }
  }

  @Override
  public void table(Setting setting, List<String> heads, List<List<String>> rows) {
    new PdfTable(sheets, setting, heads, rows).write();
  }

  @Override
  public void figure(Chart picture, String caption) {
    double height = picture.height() * Sheets.WIDTH / Chart.WIDTH;
    List<String> lines =
        Wrap.lines(sheets.plain.known(caption), sheets.plain, CAPTION, Sheets.WIDTH);
    sheets.need(height + (lines.size() + 1) * CAPTION * LINE);
    picture.draw(new PdfPen(sheets));
    sheets.down(height);
    for (String line : lines) {
      sheets.down(CAPTION * LINE);
      sheets.words(line, sheets.plain, CAPTION, Sheets.LEFT, sheets.y(), Sheets.QUIET);
    }
    sheets.down(8);
  }

  @Override
  public void signatures(String... what) {
    sheets.need(60);
    sheets.down(44);
    double column = Sheets.WIDTH / what.length;
    for (int i = 0; i < what.length; i++) {
      double x = Sheets.LEFT + i * column;
      sheets.rule(x, x + column - 12, sheets.y(), 0.7, Sheets.INK);
      sheets.words(sheets.plain.known(what[i]), sheets.plain, 7, x, sheets.y() - 10, Sheets.INK);
    }
    sheets.down(14);
  }

  private void set(String words, Face face, double size, double width) {
    for (String line : Wrap.lines(face.known(words), face, size, width)) {
      sheets.need(size * LINE);
      sheets.down(size * LINE);
      sheets.words(line, face, size, Sheets.LEFT, sheets.y(), Sheets.INK);
    }
  }
}
