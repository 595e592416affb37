package tarnish.controller.control;

/**
 * Where the batch is in its program.
 *
 * @param position place of the present instruction; the program's size when done
 * @param passes passes begun of each repeat by the position of its start
 * @param uptakeAtPassStartMol uptake when the present pass of each repeat began, likewise
 */
record Cursor(int position, int[] passes, double[] uptakeAtPassStartMol) {
  static Cursor start(int size) {
    return new Cursor(0, new int[size], new double[size]);
  }

  Cursor at(int next) {
    return new Cursor(next, passes, uptakeAtPassStartMol);
  }

  Cursor intoPass(int loopStart, int pass, double uptakeMol) {
    int[] changed = passes.clone();
    changed[loopStart] = pass;
    double[] uptakes = uptakeAtPassStartMol.clone();
    uptakes[loopStart] = uptakeMol;
    return new Cursor(loopStart + 1, changed, uptakes);
  }
}
