package tarnish.controller.devices.setup;

import tarnish.controller.devices.setup.Register.Kind;
import tarnish.controller.devices.setup.Register.Table;
import tarnish.controller.devices.setup.Register.WordOrder;

/** Where in its device an input is found; each kind of device knows its own. */
public sealed interface InputPlace {
  /** A question to a line instrument, and what the answer must look like. */
  record Question(String ask, ReplyPattern answer) implements InputPlace {}

  /**
   * A value in a Modbus table.
   *
   * @param station address of the unit on the line, 1 to 247
   * @param address from 0, as in the frame
   */
  record InRegister(int station, Table table, int address, Kind kind, WordOrder order)
      implements InputPlace {}

  /** A digital input of the board, by the number the operating system gives it. */
  record Pin(int number, Pull pull) implements InputPlace {}

  /**
   * An input of a converter.
   *
   * @param number from 0
   * @param fullScaleV converter range in V
   */
  record Analogue(int number, double fullScaleV) implements InputPlace {}

  /** What a front-end chip measures at its far end or at its own terminals. */
  record Chip(Spot spot) implements InputPlace {}

  /** Which of the two temperatures of a front-end chip. */
  enum Spot {
    SENSOR,
    TERMINALS
  }

  /** Resistor that holds an input pin; the words are those of a rig file. */
  enum Pull {
    UP("up"),
    DOWN("down"),
    NONE("none");

    private final String words;

    Pull(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }
  }
}
