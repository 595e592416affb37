package tarnish.controller.control;

import java.util.Arrays;
import java.util.List;
import java.util.Map;

/**
 * The state of every row of the interlock table. Immutable: a tick in which nothing happens gives
 * back the same instance.
 *
 * <p>Shelving silences an alarm for a while and leaves its effect; defeating takes away its effect
 * and leaves the alarm.
 */
public final class AlarmBoard {
  private static final long NOT = Long.MIN_VALUE;

  private final AlarmState[] states;

  /** Time that the cause of a row lasts; for a row that is up, time that it has been gone. */
  private final double[] clockS;

  private final int firstOut;
  private final Chatter chatter;
  private final boolean anyActive;
  private final boolean allNormal;

  /** Whether no row is up, no clock runs and nothing is set aside. */
  private final boolean calm;

  /** Null while nothing is set aside. */
  private final SetAside setAside;

  /** Until when rows are shelved and defeated, in ms since the batch began. */
  private record SetAside(long[] shelved, long[] defeated) {
    static SetAside none(int rows) {
      long[] not = new long[rows];
      Arrays.fill(not, NOT);
      return new SetAside(not, not.clone());
    }

    boolean isEmpty() {
      return Arrays.stream(shelved).allMatch(until -> until == NOT)
          && Arrays.stream(defeated).allMatch(until -> until == NOT);
    }
  }

  private AlarmBoard(
      AlarmState[] states, double[] clockS, int firstOut, Chatter chatter, SetAside setAside) {
    this.states = states;
    this.clockS = clockS;
    this.chatter = chatter;
    this.setAside = setAside;
    boolean active = false;
    boolean normal = true;
    boolean still = setAside == null;
    for (int i = 0; i < states.length; i++) {
      active |= isActive(states[i]);
      normal &= states[i] == AlarmState.NORMAL;
      still &= !isUp(states[i]) && clockS[i] == 0;
    }
    calm = still;
    anyActive = active;
    allNormal = normal;
    this.firstOut = normal ? -1 : firstOut;
  }

  static AlarmBoard allNormal(int rows) {
    AlarmState[] states = new AlarmState[rows];
    Arrays.fill(states, AlarmState.NORMAL);
    return new AlarmBoard(states, new double[rows], -1, Chatter.none(rows), null);
  }

  /** Whether no row is up, latched or waiting for an acknowledgement. */
  boolean allNormal() {
    return allNormal;
  }

  AlarmState state(int row) {
    return states[row];
  }

  /** Whether this row came first among those that hold the batch and are not reset yet. */
  boolean isFirstOut(int row) {
    return row == firstOut;
  }

  boolean isShelved(int row) {
    return setAside != null && setAside.shelved[row] != NOT;
  }

  boolean isDefeated(int row) {
    return setAside != null && setAside.defeated[row] != NOT;
  }

  boolean anyDefeated() {
    return setAside != null && Arrays.stream(setAside.defeated).anyMatch(until -> until != NOT);
  }

  /** Until when the row is shelved or defeated, in ms since the batch began. */
  long setAsideUntilMillis(int row) {
    return isShelved(row) ? setAside.shelved[row] : setAside.defeated[row];
  }

  /**
   * A board as a batch finds it; nothing stays aside.
   *
   * @param states of rows that are not normal
   * @param firstOut the one that came first of those that hold; empty for none
   */
  static AlarmBoard of(Map<String, AlarmState> states, String firstOut, List<InterlockRow> rows) {
    AlarmState[] all = new AlarmState[rows.size()];
    for (int i = 0; i < all.length; i++) {
      all[i] = states.getOrDefault(rows.get(i).id(), AlarmState.NORMAL);
    }
    return new AlarmBoard(
        all, new double[all.length], indexOf(firstOut, rows), Chatter.none(all.length), null);
  }

  /** Looks at every row's cause. Events of changes go to {@code work}. */
  AlarmBoard judge(List<InterlockRow> rows, TickWork work) {
    work.symptoms = Symptom.showing(work);
    if (calm && work.plan.glance().isQuiet(work)) {
      return this;
    }
    AlarmBoard board = setAside == null ? this : withoutExpired(rows, work);
    for (int i = 0; i < states.length; i++) {
      InterlockRow row = rows.get(i);
      boolean up = isUp(board.states[i]);
      Verdict verdict = row.cause().look(work, up);
      if (verdict != Verdict.ABSENT && row.isSuppressed(work)) {
        verdict = Verdict.ABSENT;
      }
      if (up) {
        board = board.judgeUp(i, verdict, row, work);
      } else if (verdict != Verdict.ABSENT || board.clockS[i] != 0) {
        board = board.judgeDown(i, verdict, row, work);
      }
    }
    return board;
  }

  private AlarmBoard judgeUp(int i, Verdict verdict, InterlockRow row, TickWork work) {
    if (verdict != Verdict.ABSENT) {
      return withClock(i, 0);
    }
    double goneS = clockS[i] + work.tickS;
    return goneS < chatter.offDelayS(i, row.offDelayS())
        ? withClock(i, goneS)
        : withClock(i, 0).lower(i, row, work);
  }

  private AlarmBoard judgeDown(int i, Verdict verdict, InterlockRow row, TickWork work) {
    if (verdict == Verdict.ABSENT) {
      double left = clockS[i] - work.tickS * row.cause().forgets();
      return withClock(i, StrictMath.max(0, left));
    }
    if (verdict == Verdict.UNKNOWN && clockS[i] == 0) {
      return this;
    }
    double lastsS = clockS[i] + work.tickS;
    boolean acts = verdict == Verdict.PRESENT && lastsS >= row.delayS();
    return acts ? withClock(i, 0).raise(i, row, row.what(), work) : withClock(i, lastsS);
  }

  /** Raises a row whose cause is reported by the running step or the shell. */
  AlarmBoard report(String id, String detail, List<InterlockRow> rows, TickWork work) {
    int i = indexOf(id, rows);
    if (i < 0 || isUp(states[i])) {
      return this;
    }
    return withClock(i, 0).raise(i, rows.get(i), (rows.get(i).what() + " " + detail).strip(), work);
  }

  AlarmBoard acknowledge(int i, InterlockRow row, String by, TickWork work) {
    return changed(i, states[i].acknowledged(), row, "acknowledged by " + by, work);
  }

  AlarmBoard reset(int i, InterlockRow row, String why, TickWork work) {
    return changed(i, states[i].reset(), row, why, work);
  }

  AlarmBoard shelved(int i, long untilMillis) {
    SetAside now = setAside == null ? SetAside.none(states.length) : setAside;
    long[] shelved = now.shelved.clone();
    shelved[i] = untilMillis;
    return with(new SetAside(shelved, now.defeated));
  }

  AlarmBoard defeated(int i, long untilMillis) {
    SetAside now = setAside == null ? SetAside.none(states.length) : setAside;
    long[] defeated = now.defeated.clone();
    defeated[i] = untilMillis;
    return with(new SetAside(now.shelved, defeated));
  }

  AlarmBoard unshelved(int i) {
    return shelved(i, NOT);
  }

  AlarmBoard undefeated(int i) {
    return defeated(i, NOT);
  }

  private AlarmBoard with(SetAside next) {
    return new AlarmBoard(states, clockS, firstOut, chatter, next.isEmpty() ? null : next);
  }

  /** Ends what has run out; with nobody there nothing stays defeated. */
  private AlarmBoard withoutExpired(List<InterlockRow> rows, TickWork work) {
    AlarmBoard board = this;
    for (int i = 0; i < states.length; i++) {
      String id = rows.get(i).id();
      if (board.isShelved(i) && work.lastMillis >= board.setAside.shelved[i]) {
        work.event(new Event.AlarmSetAside(id, "is no longer shelved: its time is over"));
        board = board.unshelved(i);
      }
      boolean left = !work.presence.attended();
      if (board.isDefeated(i) && (left || work.lastMillis >= board.setAside.defeated[i])) {
        String why = left ? "nobody is checked in" : "its time is over";
        work.event(new Event.AlarmSetAside(id, "is enforced again: " + why));
        board = board.undefeated(i);
      }
    }
    return board;
  }

  /** Switch bits whose permits are withheld by alarms that are up or latched. */
  int withheld(List<InterlockRow> rows) {
    if (!anyActive) {
      return 0;
    }
    int bits = 0;
    for (int i = 0; i < states.length; i++) {
      if (withholds(i)) {
        bits |= rows.get(i).effects();
      }
    }
    return bits;
  }

  /** The first row that holds a batch and is up or latched, or -1. */
  int holding(List<InterlockRow> rows) {
    if (!anyActive) {
      return -1;
    }
    if (firstOut >= 0 && withholds(firstOut)) {
      return firstOut;
    }
    for (int i = 0; i < states.length; i++) {
      if (withholds(i) && rows.get(i).holdsBatch()) {
        return i;
      }
    }
    return -1;
  }

  static int indexOf(String id, List<InterlockRow> rows) {
    for (int i = 0; i < rows.size(); i++) {
      if (rows.get(i).id().equals(id)) {
        return i;
      }
    }
    return -1;
  }

  /** Whether the row of that name is up or latched. */
  boolean isActive(String id, List<InterlockRow> rows) {
    int i = anyActive ? indexOf(id, rows) : -1;
    return i >= 0 && isActive(states[i]);
  }

  private static boolean isUp(AlarmState state) {
    return state == AlarmState.UNACKNOWLEDGED || state == AlarmState.ACKNOWLEDGED;
  }

  private static boolean isActive(AlarmState state) {
    return isUp(state) || state.isLatchedOnly();
  }

  private boolean withholds(int row) {
    return isActive(states[row]) && !isDefeated(row);
  }

  private boolean anyHolding(List<InterlockRow> rows) {
    return holding(rows) >= 0;
  }

  private AlarmBoard raise(int i, InterlockRow row, String text, TickWork work) {
    boolean first = row.holdsBatch() && !isDefeated(i) && !anyHolding(work.plan.interlocks());
    AlarmBoard raised =
        with(i, states[i].raised(), first ? i : firstOut).with(chatter.came(i, work.lastMillis));
    work.event(new Event.AlarmRaised(row.id(), text, first));
    return raised;
  }

  private AlarmBoard lower(int i, InterlockRow row, TickWork work) {
    return changed(i, states[i].returned(row.latching()), row, "its cause is gone", work)
        .with(chatter.went(i, work.lastMillis));
  }

  private AlarmBoard changed(int i, AlarmState next, InterlockRow row, String why, TickWork work) {
    if (next == states[i]) {
      return this;
    }
    work.event(new Event.AlarmChanged(row.id(), next, why));
    return with(i, next, next == AlarmState.NORMAL && i == firstOut ? -1 : firstOut);
  }

  private AlarmBoard with(int i, AlarmState state, int nowFirstOut) {
    AlarmState[] changed = states.clone();
    changed[i] = state;
    return new AlarmBoard(changed, clockS, nowFirstOut, chatter, setAside);
  }

  private AlarmBoard with(Chatter next) {
    return next == chatter ? this : new AlarmBoard(states, clockS, firstOut, next, setAside);
  }

  private AlarmBoard withClock(int i, double seconds) {
    if (clockS[i] == seconds) {
      return this;
    }
    double[] changed = clockS.clone();
    changed[i] = seconds;
    return new AlarmBoard(states, changed, firstOut, chatter, setAside);
  }
}
