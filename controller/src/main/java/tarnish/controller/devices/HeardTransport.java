package tarnish.controller.devices;

import com.digitalpetri.modbus.ModbusRtuFrame;
import com.digitalpetri.modbus.serial.SerialPortTransportConfig;
import com.digitalpetri.modbus.serial.client.SerialPortClientTransport;
import java.util.function.Consumer;

/** The library's serial line, which also tells when it last heard a frame. */
final class HeardTransport extends SerialPortClientTransport {
  private volatile long heardNanos;

  HeardTransport(SerialPortTransportConfig config) {
    super(config);
  }

  @Override
  public void receive(Consumer<ModbusRtuFrame> consumer) {
    super.receive(
        frame -> {
          heardNanos = System.nanoTime();
          consumer.accept(frame);
        });
  }

  long heardNanos() {
    return heardNanos;
  }
}
