package tarnish.controller.devices.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertThrows;

import com.pi4j.Pi4J;
import com.pi4j.context.Context;
import com.pi4j.io.gpio.digital.DigitalState;
import com.pi4j.plugin.mock.provider.gpio.digital.MockDigitalInput;
import com.pi4j.plugin.mock.provider.gpio.digital.MockDigitalInputProvider;
import com.pi4j.plugin.mock.provider.gpio.digital.MockDigitalOutput;
import com.pi4j.plugin.mock.provider.gpio.digital.MockDigitalOutputProvider;
import com.pi4j.plugin.mock.provider.i2c.MockI2CProvider;
import com.pi4j.plugin.mock.provider.spi.MockSpiProvider;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import tarnish.controller.devices.Device;
import tarnish.controller.devices.DeviceTrouble;
import tarnish.controller.devices.setup.DeviceSpec;
import tarnish.controller.devices.setup.InputPlace;
import tarnish.controller.devices.setup.InputSpec;
import tarnish.controller.devices.setup.OutputPlace;
import tarnish.controller.devices.setup.OutputSpec;
import tarnish.controller.devices.setup.Scaling;
import tarnish.shared.reading.Reading;

/** The way through Pi4J, with the provider that pretends to be pins. */
class Pi4jBoardTest {
  private final Pi4jPorts ports = new Pi4jPorts(this::pretended);
  private Context context;

  /** The first one made is the one of the pins. */
  private Context pretended() {
    Context made =
        Pi4J.newContextBuilder()
            .add(
                MockDigitalOutputProvider.newInstance(),
                MockDigitalInputProvider.newInstance(),
                MockSpiProvider.newInstance(),
                MockI2CProvider.newInstance())
            .build();
    context = context == null ? made : context;
    return made;
  }

  private static final OutputSpec HIGH_ACTIVE =
      new OutputSpec("OUT1", new OutputPlace.Pin(17, true));
  private static final OutputSpec LOW_ACTIVE =
      new OutputSpec("OUT2", new OutputPlace.Pin(0, false));
  private static final InputSpec STOP =
      new InputSpec(
          "STOP", new InputPlace.Pin(22, InputPlace.Pull.DOWN), new Scaling.Contact(1), 0.05);

  private final DeviceSpec spec =
      new DeviceSpec(
          "pins", 0.1, new DeviceSpec.Pins(), List.of(STOP), List.of(HIGH_ACTIVE, LOW_ACTIVE));
  private final PinsDevice pins = new PinsDevice(spec, () -> ports);

  @AfterEach
  void letGo() {
    if (!context.isShutdown()) {
      context.shutdown();
    }
  }

  private DigitalState state(String id) {
    return ((MockDigitalOutput) context.registry().get(id)).state();
  }

  @Test
  void everyOutputBeginsAtItsLevelForOff() throws DeviceTrouble {
    pins.open();
    assertEquals(DigitalState.LOW, state("output-17"));
    assertEquals(DigitalState.HIGH, state("output-0"));
  }

  @Test
  void anOrderSetsThePinToItsLevelForOn() throws DeviceTrouble {
    pins.open();
    pins.order(HIGH_ACTIVE, 1);
    pins.order(LOW_ACTIVE, 1);
    assertEquals(DigitalState.HIGH, state("output-17"));
    assertEquals(DigitalState.LOW, state("output-0"));
  }

  @Test
  void lettingGoSwitchesOffEvenWithoutAnOrder() throws DeviceTrouble {
    pins.open();
    pins.order(HIGH_ACTIVE, 1);
    pins.order(LOW_ACTIVE, 1);
    MockDigitalOutput high = (MockDigitalOutput) context.registry().get("output-17");
    MockDigitalOutput low = (MockDigitalOutput) context.registry().get("output-0");
    pins.close();
    assertEquals(DigitalState.LOW, high.state());
    assertEquals(DigitalState.HIGH, low.state());
  }

  @Test
  void theEndOfTheLibraryItselfSwitchesOffToo() throws DeviceTrouble {
    pins.open();
    pins.order(HIGH_ACTIVE, 1);
    pins.order(LOW_ACTIVE, 1);
    MockDigitalOutput high = (MockDigitalOutput) context.registry().get("output-17");
    MockDigitalOutput low = (MockDigitalOutput) context.registry().get("output-0");
    ports.close();
    assertEquals(DigitalState.LOW, high.state());
    assertEquals(DigitalState.HIGH, low.state());
  }

  @Test
  void aBoardCanBeOpenedAgain() throws DeviceTrouble {
    pins.open();
    pins.close();
    pins.open();
    pins.order(HIGH_ACTIVE, 1);
    assertEquals(DigitalState.HIGH, state("output-17"));
  }

  @Test
  void aContactFollowsItsPin() throws DeviceTrouble {
    pins.open();
    MockDigitalInput pin = (MockDigitalInput) context.registry().get("input-22");
    pin.mockState(DigitalState.HIGH);
    assertEquals(new Device.Answer(new Reading.Good(1), "high"), pins.ask(STOP));
    pin.mockState(DigitalState.LOW);
    assertEquals(new Device.Answer(new Reading.Good(0), "low"), pins.ask(STOP));
  }

  @Test
  void chipsOnDifferentSelectsAndBusesLiveTogetherWithPinsOfTheSameNumbers() throws Exception {
    pins.open();
    try (BoardPorts.Spi a = ports.spi(0, 0, 1, 1_000_000);
        BoardPorts.Spi b = ports.spi(0, 1, 1, 1_000_000);
        BoardPorts.Spi c = ports.spi(1, 0, 0, 1_000_000);
        BoardPorts.I2c d = ports.i2c(1, 0x48)) {
      d.write(1, 0xC383);
      assertEquals(3, List.of(a, b, c).size());
    }
    try (BoardPorts.Spi again = ports.spi(0, 0, 1, 1_000_000)) {
      assertNotNull(again);
    }
  }

  @Test
  void aBusThatGivesTooFewBytesIsALostDevice() {
    DeviceSpec chip =
        new DeviceSpec(
            "adc",
            0.1,
            new DeviceSpec.SpiChip(
                DeviceSpec.ChipKind.MCP3208, 0, 0, DeviceSpec.ChipSettings.CONVERTER),
            List.of(),
            List.of());
    ConverterDevice device = new ConverterDevice(chip, () -> ports);
    InputSpec input =
        new InputSpec("A", new InputPlace.Analogue(0, 3.3), new Scaling.Kelvin(), 0.1);
    // The pretended bus transfers nothing; a real one that does so is broken.
    DeviceTrouble trouble =
        assertThrows(
            DeviceTrouble.class,
            () -> {
              device.open();
              device.ask(input);
            });
    assertEquals(DeviceTrouble.Kind.LOST, trouble.kind());
  }
}
