package tarnish.controller.control;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.RigDescription;

/**
 * Tells at one glance whether a row of the interlock table may have to act, so that the table is
 * walked only then: in a batch of weeks nearly every tick is a quiet one.
 *
 * <p>It is worked out from the table's own rows and errs towards walking it: a kind of cause that
 * is not known here is asked in each tick. Immutable.
 */
final class TableGlance {
  private final Channel[] channels;
  private final double[] least;
  private final double[] mostAttended;
  private final double[] mostUnattended;
  private final Cause[] others;

  private TableGlance(List<InterlockRow> rows, RigDescription rig) {
    double[] low = filled(Double.NEGATIVE_INFINITY);
    double[] high = filled(Double.POSITIVE_INFINITY);
    double[] highAlone = filled(Double.POSITIVE_INFINITY);
    boolean[] read = new boolean[Channel.COUNT];
    List<Cause> asked = new ArrayList<>();
    for (InterlockRow row : rows) {
      if (row.cause() instanceof Cause.Above above) {
        int i = above.channel().ordinal();
        read[i] = true;
        high[i] = StrictMath.min(high[i], above.limit().applyAsDouble(rig.attended()));
        highAlone[i] = StrictMath.min(highAlone[i], above.limit().applyAsDouble(rig.unattended()));
      } else if (row.cause() instanceof Cause.Below below) {
        raise(low, below.channel(), below.limit(), read);
      } else if (row.cause() instanceof Cause.BelowOrLost below) {
        raise(low, below.channel(), below.limit(), read);
      } else if (row.cause() instanceof Cause.ContactOpen contact) {
        raise(low, contact.channel(), Cause.ContactOpen.CLOSED_FROM, read);
      } else if (row.cause() instanceof Cause.BadReading bad) {
        read[bad.channel().ordinal()] = true;
      } else if (!(row.cause() instanceof Cause.Sign || row.cause() instanceof Cause.Reported)) {
        asked.add(row.cause());
      }
    }
    channels =
        Arrays.stream(Channel.values()).filter(c -> read[c.ordinal()]).toArray(Channel[]::new);
    least = of(low);
    mostAttended = of(high);
    mostUnattended = of(highAlone);
    others = asked.toArray(new Cause[0]);
  }

  static TableGlance at(List<InterlockRow> rows, RigDescription rig) {
    return new TableGlance(rows, rig);
  }

  private static double[] filled(double value) {
    double[] values = new double[Channel.COUNT];
    Arrays.fill(values, value);
    return values;
  }

  private static void raise(double[] low, Channel channel, double limit, boolean[] read) {
    read[channel.ordinal()] = true;
    low[channel.ordinal()] = StrictMath.max(low[channel.ordinal()], limit);
  }

  /** Of the channels looked at, in their order. */
  private double[] of(double[] byOrdinal) {
    return Arrays.stream(channels).mapToDouble(c -> byOrdinal[c.ordinal()]).toArray();
  }

  /** Whether surely no cause of a row that is not up shows; {@code work.symptoms} are known. */
  boolean isQuiet(TickWork work) {
    if (work.symptoms != 0) {
      return false;
    }
    double[] most = work.presence.attended() ? mostAttended : mostUnattended;
    for (int i = 0; i < channels.length; i++) {
      if (!work.readings.isGood(channels[i])) {
        return false;
      }
      double value = work.readings.value(channels[i]);
      if (value < least[i] || value > most[i]) {
        return false;
      }
    }
    for (Cause other : others) {
      if (other.look(work, false) != Verdict.ABSENT) {
        return false;
      }
    }
    return true;
  }
}
