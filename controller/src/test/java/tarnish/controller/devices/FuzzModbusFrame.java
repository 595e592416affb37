package tarnish.controller.devices;

import com.digitalpetri.modbus.ModbusRtuFrame;
import com.digitalpetri.modbus.client.ModbusRtuClient;
import com.digitalpetri.modbus.client.ModbusRtuClientTransport;
import com.digitalpetri.modbus.pdu.ModbusResponsePdu;
import com.digitalpetri.modbus.pdu.ReadHoldingRegistersRequest;
import com.digitalpetri.modbus.pdu.ReadHoldingRegistersResponse;
import java.time.Duration;
import java.util.Arrays;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.CompletionStage;
import java.util.function.Consumer;
import tarnish.controller.devices.setup.DeviceSpec.SerialLine;
import tarnish.controller.devices.setup.Register;

/**
 * Any bytes as what comes over a serial line after a question for registers. The first byte says
 * how many registers were asked for and in pieces of what length the rest comes.
 */
public final class FuzzModbusFrame {
  private static final int STATION = 1;

  private FuzzModbusFrame() {}

  public static void fuzzerTestOneInput(byte[] data) throws Exception {
    if (data.length < 2) {
      return;
    }
    int registers = 1 + (data[0] & 1);
    int piece = 1 + ((data[0] >> 1) & 15);
    Wire wire = new Wire(Arrays.copyOfRange(data, 1, data.length), piece);
    ModbusRtuClient client =
        ModbusRtuClient.create(wire, it -> it.setRequestTimeout(Duration.ofSeconds(2)));
    client.connect();
    CompletableFuture<ModbusResponsePdu> answer =
        client
            .sendAsync(STATION, new ReadHoldingRegistersRequest(0, registers))
            .toCompletableFuture();
    if (!answer.isDone()) {
      answer.cancel(false);
      return;
    }
    try {
      ModbusResponsePdu pdu = answer.join();
      if (pdu instanceof ReadHoldingRegistersResponse read) {
        numbers(read.registers());
      }
    } catch (CompletionException e) {
      if (!(e.getCause() instanceof Exception)) {
        throw new AssertionError("neither an answer nor a refusal", e);
      }
    }
  }

  /** As the device does it: fewer bytes than asked for are refused, the rest are numbers. */
  private static void numbers(byte[] bytes) {
    for (Register.Kind kind : Register.Kind.values()) {
      for (Register.WordOrder order : Register.WordOrder.values()) {
        if (bytes.length == 2 * kind.registers()) {
          Register.number(bytes, kind, order);
        }
      }
    }
  }

  /** The real line without a port: an order is answered with the bytes to be tried. */
  private static final class Wire implements ModbusRtuClientTransport {
    private final RtuLine line = new RtuLine((SerialLine) null);
    private final byte[] bytes;
    private final int piece;

    Wire(byte[] bytes, int piece) {
      this.bytes = bytes;
      this.piece = piece;
    }

    @Override
    public CompletionStage<Void> send(ModbusRtuFrame frame) {
      for (int at = 0; at < bytes.length; at += piece) {
        line.hear(Arrays.copyOfRange(bytes, at, StrictMath.min(bytes.length, at + piece)));
      }
      return CompletableFuture.completedFuture(null);
    }

    @Override
    public CompletionStage<Void> connect() {
      return CompletableFuture.completedFuture(null);
    }

    @Override
    public CompletionStage<Void> disconnect() {
      return CompletableFuture.completedFuture(null);
    }

    @Override
    public boolean isConnected() {
      return true;
    }

    @Override
    public void receive(Consumer<ModbusRtuFrame> taker) {
      line.receive(taker);
    }

    @Override
    public void resetFrameParser() {
      line.resetFrameParser();
    }
  }
}
