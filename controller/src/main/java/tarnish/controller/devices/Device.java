package tarnish.controller.devices;

import tarnish.controller.devices.setup.InputSpec;
import tarnish.controller.devices.setup.OutputSpec;
import tarnish.shared.reading.Reading;

/**
 * One instrument. Every call may block, but never longer than the device's deadline, and is made by
 * the device's own thread.
 */
public interface Device {
  /**
   * What a device said.
   *
   * @param reading in the SI unit of its input
   * @param raw as it came, for the person
   */
  record Answer(Reading reading, String raw) {}

  /** Takes hold of the device. Energises nothing. */
  void open() throws DeviceTrouble;

  Answer ask(InputSpec input) throws DeviceTrouble;

  /**
   * Gives an order and returns when the device has confirmed it.
   *
   * @param value 0 or 1; thousandths for an output that takes a duty
   */
  void order(OutputSpec output, int value) throws DeviceTrouble;

  /**
   * Called after every trouble. Throws away what may still come as an answer to an older question.
   */
  default void forgetLateAnswers() {}

  /** Lets go; never throws. */
  void close();
}
