package tarnish.controller.devices;

import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;
import tarnish.controller.devices.DeviceTrouble.Kind;
import tarnish.controller.devices.setup.DeviceSpec.Parity;
import tarnish.controller.devices.setup.DeviceSpec.SerialLine;

/** The library's words for a serial line. */
final class SerialPorts {
  static final int DATA_BITS = 8;

  /** Read timeouts of serial ports come in tenths of a second on Linux. */
  private static final int READ_MILLIS = 100;

  private static final long LONGEST_LISTEN_MILLIS = 5_000;

  private SerialPorts() {}

  static void set(SerialPort port, SerialLine line) {
    port.setComPortParameters(line.baud(), DATA_BITS, stopBits(line), parity(line.parity()));
    port.setFlowControl(SerialPort.FLOW_CONTROL_DISABLED);
  }

  /**
   * Reads and forgets what comes, until nothing has come for {@code quietMillis} or the patience is
   * over.
   */
  static void listenUntilQuiet(SerialLine line, long quietMillis) throws DeviceTrouble {
    SerialPort port = open(line);
    byte[] buffer = new byte[256];
    long end = System.nanoTime() + LONGEST_LISTEN_MILLIS * 1_000_000;
    long quietSince = System.nanoTime();
    try {
      while (System.nanoTime() < end && System.nanoTime() - quietSince < quietMillis * 1_000_000) {
        int count = port.readBytes(buffer, buffer.length);
        if (count < 0) {
          throw new DeviceTrouble(Kind.LOST, "the line went dead while listening");
        }
        if (count > 0) {
          quietSince = System.nanoTime();
        }
      }
    } finally {
      port.closePort();
    }
  }

  static SerialPort open(SerialLine line) throws DeviceTrouble {
    SerialPort port;
    try {
      port = SerialPort.getCommPort(line.port());
    } catch (SerialPortInvalidPortException e) {
      throw new DeviceTrouble(Kind.LOST, "there is no port " + line.port());
    }
    set(port, line);
    port.setComPortTimeouts(SerialPort.TIMEOUT_READ_SEMI_BLOCKING, READ_MILLIS, 0);
    if (!port.openPort(0)) {
      throw new DeviceTrouble(
          Kind.LOST,
          "the port "
              + line.port()
              + " cannot be opened (is another program using it, may this user use it?)");
    }
    return port;
  }

  static int stopBits(SerialLine line) {
    return line.stopBits() == 2 ? SerialPort.TWO_STOP_BITS : SerialPort.ONE_STOP_BIT;
  }

  static int parity(Parity parity) {
    return switch (parity) {
      case NONE -> SerialPort.NO_PARITY;
      case EVEN -> SerialPort.EVEN_PARITY;
      case ODD -> SerialPort.ODD_PARITY;
    };
  }
}
