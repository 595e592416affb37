package tarnish.controller.devices.board;

import com.pi4j.Pi4J;
import com.pi4j.context.Context;
import com.pi4j.io.gpio.digital.DigitalInput;
import com.pi4j.io.gpio.digital.DigitalOutput;
import com.pi4j.io.gpio.digital.DigitalState;
import com.pi4j.io.gpio.digital.PullResistance;
import com.pi4j.io.i2c.I2C;
import com.pi4j.io.spi.Spi;
import com.pi4j.io.spi.SpiBus;
import com.pi4j.io.spi.SpiChipSelect;
import com.pi4j.io.spi.SpiMode;
import java.util.function.Supplier;
import tarnish.controller.devices.setup.InputPlace.Pull;

/**
 * The board's pins and buses through Pi4J.
 *
 * <p>Pi4J 2.8 lets no two things in one context have the same address, even a pin and a chip on
 * another bus; so every chip gets a context of its own, and the pins share one.
 */
public final class Pi4jPorts implements BoardPorts {
  private final Supplier<Context> contexts;
  private final Context pins;

  public Pi4jPorts(Supplier<Context> contexts) {
    this.contexts = contexts;
    this.pins = contexts.get();
  }

  /** Takes the providers that the class path and the board offer. */
  public static Pi4jPorts open() {
    return new Pi4jPorts(Pi4J::newAutoContext);
  }

  @Override
  public Spi spi(int bus, int select, int mode, int hertz) {
    String id = "spi-" + bus + "-" + select;
    Context context = contexts.get();
    com.pi4j.io.spi.Spi spi =
        created(
            context,
            () ->
                context.create(
                    com.pi4j.io.spi.Spi.newConfigBuilder(context)
                        .id(id)
                        .bus(SpiBus.getByNumber(bus))
                        .address(select)
                        .chipSelect(SpiChipSelect.getByNumber(select))
                        .mode(SpiMode.getByNumber(mode))
                        .baud(hertz)
                        .build()));
    return new Spi() {
      @Override
      public byte[] transfer(byte[] out) {
        byte[] in = new byte[out.length];
        int count = spi.transfer(out, 0, in, 0, out.length);
        if (count != out.length) {
          throw new IllegalStateException(count + " of " + out.length + " bytes came over " + id);
        }
        return in;
      }

      @Override
      public void close() {
        context.shutdown();
      }
    };
  }

  /** A context whose only chip is not there is of no use, and would pile up with every try. */
  private static <T> T created(Context context, Supplier<T> create) {
    try {
      return create.get();
    } catch (RuntimeException | LinkageError e) {
      context.shutdown();
      throw e;
    }
  }

  @Override
  public I2c i2c(int bus, int address) {
    String id = "i2c-" + bus + "-" + address;
    Context context = contexts.get();
    I2C chip =
        created(
            context,
            () ->
                context.create(
                    I2C.newConfigBuilder(context).id(id).bus(bus).device(address).build()));
    return new I2c() {
      @Override
      public void write(int register, int value) {
        chip.writeRegister(register, new byte[] {(byte) (value >> 8), (byte) value}, 0, 2);
      }

      @Override
      public int read(int register) {
        byte[] in = new byte[2];
        int count = chip.readRegister(register, in, 0, 2);
        if (count != 2) {
          throw new IllegalStateException(count + " of 2 bytes came over " + id);
        }
        return (in[0] & 0xFF) << 8 | in[1] & 0xFF;
      }

      @Override
      public void close() {
        context.shutdown();
      }
    };
  }

  @Override
  public OutputPin output(int number, boolean offIsHigh) {
    String id = "output-" + number;
    DigitalState off = DigitalState.getState(offIsHigh);
    DigitalOutput pin =
        pins.create(
            DigitalOutput.newConfigBuilder(pins)
                .id(id)
                .address(number)
                .initial(off)
                .shutdown(off)
                .build());
    return new OutputPin() {
      @Override
      public boolean set(boolean high) {
        pin.state(DigitalState.getState(high));
        return pin.state() == DigitalState.HIGH;
      }

      @Override
      public void close() {
        pin.state(off);
        letGo(id);
      }
    };
  }

  @Override
  public InputPin input(int number, Pull pull) {
    String id = "input-" + number;
    PullResistance resistance =
        switch (pull) {
          case UP -> PullResistance.PULL_UP;
          case DOWN -> PullResistance.PULL_DOWN;
          case NONE -> PullResistance.OFF;
        };
    DigitalInput pin =
        pins.create(
            DigitalInput.newConfigBuilder(pins)
                .id(id)
                .address(number)
                .pull(resistance)
                .debounce(0L)
                .build());
    return new InputPin() {
      @Override
      public boolean isHigh() {
        return pin.state() == DigitalState.HIGH;
      }

      @Override
      public void close() {
        letGo(id);
      }
    };
  }

  private void letGo(String id) {
    if (pins.hasIO(id)) {
      pins.shutdown(id);
    }
  }

  @Override
  public void close() {
    pins.shutdown();
  }
}
