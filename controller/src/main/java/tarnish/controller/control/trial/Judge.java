package tarnish.controller.control.trial;

import java.util.List;

/** Says what a pulse has shown. Pure. */
interface Judge {

  /**
   * The outcome of one pulse.
   *
   * @param clear false where another pulse may tell more
   */
  record Verdict(boolean clear, List<Finding> findings) {}

  /**
   * @param before with the pulsed output off
   * @param during with it on
   * @param after with it off again
   */
  Verdict judge(Look before, Look during, Look after);
}
