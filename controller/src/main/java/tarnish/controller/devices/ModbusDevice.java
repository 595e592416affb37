package tarnish.controller.devices;

import com.digitalpetri.modbus.client.ModbusClient;
import com.digitalpetri.modbus.client.ModbusRtuClient;
import com.digitalpetri.modbus.client.ModbusTcpClient;
import com.digitalpetri.modbus.exceptions.ModbusCrcException;
import com.digitalpetri.modbus.exceptions.ModbusExecutionException;
import com.digitalpetri.modbus.exceptions.ModbusResponseException;
import com.digitalpetri.modbus.exceptions.ModbusTimeoutException;
import com.digitalpetri.modbus.pdu.ReadCoilsRequest;
import com.digitalpetri.modbus.pdu.ReadDiscreteInputsRequest;
import com.digitalpetri.modbus.pdu.ReadHoldingRegistersRequest;
import com.digitalpetri.modbus.pdu.ReadInputRegistersRequest;
import com.digitalpetri.modbus.pdu.WriteSingleCoilRequest;
import com.digitalpetri.modbus.pdu.WriteSingleRegisterRequest;
import com.digitalpetri.modbus.tcp.client.NettyTcpClientTransport;
import java.io.IOException;
import java.time.Duration;
import java.util.HexFormat;
import java.util.concurrent.locks.LockSupport;
import tarnish.controller.devices.DeviceTrouble.Kind;
import tarnish.controller.devices.setup.DeviceSpec;
import tarnish.controller.devices.setup.InputPlace.InRegister;
import tarnish.controller.devices.setup.InputSpec;
import tarnish.controller.devices.setup.OutputPlace;
import tarnish.controller.devices.setup.OutputSpec;
import tarnish.controller.devices.setup.Register;
import tarnish.controller.devices.setup.Register.Table;

/** A Modbus unit, or several on one line, on RTU or TCP. */
final class ModbusDevice implements Device {
  /** A unit that answers later than this after its deadline is too slow to be used at all. */
  private static final long QUIET_MILLIS = 500;

  private static final long LONGEST_LISTEN_NANOS = 3_000_000_000L;
  private static final long LISTEN_NANOS = 10_000_000L;

  private final DeviceSpec.Link link;
  private final Duration timeout;
  private ModbusClient client;

  /** The line of {@code client}, null on a network: TCP answers name their question. */
  private RtuLine serial;

  ModbusDevice(DeviceSpec spec) {
    this.link = spec.link();
    this.timeout = Duration.ofMillis(StrictMath.round(spec.answerWithinS() * 1000));
  }

  @Override
  public void open() throws DeviceTrouble {
    connect();
    forgetLateAnswers();
  }

  /**
   * An RTU answer does not say which question it belongs to: a late one of the same length would be
   * taken for the answer to the next. So nothing is asked before the line has been quiet.
   */
  @Override
  public void forgetLateAnswers() {
    if (serial == null) {
      return;
    }
    long now = System.nanoTime();
    long end = now + LONGEST_LISTEN_NANOS;
    long quietSince = now;
    while (now < end && now - quietSince < quietMillis() * 1_000_000) {
      LockSupport.parkNanos(LISTEN_NANOS);
      now = System.nanoTime();
      quietSince = Math.max(quietSince, serial.heardNanos());
    }
    serial.resetFrameParser();
  }

  private long quietMillis() {
    return Math.max(QUIET_MILLIS, 2 * timeout.toMillis());
  }

  private void connect() throws DeviceTrouble {
    try {
      client = link instanceof DeviceSpec.ModbusSerial serial ? serial(serial) : network();
      client.connect();
    } catch (ModbusExecutionException | RuntimeException e) {
      close();
      throw new DeviceTrouble(Kind.LOST, link.place() + " cannot be opened: " + rootWords(e));
    }
  }

  private ModbusClient serial(DeviceSpec.ModbusSerial serial) {
    this.serial = new RtuLine(serial.line());
    return ModbusRtuClient.create(this.serial, it -> it.setRequestTimeout(timeout));
  }

  private ModbusClient network() {
    DeviceSpec.ModbusNetwork network = (DeviceSpec.ModbusNetwork) link;
    NettyTcpClientTransport transport =
        NettyTcpClientTransport.create(
            config ->
                config
                    .setHostname(network.host())
                    .setPort(network.port())
                    .setConnectTimeout(timeout)
                    .setConnectPersistent(false));
    return ModbusTcpClient.create(transport, config -> config.setRequestTimeout(timeout));
  }

  @Override
  public Answer ask(InputSpec input) throws DeviceTrouble {
    InRegister where = (InRegister) input.where();
    byte[] bytes = read(where.station(), where.table(), where.address(), where.kind().registers());
    double number =
        where.table().isOfBits()
            ? bytes[0] & 1
            : Register.number(bytes, where.kind(), where.order());
    return new Answer(input.scaling().value(number), HexFormat.of().formatHex(bytes));
  }

  private byte[] read(int station, Table table, int address, int count) throws DeviceTrouble {
    byte[] bytes =
        talk(
            () ->
                switch (table) {
                  case COIL ->
                      client.readCoils(station, new ReadCoilsRequest(address, count)).coils();
                  case DISCRETE_INPUT ->
                      client
                          .readDiscreteInputs(
                              station, new ReadDiscreteInputsRequest(address, count))
                          .inputs();
                  case INPUT_REGISTER ->
                      client
                          .readInputRegisters(
                              station, new ReadInputRegistersRequest(address, count))
                          .registers();
                  case HOLDING_REGISTER ->
                      client
                          .readHoldingRegisters(
                              station, new ReadHoldingRegistersRequest(address, count))
                          .registers();
                });
    int expected = table.isOfBits() ? 1 : 2 * count;
    if (bytes.length != expected) {
      throw new DeviceTrouble(
          Kind.GARBLED,
          bytes.length
              + " bytes came of "
              + table.words()
              + " "
              + address
              + ", expected "
              + expected);
    }
    return bytes;
  }

  @Override
  public void order(OutputSpec output, int value) throws DeviceTrouble {
    if (output.where() instanceof OutputPlace.DutyRegister duty) {
      int number = (int) StrictMath.round(duty.fullDuty() * value / 1000.0);
      write(duty.station(), Table.HOLDING_REGISTER, duty.address(), number, duty.verify());
    } else {
      OutputPlace.ToRegister to = (OutputPlace.ToRegister) output.where();
      boolean coil = to.table() == Table.COIL;
      int number = coil ? value : value != 0 ? to.on() : to.off();
      write(to.station(), to.table(), to.address(), number, to.verify());
    }
  }

  private void write(int station, Table table, int address, int number, boolean verify)
      throws DeviceTrouble {
    if (table == Table.COIL) {
      talk(() -> client.writeSingleCoil(station, new WriteSingleCoilRequest(address, number != 0)));
    } else {
      talk(
          () ->
              client.writeSingleRegister(station, new WriteSingleRegisterRequest(address, number)));
    }
    if (!verify) {
      return;
    }
    byte[] back = read(station, table, address, 1);
    int seen = table == Table.COIL ? back[0] & 1 : (back[0] & 0xFF) << 8 | back[1] & 0xFF;
    if (seen != number) {
      throw new DeviceTrouble(
          Kind.GARBLED,
          table.words() + " " + address + " was told " + number + " and reads back " + seen);
    }
  }

  private interface Talk<T> {
    T run() throws ModbusExecutionException, ModbusResponseException, ModbusTimeoutException;
  }

  private static <T> T talk(Talk<T> talk) throws DeviceTrouble {
    try {
      return talk.run();
    } catch (ModbusTimeoutException e) {
      throw new DeviceTrouble(Kind.SILENT, "no answer within the deadline");
    } catch (ModbusResponseException e) {
      throw new DeviceTrouble(
          Kind.REFUSED, "the unit refuses: exception code " + e.getExceptionCode());
    } catch (ModbusExecutionException e) {
      throw broken(e);
    } catch (RuntimeException e) {
      throw new DeviceTrouble(Kind.GARBLED, "a frame that is no answer: " + rootWords(e));
    }
  }

  private static DeviceTrouble broken(ModbusExecutionException e) {
    Throwable root = e;
    while (root.getCause() != null) {
      root = root.getCause();
    }
    if (root instanceof ModbusCrcException) {
      return new DeviceTrouble(Kind.GARBLED, "a frame with a wrong check sum");
    }
    return root instanceof IOException
        ? new DeviceTrouble(Kind.LOST, "the line went dead: " + rootWords(e))
        : new DeviceTrouble(Kind.GARBLED, "a frame that is no answer: " + rootWords(e));
  }

  private static String rootWords(Throwable e) {
    Throwable root = e;
    while (root.getCause() != null) {
      root = root.getCause();
    }
    return root.getMessage() == null ? root.getClass().getSimpleName() : root.getMessage();
  }

  @Override
  public void close() {
    if (client == null) {
      return;
    }
    try {
      client.disconnect();
    } catch (ModbusExecutionException | RuntimeException alreadyGone) {
      // Closing what is gone is what was wanted.
    }
    client = null;
    serial = null;
  }
}
