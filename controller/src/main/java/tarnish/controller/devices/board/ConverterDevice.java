package tarnish.controller.devices.board;

import java.util.Locale;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.function.Supplier;
import tarnish.controller.devices.setup.DeviceSpec;
import tarnish.controller.devices.setup.InputPlace;
import tarnish.controller.devices.setup.InputSpec;

/** An MCP3208 on SPI or an ADS1115 on I2C. */
public final class ConverterDevice extends BoardDevice {
  /** Bears any supply from 2.7 V on; data sheet DS21298. */
  private static final int MCP3208_HERTZ = 1_000_000;

  private static final int READY_TRIES = 5;

  private final DeviceSpec.Link link;
  private BoardPorts.Spi spi;
  private BoardPorts.I2c i2c;

  public ConverterDevice(DeviceSpec spec, Supplier<BoardPorts> board) {
    super(spec, board);
    this.link = spec.link();
  }

  @Override
  void open(BoardPorts ports) {
    if (link instanceof DeviceSpec.SpiChip chip) {
      spi = ports.spi(chip.bus(), chip.select(), 0, MCP3208_HERTZ);
    } else {
      DeviceSpec.I2cChip chip = (DeviceSpec.I2cChip) link;
      i2c = ports.i2c(chip.bus(), chip.address());
    }
  }

  @Override
  Answer answer(InputSpec input) {
    InputPlace.Analogue where = (InputPlace.Analogue) input.where();
    double volts = spi != null ? overSpi(where) : overI2c(where);
    return new Answer(input.scaling().value(volts), String.format(Locale.ROOT, "%.6f V", volts));
  }

  private double overSpi(InputPlace.Analogue where) {
    byte[] answer = spi.transfer(Mcp3208Frame.question(where.number()));
    return Mcp3208Frame.decode(answer, where.fullScaleV()).volts();
  }

  private double overI2c(InputPlace.Analogue where) {
    int configuration = Ads1115Frame.configuration(where.number(), where.fullScaleV());
    i2c.write(Ads1115Frame.CONFIGURATION, configuration);
    for (int i = 0; i < READY_TRIES; i++) {
      LockSupport.parkNanos(TimeUnit.MILLISECONDS.toNanos(Ads1115Frame.CONVERSION_MILLIS));
      if (Ads1115Frame.isReady(i2c.read(Ads1115Frame.CONFIGURATION))) {
        int code = i2c.read(Ads1115Frame.CONVERSION);
        return Ads1115Frame.decode(code, where.fullScaleV()).volts();
      }
    }
    throw new IllegalStateException("a conversion does not end");
  }

  @Override
  public void close() {
    closeQuietly(spi);
    closeQuietly(i2c);
    spi = null;
    i2c = null;
  }
}
