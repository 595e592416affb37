package tarnish.controller.control;

import java.util.Arrays;
import java.util.List;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Limits;

/**
 * The state of every row of the interlock table. Immutable: a tick in which nothing happens gives
 * back the same instance.
 */
public final class AlarmBoard {
  private static final int NONE = -1;

  /** The alarm that came first is normal again while later ones are not. */
  private static final int GONE = Integer.MAX_VALUE;

  private final AlarmState[] states;
  private final double[] causeForS;
  private final int firstOut;

  private AlarmBoard(AlarmState[] states, double[] causeForS, int firstOut) {
    this.states = states;
    this.causeForS = causeForS;
    this.firstOut = firstOut;
  }

  static AlarmBoard allNormal(int rows) {
    AlarmState[] states = new AlarmState[rows];
    Arrays.fill(states, AlarmState.NORMAL);
    return new AlarmBoard(states, new double[rows], NONE);
  }

  AlarmState state(int row) {
    return states[row];
  }

  /** Whether this row came first among those that are not normal now. */
  boolean isFirstOut(int row) {
    return row == firstOut;
  }

  /** Looks at every row's cause. Events of changes go to {@code work}. */
  AlarmBoard judge(List<InterlockRow> rows, Readings readings, Limits limits, TickWork work) {
    AlarmBoard board = this;
    for (int i = 0; i < states.length; i++) {
      InterlockRow row = rows.get(i);
      boolean cause = row.cause().holds(readings, limits, work.tickS);
      if (cause) {
        double forS = board.causeForS[i] + work.tickS;
        board = board.withCauseFor(i, forS);
        if (forS >= row.delayS() && board.states[i].raised() != board.states[i]) {
          board = board.raise(i, row, row.what(), work);
        }
      } else if (board.causeForS[i] != 0 || isUp(board.states[i])) {
        board = board.withCauseFor(i, 0).lower(i, row, work);
      }
    }
    return board;
  }

  /** Raises a row whose cause is reported by the running step. */
  AlarmBoard report(String id, String detail, List<InterlockRow> rows, TickWork work) {
    int i = indexOf(id, rows);
    if (states[i].raised() == states[i]) {
      return this;
    }
    return raise(i, rows.get(i), (rows.get(i).what() + " " + detail).strip(), work);
  }

  AlarmBoard acknowledge(int i, InterlockRow row, String by, TickWork work) {
    return changed(i, states[i].acknowledged(), row, "acknowledged by " + by, work);
  }

  AlarmBoard reset(int i, InterlockRow row, String why, TickWork work) {
    return changed(i, states[i].reset(), row, why, work);
  }

  /** Switch bits whose permits are withheld by alarms that are up or latched. */
  int withheld(List<InterlockRow> rows) {
    if (firstOut < 0) {
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

  /** The first row that holds a batch and is up or latched, or -1 where there is none. */
  int holding(List<InterlockRow> rows) {
    if (firstOut < 0) {
      return -1;
    }
    if (firstOut != GONE && withholds(firstOut) && rows.get(firstOut).holdsBatch()) {
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

  private static boolean isUp(AlarmState state) {
    return state == AlarmState.UNACKNOWLEDGED || state == AlarmState.ACKNOWLEDGED;
  }

  private boolean withholds(int row) {
    return isUp(states[row]) || states[row].isLatchedOnly();
  }

  private boolean anyUpOrLatched() {
    for (int i = 0; i < states.length; i++) {
      if (withholds(i)) {
        return true;
      }
    }
    return false;
  }

  private AlarmBoard raise(int i, InterlockRow row, String text, TickWork work) {
    AlarmBoard raised = with(i, states[i].raised(), anyUpOrLatched() ? firstOut : i);
    work.event(new Event.AlarmRaised(row.id(), text, raised.firstOut == i));
    return raised;
  }

  private AlarmBoard lower(int i, InterlockRow row, TickWork work) {
    return changed(i, states[i].returned(row.latching()), row, "its cause is gone", work);
  }

  private AlarmBoard changed(int i, AlarmState next, InterlockRow row, String why, TickWork work) {
    if (next == states[i]) {
      return this;
    }
    work.event(new Event.AlarmChanged(row.id(), next, why));
    AlarmBoard changed = with(i, next, firstOut);
    if (changed.allNormal()) {
      return changed.with(i, next, NONE);
    }
    return i == firstOut && next == AlarmState.NORMAL ? changed.with(i, next, GONE) : changed;
  }

  private boolean allNormal() {
    for (AlarmState state : states) {
      if (state != AlarmState.NORMAL) {
        return false;
      }
    }
    return true;
  }

  private AlarmBoard with(int i, AlarmState state, int firstOut) {
    AlarmState[] changed = states.clone();
    changed[i] = state;
    return new AlarmBoard(changed, causeForS, firstOut);
  }

  private AlarmBoard withCauseFor(int i, double seconds) {
    if (causeForS[i] == seconds) {
      return this;
    }
    double[] changed = causeForS.clone();
    changed[i] = seconds;
    return new AlarmBoard(states, changed, firstOut);
  }
}
