package tarnish.controller.devices.setup;

import java.util.Optional;
import tarnish.controller.devices.setup.Register.Table;

/** Where in its device an output is found; each kind of device knows its own. */
public sealed interface OutputPlace {
  /** Whether it takes a duty and not only on and off. */
  boolean takesDuty();

  /** Orders to a line instrument; the answer, if there is one, confirms them. */
  record Order(String on, String off, Optional<ReplyPattern> answer) implements OutputPlace {
    @Override
    public boolean takesDuty() {
      return false;
    }
  }

  /** An order with a number, {@code order} holding {@code {value}} where it goes. */
  record DutyOrder(String order, double fullDuty, Optional<ReplyPattern> answer)
      implements OutputPlace {
    @Override
    public boolean takesDuty() {
      return true;
    }
  }

  /**
   * A coil or holding register.
   *
   * @param verify whether it is read back after every write
   */
  record ToRegister(int station, Table table, int address, int on, int off, boolean verify)
      implements OutputPlace {
    @Override
    public boolean takesDuty() {
      return false;
    }
  }

  /** A holding register that takes the heater duty, {@code fullDuty} standing for all. */
  record DutyRegister(int station, int address, int fullDuty, boolean verify)
      implements OutputPlace {
    @Override
    public boolean takesDuty() {
      return true;
    }
  }

  /** A digital output of the board. */
  record Pin(int number, boolean onIsHigh) implements OutputPlace {
    @Override
    public boolean takesDuty() {
      return false;
    }
  }
}
