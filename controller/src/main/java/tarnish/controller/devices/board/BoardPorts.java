package tarnish.controller.devices.board;

import tarnish.controller.devices.setup.InputPlace.Pull;

/**
 * The pins and buses of the board, as little of them as the devices need, so that tests can stand
 * in for chips. Failures come as {@link RuntimeException}s of the library behind it.
 */
public interface BoardPorts extends AutoCloseable {
  /** A chip on SPI. */
  interface Spi extends AutoCloseable {
    /** Sends {@code out} and gives back as many bytes that came meanwhile. */
    byte[] transfer(byte[] out);

    @Override
    void close();
  }

  /** A chip on I2C with 16-bit registers, high byte first. */
  interface I2c extends AutoCloseable {
    void write(int register, int value);

    int read(int register);

    @Override
    void close();
  }

  /** A digital output. */
  interface OutputPin extends AutoCloseable {
    /** Sets the pin, then gives back how it stands. */
    boolean set(boolean high);

    /** Leaves the pin at its level for off. */
    @Override
    void close();
  }

  /** A digital input. */
  interface InputPin extends AutoCloseable {
    boolean isHigh();

    @Override
    void close();
  }

  Spi spi(int bus, int select, int mode, int hertz);

  I2c i2c(int bus, int address);

  /**
   * @param offIsHigh level for off: what the pin is set to first, and when it is let go
   */
  OutputPin output(int number, boolean offIsHigh);

  InputPin input(int number, Pull pull);

  @Override
  void close();
}
