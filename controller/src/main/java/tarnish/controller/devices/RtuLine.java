package tarnish.controller.devices;

import com.digitalpetri.modbus.ModbusRtuFrame;
import com.digitalpetri.modbus.ModbusRtuResponseFrameParser;
import com.digitalpetri.modbus.ModbusRtuResponseFrameParser.Accumulated;
import com.digitalpetri.modbus.ModbusRtuResponseFrameParser.ParseError;
import com.digitalpetri.modbus.ModbusRtuResponseFrameParser.ParserState;
import com.digitalpetri.modbus.client.ModbusRtuClientTransport;
import com.fazecast.jSerialComm.SerialPort;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.function.Consumer;
import tarnish.controller.devices.setup.DeviceSpec.SerialLine;

/**
 * The serial line under Modbus RTU.
 *
 * <p>The library brings one of its own, but that one writes for ever once the other end has
 * vanished. This one reads on a thread of its own and calls the line lost as soon as a read gives
 * -1 or a write less than all.
 */
final class RtuLine implements ModbusRtuClientTransport {
  private static final long JOIN_MILLIS = 1_000;

  private final SerialLine line;
  private final ModbusRtuResponseFrameParser parser = new ModbusRtuResponseFrameParser();
  private volatile Consumer<ModbusRtuFrame> consumer = frame -> {};
  private volatile boolean lost;
  private volatile boolean closing;
  private volatile long heardNanos;
  private SerialPort port;
  private Thread reader;

  RtuLine(SerialLine line) {
    this.line = line;
  }

  @Override
  public CompletionStage<Void> connect() {
    try {
      port = SerialPorts.open(line);
    } catch (DeviceTrouble e) {
      return CompletableFuture.failedFuture(new IOException(e.getMessage()));
    }
    lost = false;
    closing = false;
    reader = new Thread(this::read, "modbus line " + line.port());
    reader.setDaemon(true);
    reader.start();
    return CompletableFuture.completedFuture(null);
  }

  private void read() {
    byte[] buffer = new byte[256];
    while (!closing) {
      int count = port.readBytes(buffer, buffer.length);
      if (count < 0) {
        lost = true;
        return;
      }
      if (count > 0) {
        heardNanos = System.nanoTime();
        hear(Arrays.copyOf(buffer, count));
      }
    }
  }

  /** Takes up what came over the line, in pieces of any length. */
  void hear(byte[] bytes) {
    ModbusRtuFrame frame = null;
    synchronized (parser) {
      ParserState state = parse(bytes);
      if (state instanceof Accumulated accumulated) {
        frame = accumulated.frame();
      }
      if (frame != null || state instanceof ParseError) {
        parser.reset();
      }
    }
    if (frame != null) {
      consumer.accept(frame);
    }
  }

  /**
   * A line that floods overruns the parser's buffer, which throws: the reader must outlive that, so
   * the flood is dropped and the next frame begins afresh.
   */
  private ParserState parse(byte[] bytes) {
    try {
      return parser.parse(bytes);
    } catch (RuntimeException flooded) {
      return parser.reset();
    }
  }

  @Override
  public CompletionStage<Void> send(ModbusRtuFrame frame) {
    ByteBuffer pdu = frame.pdu().duplicate();
    ByteBuffer crc = frame.crc().duplicate();
    ByteBuffer out = ByteBuffer.allocate(1 + pdu.remaining() + crc.remaining());
    out.put((byte) frame.unitId()).put(pdu).put(crc);
    byte[] bytes = out.array();
    if (lost || port.writeBytes(bytes, bytes.length) != bytes.length) {
      lost = true;
      return CompletableFuture.failedFuture(new IOException("the other end is gone"));
    }
    return CompletableFuture.completedFuture(null);
  }

  @Override
  public CompletionStage<Void> disconnect() {
    closing = true;
    if (reader != null) {
      try {
        reader.join(JOIN_MILLIS);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
      port.closePort();
      reader = null;
    }
    return CompletableFuture.completedFuture(null);
  }

  @Override
  public boolean isConnected() {
    return reader != null && !lost;
  }

  @Override
  public void receive(Consumer<ModbusRtuFrame> taker) {
    consumer = taker;
  }

  @Override
  public void resetFrameParser() {
    synchronized (parser) {
      parser.reset();
    }
  }

  /** When something was heard last, in ns of the monotonic clock. */
  long heardNanos() {
    return heardNanos;
  }
}
