package tarnish.shared.quantity;

import java.util.Collection;
import java.util.Locale;
import java.util.Optional;

/** Finds the word a person probably meant. */
public final class NearestWord {
  /** A longer text is no mistyped word, and comparing it would only cost time. */
  private static final int LONGEST = 60;

  private NearestWord() {}

  /** The known word with the least edit distance, if it is near enough to be a slip. */
  public static Optional<String> to(String written, Collection<String> known) {
    if (written.length() > LONGEST) {
      return Optional.empty();
    }
    String nearest = null;
    int least = slipsAllowed(written) + 1;
    for (String word : known) {
      int distance = distance(written.toLowerCase(Locale.ROOT), word.toLowerCase(Locale.ROOT));
      if (distance < least) {
        least = distance;
        nearest = word;
      }
    }
    return Optional.ofNullable(nearest);
  }

  private static int slipsAllowed(String written) {
    return written.length() <= 3 ? 1 : StrictMath.max(2, written.length() / 3);
  }

  /**
   * Least number of letters inserted, left out, replaced or swapped with their neighbour
   * (restricted Damerau-Levenshtein distance).
   */
  public static int distance(String a, String b) {
    int[][] distance = new int[a.length() + 1][b.length() + 1];
    for (int i = 0; i <= a.length(); i++) {
      for (int j = 0; j <= b.length(); j++) {
        distance[i][j] = cell(a, b, distance, i, j);
      }
    }
    return distance[a.length()][b.length()];
  }

  private static int cell(String a, String b, int[][] distance, int i, int j) {
    if (i == 0 || j == 0) {
      return i + j;
    }
    boolean same = a.charAt(i - 1) == b.charAt(j - 1);
    int best = distance[i - 1][j - 1] + (same ? 0 : 1);
    best = StrictMath.min(best, distance[i - 1][j] + 1);
    best = StrictMath.min(best, distance[i][j - 1] + 1);
    boolean swapped =
        i > 1 && j > 1 && a.charAt(i - 1) == b.charAt(j - 2) && a.charAt(i - 2) == b.charAt(j - 1);
    return swapped ? StrictMath.min(best, distance[i - 2][j - 2] + 1) : best;
  }
}
