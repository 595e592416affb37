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

  private SerialPorts() {}

  static void set(SerialPort port, SerialLine line) {
    port.setComPortParameters(line.baud(), DATA_BITS, stopBits(line), parity(line.parity()));
    port.setFlowControl(SerialPort.FLOW_CONTROL_DISABLED);
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
