package tarnish.controller.control;

import java.util.function.ToDoubleFunction;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Limits;

/** What makes an interlock act, as a condition on one tick. */
sealed interface Cause {
  boolean holds(Readings readings, Limits limits, double tickS);

  /** The limit in words, for the table. */
  String limitWords(Limits limits);

  /**
   * A believable value above its limit. A reading without a value is {@link BadReading}'s business.
   */
  record Above(Channel channel, ToDoubleFunction<Limits> limit) implements Cause {
    @Override
    public boolean holds(Readings readings, Limits limits, double tickS) {
      return readings.isGood(channel) && readings.value(channel) > limit.applyAsDouble(limits);
    }

    @Override
    public String limitWords(Limits limits) {
      return "above " + Words.value(channel, limit.applyAsDouble(limits));
    }
  }

  /** A sensor that control needs gives no believable value. */
  record BadReading(Channel channel) implements Cause {
    @Override
    public boolean holds(Readings readings, Limits limits, double tickS) {
      return !readings.isGood(channel);
    }

    @Override
    public String limitWords(Limits limits) {
      return "no believable value";
    }
  }

  /** A safety contact that is open, or whose state is not known. */
  record ContactOpen(Channel channel) implements Cause {
    @Override
    public boolean holds(Readings readings, Limits limits, double tickS) {
      return !readings.isGood(channel) || readings.value(channel) < 0.5;
    }

    @Override
    public String limitWords(Limits limits) {
      return "circuit open";
    }
  }

  /** The control loop came later than {@code limitS} after the tick before. */
  record LoopLate(double limitS) implements Cause {
    @Override
    public boolean holds(Readings readings, Limits limits, double tickS) {
      return tickS > limitS;
    }

    @Override
    public String limitWords(Limits limits) {
      return "tick later than " + Words.duration(limitS);
    }
  }

  /** Raised by the step that is running; never by itself. */
  record Reported(String when) implements Cause {
    @Override
    public boolean holds(Readings readings, Limits limits, double tickS) {
      return false;
    }

    @Override
    public String limitWords(Limits limits) {
      return when;
    }
  }
}
