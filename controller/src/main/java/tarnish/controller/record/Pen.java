package tarnish.controller.record;

/**
 * What draws a {@link Chart}. Lengths are in units of the picture, x to the right and y down from
 * its upper left corner; colours are {@code #rrggbb}.
 */
interface Pen {
  enum Anchor {
    START("start"),
    MIDDLE("middle"),
    END("end");

    private final String word;

    Anchor(String word) {
      this.word = word;
    }

    String word() {
      return word;
    }
  }

  /**
   * A line through points; a NaN lifts the pen.
   *
   * @param dashes lengths of dash and gap, empty for a full line
   */
  void line(double[] x, double[] y, String colour, double width, double... dashes);

  /** A filled area within a closed line, edged with its own colour. */
  void area(double[] x, double[] y, String colour, double edge);

  void dot(double x, double y, double radius, String colour);

  /** Short strokes upwards from one height. */
  void ticks(double[] x, double foot, double height, String colour);

  void words(double x, double y, Anchor anchor, String words);

  /** Words that run upwards, centred. */
  void upright(double x, double y, String words);
}
