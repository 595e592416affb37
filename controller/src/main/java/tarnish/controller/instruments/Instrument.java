package tarnish.controller.instruments;

/** A pretended instrument at the far end of a wire. One thread at a time. */
interface Instrument {
  byte[] NOTHING = new byte[0];

  /**
   * Hears what came over the wire.
   *
   * @param bytes some of a question, one question or more
   * @return the answer, empty while there is none to give
   */
  byte[] hear(byte[] bytes);
}
