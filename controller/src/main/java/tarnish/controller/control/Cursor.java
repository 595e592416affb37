package tarnish.controller.control;

/**
 * Where the batch is in its program.
 *
 * @param position place of the present instruction; the program's size when done
 * @param passes passes begun of each repeat by the position of its start
 * @param gasAtPassStart account of the gas when the present pass of each repeat began, likewise
 */
record Cursor(int position, int[] passes, GasAccount[] gasAtPassStart) {
  static Cursor start(int size) {
    return new Cursor(0, new int[size], new GasAccount[size]);
  }

  Cursor at(int next) {
    return new Cursor(next, passes, gasAtPassStart);
  }

  Cursor intoPass(int loopStart, int pass, GasAccount gas) {
    int[] changed = passes.clone();
    changed[loopStart] = pass;
    GasAccount[] accounts = gasAtPassStart.clone();
    accounts[loopStart] = gas;
    return new Cursor(loopStart + 1, changed, accounts);
  }
}
