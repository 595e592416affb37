package tarnish.controller.devices;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.ghgande.j2mod.modbus.facade.ModbusSerialMaster;
import com.ghgande.j2mod.modbus.procimg.SimpleDigitalIn;
import com.ghgande.j2mod.modbus.procimg.SimpleDigitalOut;
import com.ghgande.j2mod.modbus.procimg.SimpleInputRegister;
import com.ghgande.j2mod.modbus.procimg.SimpleProcessImage;
import com.ghgande.j2mod.modbus.procimg.SimpleRegister;
import com.ghgande.j2mod.modbus.slave.ModbusSlave;
import com.ghgande.j2mod.modbus.slave.ModbusSlaveFactory;
import com.ghgande.j2mod.modbus.util.SerialParameters;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tarnish.controller.devices.setup.DeviceSpec;
import tarnish.controller.devices.setup.InputPlace;
import tarnish.controller.devices.setup.InputSpec;
import tarnish.controller.devices.setup.OutputPlace;
import tarnish.controller.devices.setup.OutputSpec;
import tarnish.controller.devices.setup.Register.Kind;
import tarnish.controller.devices.setup.Register.Table;
import tarnish.controller.devices.setup.Register.WordOrder;
import tarnish.controller.devices.setup.Scaling;
import tarnish.controller.files.RecipeReader;
import tarnish.controller.files.RigFile;
import tarnish.controller.files.RigReader;
import tarnish.controller.instruments.PretendedBench;
import tarnish.controller.instruments.SerialPair;
import tarnish.controller.instruments.Wire;
import tarnish.shared.quantity.Unit;
import tarnish.shared.reading.Reading;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.Switch;
import tarnish.sim.SimulatedRig;

/** Our Modbus adapter against a unit of another library, and that library against our unit. */
class ModbusOverLinesTest {
  private static final int STATION = 5;
  private static final Path DEMO = Path.of("../sim/demo");

  @TempDir Path folder;

  private static InputSpec input(Table table, int address, Kind kind, WordOrder order) {
    return new InputSpec(
        "I",
        new InputPlace.InRegister(STATION, table, address, kind, order),
        table.isOfBits() ? new Scaling.Contact(1) : new Scaling.InUnit(1, 0, Unit.PASCAL),
        0.1);
  }

  private static DeviceSpec spec(DeviceSpec.Link link) {
    return new DeviceSpec("unit", 0.5, link, List.of(), List.of());
  }

  private static DeviceSpec.ModbusSerial serial(Path port) {
    return new DeviceSpec.ModbusSerial(
        new DeviceSpec.SerialLine(port.toString(), 19_200, DeviceSpec.Parity.NONE, 1));
  }

  private static SerialParameters parameters(Path port) {
    SerialParameters parameters = new SerialParameters();
    parameters.setPortName(port.toString());
    parameters.setBaudRate(19_200);
    parameters.setDatabits(8);
    parameters.setParity("None");
    parameters.setStopbits(1);
    parameters.setEncoding("rtu");
    return parameters;
  }

  /** Registers that hold -1234 as int16, 1.5 as float32 and 100000 as int32 in both word orders. */
  private static SimpleProcessImage image() {
    SimpleProcessImage image = new SimpleProcessImage(STATION);
    for (int word : new int[] {0xFB2E, 0x3FC0, 0x0000, 0x3FC0, 0x0001, 0x86A0, 0x86A0, 0x0001}) {
      image.addInputRegister(new SimpleInputRegister(word));
      image.addRegister(new SimpleRegister(word));
    }
    image.addDigitalIn(new SimpleDigitalIn(false));
    image.addDigitalIn(new SimpleDigitalIn(true));
    image.addDigitalOut(new SimpleDigitalOut(false));
    image.addDigitalOut(new SimpleDigitalOut(false));
    return image;
  }

  private static void readAndWriteEverything(ModbusDevice device, SimpleProcessImage image)
      throws DeviceTrouble {
    for (Table table : List.of(Table.INPUT_REGISTER, Table.HOLDING_REGISTER)) {
      assertEquals(-1234, value(device, input(table, 0, Kind.INT16, WordOrder.HIGH_FIRST)));
      assertEquals(0xFB2E, value(device, input(table, 0, Kind.UINT16, WordOrder.HIGH_FIRST)));
      assertEquals(1.5, value(device, input(table, 1, Kind.FLOAT32, WordOrder.HIGH_FIRST)));
      assertEquals(1.5, value(device, input(table, 2, Kind.FLOAT32, WordOrder.LOW_FIRST)));
      assertEquals(100_000, value(device, input(table, 4, Kind.INT32, WordOrder.HIGH_FIRST)));
      assertEquals(100_000, value(device, input(table, 6, Kind.UINT32, WordOrder.LOW_FIRST)));
    }
    assertEquals(0, value(device, input(Table.DISCRETE_INPUT, 0, Kind.BIT, WordOrder.HIGH_FIRST)));
    assertEquals(1, value(device, input(Table.DISCRETE_INPUT, 1, Kind.BIT, WordOrder.HIGH_FIRST)));
    OutputSpec coil =
        new OutputSpec("C", new OutputPlace.ToRegister(STATION, Table.COIL, 1, 1, 0, true));
    device.order(coil, 1);
    assertTrue(image.getDigitalOut(1).isSet());
    device.order(coil, 0);
    assertTrue(!image.getDigitalOut(1).isSet());
    OutputSpec duty = new OutputSpec("D", new OutputPlace.DutyRegister(STATION, 3, 4_000, true));
    device.order(duty, 250);
    assertEquals(1_000, image.getRegister(3).getValue());
    InputSpec nowhere = input(Table.INPUT_REGISTER, 900, Kind.INT16, WordOrder.HIGH_FIRST);
    DeviceTrouble refused = assertThrows(DeviceTrouble.class, () -> device.ask(nowhere));
    assertEquals(DeviceTrouble.Kind.REFUSED, refused.kind());
  }

  private static double value(ModbusDevice device, InputSpec input) throws DeviceTrouble {
    return assertInstanceOf(Reading.Good.class, device.ask(input).reading()).value();
  }

  @Test
  void aForeignUnitOnTcpIsReadAndWritten() throws Exception {
    int port;
    try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      port = free.getLocalPort();
    }
    ModbusSlave slave =
        ModbusSlaveFactory.createTCPSlave(InetAddress.getLoopbackAddress(), port, 2, false);
    SimpleProcessImage image = image();
    slave.addProcessImage(STATION, image);
    slave.open();
    ModbusDevice device = new ModbusDevice(spec(new DeviceSpec.ModbusNetwork("127.0.0.1", port)));
    try {
      device.open();
      readAndWriteEverything(device, image);
    } finally {
      device.close();
      ModbusSlaveFactory.close(slave);
    }
    DeviceTrouble gone = assertThrows(DeviceTrouble.class, device::open);
    assertEquals(DeviceTrouble.Kind.LOST, gone.kind());
  }

  /** A unit that says yes and does nothing, such as one that is write-protected at its front. */
  @Test
  void anOrderThatDoesNotReadBackIsATrouble() throws Exception {
    try (SerialPair line = SerialPair.open(folder, "line")) {
      ModbusSlave slave = ModbusSlaveFactory.createSerialSlave(parameters(line.far()));
      SimpleProcessImage image = image();
      image.setDigitalOut(1, new DeafCoil());
      image.setRegister(3, new DeafRegister());
      slave.addProcessImage(STATION, image);
      slave.open();
      ModbusDevice device = new ModbusDevice(spec(serial(line.near())));
      try {
        device.open();
        OutputSpec coil =
            new OutputSpec("C", new OutputPlace.ToRegister(STATION, Table.COIL, 1, 1, 0, true));
        DeviceTrouble deaf = assertThrows(DeviceTrouble.class, () -> device.order(coil, 1));
        assertEquals("coil 1 was told 1 and reads back 0", deaf.getMessage());
        OutputSpec duty =
            new OutputSpec("D", new OutputPlace.DutyRegister(STATION, 3, 4_000, true));
        deaf = assertThrows(DeviceTrouble.class, () -> device.order(duty, 250));
        assertEquals("holding register 3 was told 1000 and reads back 0", deaf.getMessage());
        OutputSpec trusting =
            new OutputSpec("T", new OutputPlace.ToRegister(STATION, Table.COIL, 1, 1, 0, false));
        device.order(trusting, 1);
      } finally {
        device.close();
        ModbusSlaveFactory.close(slave);
      }
    }
  }

  private static final class DeafCoil extends SimpleDigitalOut {
    @Override
    public void set(boolean on) {
      // It stays as it is.
    }
  }

  private static final class DeafRegister extends SimpleRegister {
    DeafRegister() {
      super(0);
    }

    @Override
    public void setValue(int value) {
      // It stays as it is.
    }

    @Override
    public void setValue(byte[] bytes) {
      // It stays as it is.
    }

    @Override
    public void setValue(short value) {
      // It stays as it is.
    }
  }

  @Test
  void aForeignUnitOnASerialLineIsReadAndWritten() throws Exception {
    try (SerialPair line = SerialPair.open(folder, "line")) {
      ModbusSlave slave = ModbusSlaveFactory.createSerialSlave(parameters(line.far()));
      SimpleProcessImage image = image();
      slave.addProcessImage(STATION, image);
      slave.open();
      ModbusDevice device = new ModbusDevice(spec(serial(line.near())));
      try {
        device.open();
        readAndWriteEverything(device, image);
      } finally {
        device.close();
        ModbusSlaveFactory.close(slave);
      }
    }
  }

  @Test
  void aForeignMasterUnderstandsOurUnit() throws Exception {
    try (SerialPair line = SerialPair.open(folder, "line")) {
      PretendedBench bench = bench();
      Wire.toUnit(line.far(), bench);
      ModbusSerialMaster master = new ModbusSerialMaster(parameters(line.near()));
      master.connect();
      try {
        int tenths = (short) master.readInputRegisters(STATION, 0, 1)[0].getValue();
        assertEquals(200, tenths, 100);
        master.writeCoil(STATION, 2, true);
        assertTrue(bench.outputs().isOn(Switch.VENT));
        assertTrue(master.readCoils(STATION, 2, 1).getBit(0));
      } finally {
        master.disconnect();
      }
    }
  }

  @ParameterizedTest
  @EnumSource(value = Wire.Trouble.class, mode = EnumSource.Mode.EXCLUDE, names = "NONE")
  void aUnitGivesItsOwnAnswersAgainAfterTrouble(Wire.Trouble trouble) throws Exception {
    InputSpec seal = input(Table.INPUT_REGISTER, 0, Kind.INT16, WordOrder.HIGH_FIRST);
    InputSpec roomPressure = input(Table.INPUT_REGISTER, 6, Kind.UINT16, WordOrder.HIGH_FIRST);
    try (SerialPair line = SerialPair.open(folder, "unit")) {
      Wire wire = Wire.toUnit(line.far(), bench());
      DeviceSpec quick = new DeviceSpec("unit", 0.2, serial(line.near()), List.of(), List.of());
      ModbusDevice device = new ModbusDevice(quick);
      device.open();
      try {
        double pressure = value(device, roomPressure);
        wire.set(trouble);
        for (int i = 0; i < 2; i++) {
          assertThrows(DeviceTrouble.class, () -> device.ask(seal));
          device.forgetLateAnswers();
        }
        wire.set(Wire.Trouble.NONE);
        // A late answer about the seal, of the same length, must not be taken for the pressure.
        assertEquals(pressure, value(device, roomPressure), 5);
        assertEquals(pressure, value(device, roomPressure), 5);
      } finally {
        device.close();
      }
    }
  }

  private static PretendedBench bench() throws Exception {
    RigFile file =
        RigReader.readFile("rig", Files.readString(DEMO.resolve("instruments.rig.yaml"))).value();
    Recipe recipe =
        RecipeReader.read(
                "recipe",
                Files.readString(DEMO.resolve("instruments-short.recipe.yaml")),
                Optional.of(file.rig()))
            .value();
    return new PretendedBench(
        file.rig(), new SimulatedRig(file.rig(), recipe, 1), System::nanoTime);
  }
}
