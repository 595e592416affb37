package tarnish.controller.devices.board;

import java.util.function.Supplier;
import tarnish.controller.devices.Device;
import tarnish.controller.devices.DeviceTrouble;
import tarnish.controller.devices.DeviceTrouble.Kind;
import tarnish.controller.devices.setup.DeviceSpec;
import tarnish.controller.devices.setup.InputSpec;
import tarnish.controller.devices.setup.OutputSpec;

/** What all devices on the board share: a failure of the bus is a lost device. */
abstract class BoardDevice implements Device {
  private final Supplier<BoardPorts> board;
  private final String place;

  BoardDevice(DeviceSpec spec, Supplier<BoardPorts> board) {
    this.board = board;
    this.place = spec.link().place();
  }

  /** May throw what the bus throws. */
  abstract void open(BoardPorts ports);

  abstract Answer answer(InputSpec input);

  @Override
  public final void open() throws DeviceTrouble {
    try {
      open(board.get());
    } catch (RuntimeException | LinkageError e) {
      throw lost(e);
    }
  }

  @Override
  public final Answer ask(InputSpec input) throws DeviceTrouble {
    try {
      return answer(input);
    } catch (RuntimeException e) {
      throw lost(e);
    }
  }

  @Override
  public void order(OutputSpec output, int value) throws DeviceTrouble {
    throw new DeviceTrouble(Kind.REFUSED, place + " has no outputs");
  }

  DeviceTrouble lost(Throwable e) {
    String why = e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
    return new DeviceTrouble(Kind.LOST, place + ": " + why);
  }

  static void closeQuietly(AutoCloseable resource) {
    if (resource != null) {
      try {
        resource.close();
      } catch (Exception alreadyGone) {
        // Closing what is gone is what was wanted.
      }
    }
  }
}
