package tarnish.controller.control;

import java.util.function.ToDoubleFunction;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.Vessel;
import tarnish.shared.vessel.PressureRating;

/** What makes an interlock act, as a condition on one tick. */
sealed interface Cause {
  /**
   * @param work of the tick; not changed
   * @param up whether the row is up already: it then needs to come back by its deadband
   */
  Verdict look(TickWork work, boolean up);

  /** The limit in words, for the table. */
  String limitWords(Limits limits);

  /** The rig's limits that the cause goes by now. */
  default Limits inForce(TickWork work) {
    return work.limits();
  }

  /** How fast the clock of the cause runs back where it is absent; infinite: at once. */
  default double forgets() {
    return Double.POSITIVE_INFINITY;
  }

  /**
   * A believable value above its limit. A reading without a value is {@link BadReading}'s business.
   *
   * @param deadband how far below the limit the value must fall before the cause is gone
   */
  record Above(Channel channel, ToDoubleFunction<Limits> limit, double deadband) implements Cause {
    @Override
    public Verdict look(TickWork work, boolean up) {
      if (!work.readings.isGood(channel)) {
        return Verdict.UNKNOWN;
      }
      double limitNow = limit.applyAsDouble(inForce(work));
      return Verdict.of(work.readings.value(channel) > (up ? limitNow - deadband : limitNow));
    }

    @Override
    public Limits inForce(TickWork work) {
      return channel.kind() == Channel.Kind.PRESSURE ? work.pressureLimits() : work.limits();
    }

    @Override
    public String limitWords(Limits limits) {
      return "above " + Words.value(channel, limit.applyAsDouble(limits));
    }
  }

  /** A believable value below a limit. */
  record Below(Channel channel, double limit, double deadband) implements Cause {
    @Override
    public Verdict look(TickWork work, boolean up) {
      if (!work.readings.isGood(channel)) {
        return Verdict.UNKNOWN;
      }
      return Verdict.of(work.readings.value(channel) < (up ? limit + deadband : limit));
    }

    @Override
    public String limitWords(Limits limits) {
      return "below " + Words.value(channel, limit);
    }
  }

  /**
   * A value below a limit, or none that can be believed: an empty supply may read below the range
   * of its gauge. With no batch under way a bottle is rightly shut, so that is no alarm by design.
   */
  record BelowOrLost(Channel channel, double limit, double deadband) implements Cause {
    @Override
    public Verdict look(TickWork work, boolean up) {
      boolean idle = work.phase == BatchState.IDLE || work.phase.isFinal();
      double bound = up ? limit + deadband : limit;
      boolean low = !work.readings.isGood(channel) || work.readings.value(channel) < bound;
      return Verdict.of(low && !idle);
    }

    @Override
    public String limitWords(Limits limits) {
      return "below " + Words.value(channel, limit) + ", or no believable value, in a batch";
    }
  }

  /** Overpressure against the room above what the vessel's own glass may hold when so hot. */
  record AboveGlassRating(Vessel vessel) implements Cause {
    /** Where the glass may hold nothing, an even pressure within the gauges' agreement is meant. */
    private static final double EVEN_PA = 1000;

    private static final double DEADBAND_PA = 500;

    @Override
    public Verdict look(TickWork work, boolean up) {
      if (!work.believable()) {
        return Verdict.UNKNOWN;
      }
      double overPa = work.pressurePa() - work.roomPa();
      if (!(overPa > EVEN_PA - DEADBAND_PA)) {
        return Verdict.ABSENT;
      }
      double allowedPa = StrictMath.max(EVEN_PA, allowedPa(work));
      return Verdict.of(overPa > (up ? allowedPa - DEADBAND_PA : allowedPa));
    }

    private double allowedPa(TickWork work) {
      double hottestK = StrictMath.max(work.sampleK(), work.ovenK());
      return PressureRating.allowedGaugePa(vessel, hottestK);
    }

    @Override
    public String limitWords(Limits limits) {
      double ratedPa =
          PressureRating.allowedGaugePa(vessel, PressureRating.highestK(vessel.glass()));
      return "overpressure above "
          + Words.pressure(ratedPa)
          + ", or any above "
          + Words.temperature(PressureRating.highestK(vessel.glass()));
    }
  }

  /**
   * A sensor that control needs gives no believable value. Its clock runs back slowly, so that a
   * loose contact which gives a value now and then is found too.
   */
  record BadReading(Channel channel) implements Cause {
    /** At this rate a sensor bad for more than a tenth of the time is found. */
    private static final double FORGETS = 0.1;

    @Override
    public Verdict look(TickWork work, boolean up) {
      return Verdict.of(!work.readings.isGood(channel));
    }

    @Override
    public String limitWords(Limits limits) {
      return "no believable value";
    }

    @Override
    public double forgets() {
      return FORGETS;
    }
  }

  /** A safety contact that is open, or whose state is not known. */
  record ContactOpen(Channel channel) implements Cause {
    /** A contact reads 1 while closed and 0 while open. */
    static final double CLOSED_FROM = 0.5;

    @Override
    public Verdict look(TickWork work, boolean up) {
      return Verdict.of(
          !work.readings.isGood(channel) || work.readings.value(channel) < CLOSED_FROM);
    }

    @Override
    public String limitWords(Limits limits) {
      return "circuit open";
    }
  }

  /**
   * Two sensors of the same thing further apart than their uncertainties explain.
   *
   * @param apart allowed difference, fixed part
   * @param apartShare allowed difference as a share of the value
   */
  record PairDisagrees(Channel channel, Channel pair, double apart, double apartShare)
      implements Cause {
    @Override
    public Verdict look(TickWork work, boolean up) {
      if (!work.readings.isGood(channel) || !work.readings.isGood(pair)) {
        return Verdict.UNKNOWN;
      }
      double value = work.readings.value(channel);
      double away = StrictMath.abs(value - work.readings.value(pair));
      return Verdict.of(away > apart + apartShare * StrictMath.abs(value));
    }

    @Override
    public String limitWords(Limits limits) {
      String fixed =
          channel.kind() == Channel.Kind.TEMPERATURE
              ? String.format(java.util.Locale.ROOT, "%.1f K", apart)
              : Words.pressure(apart);
      return "apart by more than "
          + fixed
          + String.format(java.util.Locale.ROOT, " and %.2f %%", apartShare * 100);
    }
  }

  /** Something read from what the bench did over a while. */
  record Sign(Symptom symptom, String limit) implements Cause {
    @Override
    public Verdict look(TickWork work, boolean up) {
      return Verdict.of((work.symptoms & symptom.bit()) != 0);
    }

    @Override
    public String limitWords(Limits limits) {
      return limit;
    }
  }

  /** The control loop came later than {@code limitS} after the tick before. */
  record LoopLate(double limitS) implements Cause {
    @Override
    public Verdict look(TickWork work, boolean up) {
      return Verdict.of(work.tickS > limitS);
    }

    @Override
    public String limitWords(Limits limits) {
      return "tick later than " + Words.duration(limitS);
    }
  }

  /** Raised by the step that is running, or by the shell; never by itself. */
  record Reported(String when) implements Cause {
    @Override
    public Verdict look(TickWork work, boolean up) {
      return Verdict.ABSENT;
    }

    @Override
    public String limitWords(Limits limits) {
      return when;
    }
  }
}
