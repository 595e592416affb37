package tarnish.controller.control;

import java.util.List;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Switch;

/**
 * Looks into a state for those who check control from outside: cheap enough for every tick, and
 * without a way to change anything.
 */
public final class Audit {
  /** The most times that the table lets one row come within a minute. */
  public static final int ALARMS_IN_A_MINUTE_MAX = Chatter.MOST_IN_A_MINUTE;

  private final Plan plan;
  private final List<InterlockRow> rows;
  private ControlState state;

  public Audit(Plan plan) {
    this.plan = plan;
    this.rows = plan.interlocks();
    this.state = ControlState.initial(plan);
  }

  /** Looks at this state from now on. */
  public Audit of(ControlState now) {
    state = now;
    return this;
  }

  public int rows() {
    return rows.size();
  }

  public String id(int row) {
    return rows.get(row).id();
  }

  /** Place of a row by its name, or -1 where this plan has none. */
  public int row(String id) {
    return AlarmBoard.indexOf(id, rows);
  }

  public AlarmState alarm(int row) {
    return state.alarms().state(row);
  }

  public boolean isActive(int row) {
    AlarmState now = state.alarms().state(row);
    return now == AlarmState.UNACKNOWLEDGED
        || now == AlarmState.ACKNOWLEDGED
        || now.isLatchedOnly();
  }

  public boolean isLatching(int row) {
    return rows.get(row).latching();
  }

  public boolean holdsBatch(int row) {
    return rows.get(row).holdsBatch();
  }

  public boolean isDefeated(int row) {
    return state.alarms().isDefeated(row);
  }

  public boolean anyDefeated() {
    return state.alarms().anyDefeated();
  }

  /** Whether a row that holds the batch is up or latched, and enforced. */
  public boolean anyHolding() {
    return state.alarms().holding(rows) >= 0;
  }

  /** Permits that have fallen, one bit for each switch by its ordinal. */
  public int withheldBits() {
    int bits = 0;
    for (int i = 0; i < rows.size(); i++) {
      if (isActive(i) && !isDefeated(i)) {
        bits |= rows.get(i).effects();
      }
    }
    return bits;
  }

  public static int bit(Switch which) {
    return InterlockRow.bit(which);
  }

  /** Whether a person has been asked to open the vessel, and may have done so. */
  public boolean mayBeOpen() {
    return new TickWork(plan, state).mayBeOpen();
  }

  /** Whether the step that runs may only run with a person there. */
  public boolean runsAttendedStep() {
    TickWork work = new TickWork(plan, state);
    return state.phase() == BatchState.RUNNING
        && state.run() != null
        && work.doing() != null
        && Presences.needsPerson(work.doing().step());
  }

  /** The kind of the present step; empty where none is begun. */
  public String stepKind() {
    Instruction.Do doing = state.run() == null ? null : new TickWork(plan, state).doing();
    return doing == null ? "" : doing.step().kind();
  }

  /** Time that the step that runs is over its limit, in s; negative while it is not. */
  public double overLimitS() {
    Instruction.Do doing = state.run() == null ? null : new TickWork(plan, state).doing();
    double limitS =
        doing == null
            ? Double.MAX_VALUE
            : doing.step().common().timeLimitS().orElse(Double.MAX_VALUE);
    return state.question() != null ? -1 : state.stepS() - limitS;
  }

  /** Place of the step in the recipe's line. */
  public int position() {
    return state.cursor().position();
  }

  /** Time earned by the soak that runs, in s; -1 where none runs. */
  public double soakInBandS() {
    return state.run() instanceof SoakRun soak ? soak.inBandS() : -1;
  }

  /** The soak that runs, or null. */
  public Step.Soak soak() {
    return state.run() instanceof SoakRun soak ? soak.step() : null;
  }

  /** Whether a channel's value is not believed although its device calls it good. */
  public boolean doubts(tarnish.shared.reading.Channel channel) {
    return state.signs().plausibility().doubt(channel) != null;
  }

  /** The gauge's zero as learnt, in Pa. */
  public double gaugeZeroPa() {
    return state.gas().zeroPa().value();
  }

  public double seenUptakeMol() {
    return state.gas().seenUptakeMol();
  }

  /** Whether gas comes or goes past the valves, so that no uptake is counted. */
  public boolean doubtsGas() {
    return state.gas().isDoubted();
  }

  /** Standard uncertainty of the uptake, in mol. */
  public double uptakeUncertaintyMol() {
    return state.gas().total().standardUncertainty();
  }

  /** Whether the lag of the sample behind the oven has been learned. */
  public boolean knowsLag() {
    return state.signs().heat().lag().learned() >= 2;
  }

  /** Sample temperature at which it was learned last, in K. */
  public double lagLearnedAtK() {
    return state.signs().heat().lag().learnedAtK();
  }
}
