package tarnish.controller.files;

/** Refuses outputs that are energised before the program has said anything. */
final class PowerUp {
  private PowerUp() {}

  private enum State {
    OFF("off"),
    ON("on");

    private final String words;

    State(String words) {
      this.words = words;
    }

    String words() {
      return words;
    }
  }

  /** What the device does with this output when it gets power and no orders. */
  static void refuseEnergised(Fields fields, String output) {
    if (fields.word("at power-up", State.values(), State::words) == State.ON) {
      refuse(fields, "at power-up", output);
    }
  }

  static void refuse(Fields fields, String key, String output) {
    fields.fault(
        key,
        output + " energised at power-up",
        "every output off until it is told otherwise: rewire or set up the device so, then say"
            + " what it does");
  }
}
