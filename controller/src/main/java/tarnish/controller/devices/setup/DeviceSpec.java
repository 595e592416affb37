package tarnish.controller.devices.setup;

import java.util.List;
import java.util.Optional;
import tarnish.controller.devices.setup.InputPlace.Spot;
import tarnish.shared.rig.SensorElement;

/**
 * One device as a rig file describes it.
 *
 * @param name within the rig
 * @param answerWithinS longest wait for an answer in s
 * @param link how it is reached
 * @param inputs what it can tell
 * @param outputs what it can be told
 */
public record DeviceSpec(
    String name,
    double answerWithinS,
    Link link,
    List<InputSpec> inputs,
    List<OutputSpec> outputs) {
  public DeviceSpec {
    inputs = List.copyOf(inputs);
    outputs = List.copyOf(outputs);
  }

  public Optional<InputSpec> input(String wanted) {
    return inputs.stream().filter(input -> input.name().equals(wanted)).findFirst();
  }

  public Optional<OutputSpec> output(String wanted) {
    return outputs.stream().filter(output -> output.name().equals(wanted)).findFirst();
  }

  /** How a device is reached. */
  public sealed interface Link {
    /** What no two devices may share, in words. */
    String place();
  }

  /** A serial line with 8 data bits. */
  public record SerialLine(String port, int baud, Parity parity, int stopBits) {}

  /** Parity bit; the words are those of a rig file. */
  public enum Parity {
    NONE("none"),
    EVEN("even"),
    ODD("odd");

    private final String words;

    Parity(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }
  }

  /** End of a line; the words are those of a rig file. */
  public enum LineEnd {
    LF("LF", "\n"),
    CR("CR", "\r"),
    CR_LF("CR LF", "\r\n");

    private final String words;
    private final String letters;

    LineEnd(String words, String letters) {
      this.words = words;
      this.letters = letters;
    }

    public String words() {
      return words;
    }

    public String letters() {
      return letters;
    }
  }

  /** An instrument that answers in lines of text. */
  public record Lines(SerialLine line, LineEnd end) implements Link {
    @Override
    public String place() {
      return "port " + line.port();
    }
  }

  /** Modbus RTU on a serial line. */
  public record ModbusSerial(SerialLine line) implements Link {
    @Override
    public String place() {
      return "port " + line.port();
    }
  }

  /** Modbus TCP. */
  public record ModbusNetwork(String host, int port) implements Link {
    @Override
    public String place() {
      return host + ":" + port;
    }
  }

  /** The digital pins of the board. */
  public record Pins() implements Link {
    @Override
    public String place() {
      return "the board's pins";
    }
  }

  /** A chip on SPI. */
  public record SpiChip(ChipKind kind, int bus, int select, ChipSettings settings) implements Link {
    @Override
    public String place() {
      return "SPI bus " + bus + " select " + select;
    }
  }

  /** An ADS1115 on I2C. */
  public record I2cChip(int bus, int address) implements Link {
    @Override
    public String place() {
      return "I2C bus " + bus + " address " + String.format("0x%02X", address);
    }
  }

  /** Chips on SPI, named as their makers do. */
  public enum ChipKind {
    MAX31855,
    MAX31856,
    MAX31865,
    MCP3208
  }

  /**
   * What a chip is told or must be known of it.
   *
   * @param element thermocouple or platinum element at its input; empty for a converter
   * @param mains60Hz whether its filter is for 60 Hz and not 50 Hz
   * @param referenceOhm reference resistor of an RTD front end in Ω
   * @param threeWires whether the RTD has three wires
   */
  public record ChipSettings(
      Optional<SensorElement> element, boolean mains60Hz, double referenceOhm, boolean threeWires) {
    public static final ChipSettings CONVERTER =
        new ChipSettings(Optional.empty(), false, 0, false);
  }

  /** The inputs of a front-end chip. */
  public static List<InputSpec> chipInputs(boolean withTerminals, double everyS) {
    InputSpec sensor =
        new InputSpec("sensor", new InputPlace.Chip(Spot.SENSOR), new Scaling.Kelvin(), everyS);
    return withTerminals
        ? List.of(
            sensor,
            new InputSpec(
                "terminals", new InputPlace.Chip(Spot.TERMINALS), new Scaling.Kelvin(), everyS))
        : List.of(sensor);
  }
}
