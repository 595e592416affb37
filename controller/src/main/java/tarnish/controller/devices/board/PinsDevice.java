package tarnish.controller.devices.board;

import java.util.HashMap;
import java.util.Map;
import java.util.function.Supplier;
import tarnish.controller.devices.DeviceTrouble;
import tarnish.controller.devices.DeviceTrouble.Kind;
import tarnish.controller.devices.setup.DeviceSpec;
import tarnish.controller.devices.setup.InputPlace;
import tarnish.controller.devices.setup.InputSpec;
import tarnish.controller.devices.setup.OutputPlace;
import tarnish.controller.devices.setup.OutputSpec;

/** The digital pins of the board. Every output starts and ends at its level for off. */
public final class PinsDevice extends BoardDevice {
  private final DeviceSpec spec;
  private final Map<String, BoardPorts.InputPin> inputs = new HashMap<>();
  private final Map<String, BoardPorts.OutputPin> outputs = new HashMap<>();

  public PinsDevice(DeviceSpec spec, Supplier<BoardPorts> board) {
    super(spec, board);
    this.spec = spec;
  }

  @Override
  void open(BoardPorts ports) {
    for (OutputSpec output : spec.outputs()) {
      OutputPlace.Pin pin = (OutputPlace.Pin) output.where();
      outputs.put(output.name(), ports.output(pin.number(), !pin.onIsHigh()));
    }
    for (InputSpec input : spec.inputs()) {
      InputPlace.Pin pin = (InputPlace.Pin) input.where();
      inputs.put(input.name(), ports.input(pin.number(), pin.pull()));
    }
  }

  @Override
  Answer answer(InputSpec input) {
    boolean high = inputs.get(input.name()).isHigh();
    return new Answer(input.scaling().value(high ? 1 : 0), high ? "high" : "low");
  }

  @Override
  public void order(OutputSpec output, int value) throws DeviceTrouble {
    OutputPlace.Pin pin = (OutputPlace.Pin) output.where();
    boolean wanted = (value != 0) == pin.onIsHigh();
    boolean stands;
    try {
      stands = outputs.get(output.name()).set(wanted);
    } catch (RuntimeException e) {
      throw lost(e);
    }
    if (stands != wanted) {
      throw new DeviceTrouble(
          Kind.GARBLED,
          "pin " + pin.number() + " was told to be " + (wanted ? "high" : "low") + " and is not");
    }
  }

  @Override
  public void close() {
    outputs.values().forEach(BoardDevice::closeQuietly);
    inputs.values().forEach(BoardDevice::closeQuietly);
    outputs.clear();
    inputs.clear();
  }
}
