package tarnish.controller.devices.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import tarnish.controller.devices.Device;
import tarnish.controller.devices.setup.DeviceSpec;
import tarnish.controller.devices.setup.DeviceSpec.ChipKind;
import tarnish.controller.devices.setup.DeviceSpec.ChipSettings;
import tarnish.controller.devices.setup.InputPlace;
import tarnish.controller.devices.setup.InputPlace.Pull;
import tarnish.controller.devices.setup.InputSpec;
import tarnish.controller.devices.setup.Scaling;
import tarnish.shared.quantity.Dimension;
import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Reading;
import tarnish.shared.rig.SensorElement;
import tarnish.shared.sensors.CurrentLoop;

/** What each chip's device sends over the bus and makes of what comes back. */
class ChipDevicesTest {
  private final FakePorts ports = new FakePorts();

  private static DeviceSpec chip(ChipKind kind, ChipSettings settings, boolean terminals) {
    return new DeviceSpec(
        "chip",
        0.1,
        new DeviceSpec.SpiChip(kind, 0, 1, settings),
        DeviceSpec.chipInputs(terminals, 0.25),
        List.of());
  }

  private Device frontEnd(DeviceSpec spec) throws Exception {
    Device device = new FrontEndDevice(spec, (DeviceSpec.SpiChip) spec.link(), () -> ports);
    device.open();
    return device;
  }

  @Test
  void aMax31856IsConfiguredFirstAndThenReadInOneGo() throws Exception {
    DeviceSpec spec =
        chip(
            ChipKind.MAX31856,
            new ChipSettings(Optional.of(SensorElement.THERMOCOUPLE_N), false, 0, false),
            true);
    Device device = frontEnd(spec);
    ports.answers.add("00" + "9124" + "00".repeat(8) + "1900" + "fffff0" + "00");
    Device.Answer answer = device.ask(spec.inputs().get(0));
    assertEquals(List.of("809124", "00".repeat(17)), ports.sent);
    // FFFFF0h in steps of 2⁻⁷ °C, upper 19 bits: -1 step.
    double kelvin = assertInstanceOf(Reading.Good.class, answer.reading()).value();
    assertEquals(273.15 - 1 / 128.0, kelvin, 1e-9);
  }

  @Test
  void aMax31856ThatLostItsSupplyIsAFaultOnceAndConfiguredAgain() throws Exception {
    DeviceSpec spec =
        chip(
            ChipKind.MAX31856,
            new ChipSettings(Optional.of(SensorElement.THERMOCOUPLE_N), false, 0, false),
            true);
    Device device = frontEnd(spec);
    ports.answers.add("00" + "0003" + "00".repeat(14));
    Device.Answer answer = device.ask(spec.inputs().get(0));
    assertEquals(new Reading.Bad(BadReason.DEVICE_FAULT), answer.reading());
    assertEquals("809124", ports.sent.get(2));
  }

  @Test
  void aMax31865ForgetsItsFaultsOnceToldOfThem() throws Exception {
    DeviceSpec spec =
        chip(
            ChipKind.MAX31865,
            new ChipSettings(Optional.of(SensorElement.PT100), false, 400, true),
            false);
    Device device = frontEnd(spec);
    ports.answers.add("00" + "d10001" + "ffff0000" + "40");
    ports.answers.add("00" + "d14000" + "ffff0000" + "00");
    assertEquals(
        new Reading.Bad(BadReason.SHORT_CIRCUIT), device.ask(spec.inputs().get(0)).reading());
    Reading good = device.ask(spec.inputs().get(0)).reading();
    assertEquals(273.15, assertInstanceOf(Reading.Good.class, good).value(), 1e-9);
    assertEquals(List.of("80d3", "00".repeat(9), "80d3", "00".repeat(9)), ports.sent);
  }

  @Test
  void aLoopOverAShuntFollowsItsConverterAndNe43() throws Exception {
    InputSpec input =
        new InputSpec(
            "PT1",
            new InputPlace.Analogue(2, 4.096),
            new Scaling.Loop(1 / 150.0, new CurrentLoop(0, 2e5), Dimension.PRESSURE),
            0.1);
    DeviceSpec spec =
        new DeviceSpec("adc", 0.1, new DeviceSpec.I2cChip(1, 0x48), List.of(input), List.of());
    ConverterDevice device = new ConverterDevice(spec, () -> ports);
    device.open();
    ports.registers[Ads1115Frame.CONVERSION] = 0x3840; // 14400 · 125 µV = 1.8 V = 12 mA
    Reading half = device.ask(input).reading();
    assertEquals(1e5, assertInstanceOf(Reading.Good.class, half).value(), 1e-6);
    assertEquals(0xE383, ports.registers[Ads1115Frame.CONFIGURATION]);
    ports.registers[Ads1115Frame.CONVERSION] = 0xFFFE;
    assertEquals(new Reading.Bad(BadReason.OPEN_CIRCUIT), device.ask(input).reading());
    ports.registers[Ads1115Frame.CONVERSION] = 0x6E00; // 28160 · 125 µV = 3.52 V = 23.5 mA
    assertEquals(new Reading.Bad(BadReason.DEVICE_FAULT), device.ask(input).reading());
  }

  /** A board whose chips answer what a test laid ready. */
  private static final class FakePorts implements BoardPorts {
    final Deque<String> answers = new ArrayDeque<>();
    final List<String> sent = new ArrayList<>();
    final int[] registers = new int[4];

    @Override
    public Spi spi(int bus, int select, int mode, int hertz) {
      return new Spi() {
        @Override
        public byte[] transfer(byte[] out) {
          sent.add(HexFormat.of().formatHex(out));
          boolean write = (out[0] & 0x80) != 0;
          return write ? new byte[out.length] : HexFormat.of().parseHex(answers.remove());
        }

        @Override
        public void close() {}
      };
    }

    @Override
    public I2c i2c(int bus, int address) {
      return new I2c() {
        @Override
        public void write(int register, int value) {
          registers[register] = value;
        }

        @Override
        public int read(int register) {
          return registers[register];
        }

        @Override
        public void close() {}
      };
    }

    @Override
    public OutputPin output(int number, boolean offIsHigh) {
      throw new UnsupportedOperationException();
    }

    @Override
    public InputPin input(int number, Pull pull) {
      throw new UnsupportedOperationException();
    }

    @Override
    public void close() {}
  }
}
