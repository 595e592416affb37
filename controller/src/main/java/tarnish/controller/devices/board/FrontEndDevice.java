package tarnish.controller.devices.board;

import java.util.HexFormat;
import java.util.function.Supplier;
import tarnish.controller.devices.setup.DeviceSpec;
import tarnish.controller.devices.setup.DeviceSpec.ChipSettings;
import tarnish.controller.devices.setup.InputPlace;
import tarnish.controller.devices.setup.InputPlace.Spot;
import tarnish.controller.devices.setup.InputSpec;
import tarnish.shared.reading.Reading;
import tarnish.shared.rig.SensorElement;
import tarnish.shared.sensors.PlatinumResistance;
import tarnish.shared.sensors.Thermocouple;

/** A MAX31855, MAX31856 or MAX31865 on SPI. */
public final class FrontEndDevice extends BoardDevice {
  /** Modes by the data sheets: the MAX31855 shifts on mode 0, the other two on 1 or 3. */
  private static final int MODE_0 = 0;

  private static final int MODE_1 = 1;

  /** Well below the 5 MHz that all three bear, for cables of a hand's length. Common practice. */
  private static final int HERTZ = 1_000_000;

  private static final int WRITE = 0x80;

  private final DeviceSpec.SpiChip chip;
  private final ChipSettings settings;
  private BoardPorts.Spi spi;

  public FrontEndDevice(DeviceSpec spec, DeviceSpec.SpiChip chip, Supplier<BoardPorts> board) {
    super(spec, board);
    this.chip = chip;
    this.settings = chip.settings();
  }

  private SensorElement element() {
    return settings.element().orElseThrow();
  }

  private Thermocouple type() {
    return Thermocouple.valueOf(element().name().substring("THERMOCOUPLE_".length()));
  }

  private int rtdConfiguration() {
    return Max31865Frame.configuration(settings.threeWires(), settings.mains60Hz());
  }

  @Override
  void open(BoardPorts ports) {
    int mode = chip.kind() == DeviceSpec.ChipKind.MAX31855 ? MODE_0 : MODE_1;
    spi = ports.spi(chip.bus(), chip.select(), mode, HERTZ);
    configure();
  }

  private void configure() {
    switch (chip.kind()) {
      case MAX31856 ->
          spi.transfer(
              new byte[] {
                (byte) WRITE,
                (byte) Max31856Frame.configuration0(settings.mains60Hz()),
                (byte) Max31856Frame.configuration1(type())
              });
      case MAX31865 ->
          spi.transfer(
              new byte[] {(byte) WRITE, (byte) (rtdConfiguration() | Max31865Frame.FORGET_FAULTS)});
      default -> {
        // A MAX31855 has nothing to be told.
      }
    }
  }

  @Override
  Answer answer(InputSpec input) {
    Spot spot = ((InputPlace.Chip) input.where()).spot();
    return switch (chip.kind()) {
      case MAX31855 -> {
        byte[] frame = spi.transfer(new byte[4]);
        Max31855Frame read = Max31855Frame.decode(frame, type());
        yield answer(spot == Spot.SENSOR ? read.sensor() : read.terminals(), frame);
      }
      case MAX31856 -> {
        byte[] registers = registers(Max31856Frame.LENGTH);
        Max31856Frame read = Max31856Frame.decode(registers, type(), settings.mains60Hz());
        configureAgainUnless(read.configured());
        yield answer(spot == Spot.SENSOR ? read.sensor() : read.terminals(), registers);
      }
      case MAX31865 -> {
        byte[] registers = registers(Max31865Frame.LENGTH);
        Max31865Frame read =
            Max31865Frame.decode(
                registers,
                rtdConfiguration(),
                PlatinumResistance.valueOf(element().name()),
                settings.referenceOhm());
        // Faults stay until they are forgotten, so that a loose contact is seen; once is enough.
        configureAgainUnless(read.configured() && read.sensor() instanceof Reading.Good);
        yield answer(read.sensor(), registers);
      }
      case MCP3208 -> throw new IllegalStateException("a converter is no front end");
    };
  }

  private void configureAgainUnless(boolean good) {
    if (!good) {
      configure();
    }
  }

  private byte[] registers(int count) {
    byte[] in = spi.transfer(new byte[count + 1]);
    byte[] registers = new byte[count];
    System.arraycopy(in, 1, registers, 0, count);
    return registers;
  }

  private static Answer answer(Reading reading, byte[] raw) {
    return new Answer(reading, HexFormat.of().formatHex(raw));
  }

  @Override
  public void close() {
    closeQuietly(spi);
    spi = null;
  }
}
