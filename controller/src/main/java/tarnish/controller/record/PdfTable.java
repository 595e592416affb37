package tarnish.controller.record;

import java.util.ArrayList;
import java.util.List;

/** A table on sheets: columns as wide as their words ask, rows unbroken, the heading on each. */
final class PdfTable {
  private static final double SIZE = 7.5;
  private static final double SUM_SIZE = 6.3;
  private static final double LINE = 1.3;
  private static final double GAP = 6;

  private final Sheets sheets;
  private final Face face;
  private final double size;
  private final List<String> heads;
  private final List<List<String>> rows;
  private final double[] widths;

  PdfTable(Sheets sheets, Paper.Setting setting, List<String> heads, List<List<String>> rows) {
    this.sheets = sheets;
    face = setting == Paper.Setting.SUMS ? sheets.mono : sheets.plain;
    size = setting == Paper.Setting.SUMS ? SUM_SIZE : SIZE;
    this.heads = heads.stream().map(sheets.bold::known).toList();
    this.rows = rows.stream().map(row -> row.stream().map(face::known).toList()).toList();
    widths = widths();
  }

  /** Each column gets what its longest word needs, and a share of the rest by what it asks for. */
  private double[] widths() {
    int n = heads.size();
    double[] least = new double[n];
    double[] natural = new double[n];
    for (int c = 0; c < n; c++) {
      least[c] = Wrap.widestWord(heads.get(c), sheets.bold, size) + GAP;
      natural[c] = sheets.bold.width(heads.get(c), size) + GAP;
      for (List<String> row : rows) {
        least[c] = StrictMath.max(least[c], Wrap.widestWord(row.get(c), face, size) + GAP);
        natural[c] = StrictMath.max(natural[c], face.width(row.get(c), size) + GAP);
      }
      least[c] = StrictMath.min(least[c], Sheets.WIDTH / 2);
    }
    double leastSum = sum(least);
    double asked = sum(natural) - leastSum;
    double free = Sheets.WIDTH - leastSum;
    double[] widths = new double[n];
    for (int c = 0; c < n; c++) {
      double share = free > 0 && asked > 0 ? free * (natural[c] - least[c]) / asked : 0;
      widths[c] = free > 0 ? least[c] + share : least[c] * Sheets.WIDTH / leastSum;
    }
    return widths;
  }

  private static double sum(double[] values) {
    double sum = 0;
    for (double each : values) {
      sum += each;
    }
    return sum;
  }

  void write() {
    sheets.need(4 * size * LINE);
    heading();
    for (List<String> row : rows) {
      List<List<String>> cells = cells(row, face);
      double height = height(cells);
      boolean fits = height <= Sheets.heightMax() / 2;
      if (fits && sheets.need(height)) {
        heading();
      }
      if (fits) {
        line(cells, face, height);
      } else {
        broken(cells);
      }
    }
    sheets.down(6);
  }

  private void heading() {
    List<List<String>> cells = cells(heads, sheets.bold);
    double height = height(cells);
    line(cells, sheets.bold, height);
  }

  private List<List<String>> cells(List<String> words, Face with) {
    List<List<String>> cells = new ArrayList<>();
    for (int c = 0; c < heads.size(); c++) {
      cells.add(Wrap.lines(words.get(c), with, size, widths[c] - GAP));
    }
    return cells;
  }

  private double height(List<List<String>> cells) {
    return cells.stream().mapToInt(List::size).max().orElse(1) * size * LINE + 3;
  }

  private void line(List<List<String>> cells, Face with, double height) {
    double x = Sheets.LEFT;
    for (int c = 0; c < cells.size(); c++) {
      for (int i = 0; i < cells.get(c).size(); i++) {
        double base = sheets.y() - size - 1 - i * size * LINE;
        sheets.words(cells.get(c).get(i), with, size, x, base, Sheets.INK);
      }
      x += widths[c];
    }
    sheets.down(height);
    double thick = with == sheets.bold ? 0.7 : 0.25;
    sheets.rule(Sheets.LEFT, Sheets.LEFT + Sheets.WIDTH, sheets.y(), thick, Sheets.QUIET);
  }

  /** A row that is longer than half a sheet goes on line by line. */
  private void broken(List<List<String>> cells) {
    int lines = cells.stream().mapToInt(List::size).max().orElse(0);
    for (int i = 0; i < lines; i++) {
      if (sheets.need(size * LINE)) {
        heading();
      }
      double x = Sheets.LEFT;
      for (int c = 0; c < cells.size(); c++) {
        if (i < cells.get(c).size()) {
          sheets.words(cells.get(c).get(i), face, size, x, sheets.y() - size, Sheets.INK);
        }
        x += widths[c];
      }
      sheets.down(size * LINE);
    }
    sheets.rule(Sheets.LEFT, Sheets.LEFT + Sheets.WIDTH, sheets.y() - 2, 0.25, Sheets.QUIET);
    sheets.down(3);
  }
}
