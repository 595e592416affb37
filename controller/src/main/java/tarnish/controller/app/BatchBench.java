package tarnish.controller.app;

import java.util.List;
import java.util.OptionalDouble;
import tarnish.controller.control.OpenQuestion;
import tarnish.controller.devices.Calibrations;
import tarnish.controller.devices.ChannelTalk;
import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Reading;
import tarnish.shared.reading.Readings;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.Rig;
import tarnish.shared.rig.RigDescription;

/** The bench of a batch, and what only a real or only a simulated one can do. */
interface BatchBench {
  Rig rig();

  /** Reads every channel, with the calibrations in force. */
  default void read(Readings into) {
    rig().read(into);
  }

  /** Takes these calibrations into use from the next reading on; a bench may know none. */
  default void use(Calibrations calibrations, RigDescription description) {}

  /** What is known of a channel besides its reading; by default nothing. */
  default ChannelTalk talk(Channel channel) {
    return new ChannelTalk("", "", new Reading.Bad(BadReason.NO_DATA), 0, Double.NaN);
  }

  /** Whether time passes on it by itself, and outputs move something. */
  boolean isReal();

  /** Lets time pass where it does not pass by itself. */
  void pass(double seconds);

  /** A person has answered; on a simulated bench this does what the answer says was done. */
  void answered(OpenQuestion question);

  /** The mass of the whole solid in kg where the bench has a balance that can be read now. */
  OptionalDouble weighKg();

  /** Oxygen per formula unit in truth, which only a simulated bench knows. */
  OptionalDouble trueOxygenPerUnit();

  /** How every device does, each in a sentence; empty on a bench without devices. */
  default List<String> devices() {
    return List.of();
  }

  /** Outputs that may not be what they should, each in a sentence. */
  List<String> unconfirmed();

  default void close() {
    rig().close();
  }

  /** Gives the bench of each batch. */
  interface Maker {
    /**
     * @param before the bench of the batch before, or null; the maker closes it or gives it again
     */
    BatchBench make(RigDescription rig, Recipe recipe, long seed, BatchBench before);
  }
}
