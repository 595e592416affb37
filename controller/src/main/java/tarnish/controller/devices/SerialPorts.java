package tarnish.controller.devices;

import com.fazecast.jSerialComm.SerialPort;
import tarnish.controller.devices.setup.DeviceSpec.Parity;
import tarnish.controller.devices.setup.DeviceSpec.SerialLine;

/** The library's words for a serial line. */
final class SerialPorts {
  static final int DATA_BITS = 8;

  private SerialPorts() {}

  static void set(SerialPort port, SerialLine line) {
    port.setComPortParameters(line.baud(), DATA_BITS, stopBits(line), parity(line.parity()));
    port.setFlowControl(SerialPort.FLOW_CONTROL_DISABLED);
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
