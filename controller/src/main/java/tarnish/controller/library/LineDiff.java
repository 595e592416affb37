package tarnish.controller.library;

import java.util.ArrayList;
import java.util.List;

/** The difference between two texts, line by line, with as many common lines as possible. */
public final class LineDiff {
  /** Longer texts are told as replaced as a whole: the table would grow with their product. */
  private static final int LINES_MAX = 3000;

  private LineDiff() {}

  /** A line's part in a change; the words are the page's, too. */
  public enum Mark {
    SAME,
    GONE,
    NEW
  }

  /**
   * One line.
   *
   * @param before its number in the first text, from 1; 0: not there
   * @param after its number in the second text, from 1; 0: not there
   */
  public record Line(Mark mark, int before, int after, String text) {}

  public static List<Line> of(String before, String after) {
    String[] a = before.split("\n", -1);
    String[] b = after.split("\n", -1);
    List<Line> lines = new ArrayList<>();
    int head = 0;
    while (head < a.length && head < b.length && a[head].equals(b[head])) {
      lines.add(new Line(Mark.SAME, head + 1, head + 1, a[head]));
      head++;
    }
    int tail = 0;
    while (tail < a.length - head
        && tail < b.length - head
        && a[a.length - 1 - tail].equals(b[b.length - 1 - tail])) {
      tail++;
    }
    middle(a, b, head, tail, lines);
    for (int i = tail; i > 0; i--) {
      lines.add(new Line(Mark.SAME, a.length - i + 1, b.length - i + 1, a[a.length - i]));
    }
    return lines;
  }

  /** Longest common subsequence by the table of lengths from the end. */
  private static void middle(String[] a, String[] b, int head, int tail, List<Line> into) {
    int n = a.length - head - tail;
    int m = b.length - head - tail;
    boolean tooLong = n > LINES_MAX || m > LINES_MAX;
    int[][] common = new int[tooLong ? 1 : n + 1][tooLong ? 1 : m + 1];
    for (int i = tooLong ? -1 : n - 1; i >= 0; i--) {
      for (int j = m - 1; j >= 0; j--) {
        common[i][j] =
            a[head + i].equals(b[head + j])
                ? common[i + 1][j + 1] + 1
                : Math.max(common[i + 1][j], common[i][j + 1]);
      }
    }
    int i = 0;
    int j = 0;
    while (i < n || j < m) {
      boolean same = !tooLong && i < n && j < m && a[head + i].equals(b[head + j]);
      boolean gone = !same && i < n && (j >= m || tooLong || common[i + 1][j] >= common[i][j + 1]);
      if (same) {
        into.add(new Line(Mark.SAME, head + i + 1, head + j + 1, a[head + i]));
        i++;
        j++;
      } else if (gone) {
        into.add(new Line(Mark.GONE, head + i + 1, 0, a[head + i]));
        i++;
      } else {
        into.add(new Line(Mark.NEW, 0, head + j + 1, b[head + j]));
        j++;
      }
    }
  }
}
