package tarnish.controller.devices;

import java.util.function.Supplier;
import tarnish.controller.devices.board.BoardPorts;
import tarnish.controller.devices.board.ConverterDevice;
import tarnish.controller.devices.board.FrontEndDevice;
import tarnish.controller.devices.board.Pi4jPorts;
import tarnish.controller.devices.board.PinsDevice;
import tarnish.controller.devices.setup.DeviceSpec;

/** Makes the adapter of each device; the board's pins and buses are opened when first needed. */
public final class Adapters implements AutoCloseable {
  private final Supplier<BoardPorts> opener;
  private BoardPorts board;

  public Adapters() {
    this(Pi4jPorts::open);
  }

  public Adapters(Supplier<BoardPorts> opener) {
    this.opener = opener;
  }

  public Device of(DeviceSpec spec) {
    DeviceSpec.Link link = spec.link();
    if (link instanceof DeviceSpec.Lines lines) {
      return new LineDevice(spec, lines);
    }
    if (link instanceof DeviceSpec.Pins) {
      return new PinsDevice(spec, this::board);
    }
    if (link instanceof DeviceSpec.SpiChip chip && chip.settings().element().isPresent()) {
      return new FrontEndDevice(spec, chip, this::board);
    }
    if (link instanceof DeviceSpec.SpiChip || link instanceof DeviceSpec.I2cChip) {
      return new ConverterDevice(spec, this::board);
    }
    return new ModbusDevice(spec);
  }

  private synchronized BoardPorts board() {
    if (board == null) {
      board = opener.get();
    }
    return board;
  }

  @Override
  public synchronized void close() {
    if (board != null) {
      board.close();
      board = null;
    }
  }
}
