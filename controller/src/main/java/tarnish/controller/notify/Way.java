package tarnish.controller.notify;

import java.io.IOException;

/** One way to reach a person. Called by the notifier's thread only; may take some seconds. */
interface Way {
  String name();

  /**
   * Hands a message over.
   *
   * @param bench name of the bench
   * @param others how many more messages are told in this one's text
   * @throws IOException if it was not taken; it is then tried again later
   */
  void send(String bench, Notice notice, int others) throws IOException;
}
