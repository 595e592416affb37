package tarnish.controller.control;

import java.util.List;
import java.util.Optional;
import tarnish.shared.rig.Outputs;

/**
 * Everything control knows between two ticks. Immutable.
 *
 * @param lastMillis monotonic time of the last tick, in ms since the batch began; -1 before the
 *     first
 * @param phase state of the batch
 * @param phaseWhy why it is in that state, in words
 * @param program the steps as they stand: the recipe's, with what people changed
 * @param cursor place in the program
 * @param run what the present step remembers; null where no step is begun
 * @param stepS time spent running the present step, in s
 * @param setpointK where the temperature is held; negative: heater off
 * @param regulator of the temperature
 * @param pulse of the oxygen valve
 * @param gas account of the gas
 * @param composition by all witnesses
 * @param heat of the last pulse
 * @param leak found by the last leak test
 * @param log of the uptake
 * @param alarms state of the interlock table
 * @param question open question, or null
 * @param questions questions asked so far
 * @param soaks soaks done so far
 * @param tally of times and peaks
 * @param outputs given in the last tick
 * @param presence who answers for the bench
 * @param signs what is remembered of the readings to judge the next ones by
 * @param expectation what was expected of the batch, and whether it does it
 */
public record ControlState(
    long lastMillis,
    BatchState phase,
    String phaseWhy,
    Program program,
    Cursor cursor,
    StepRun run,
    double stepS,
    double setpointK,
    RegulatorState regulator,
    Pulse pulse,
    GasAccount gas,
    Composition composition,
    HeatWatch heat,
    LeakRate leak,
    UptakeLog log,
    AlarmBoard alarms,
    OpenQuestion question,
    int questions,
    List<SoakRecord> soaks,
    Tally tally,
    Outputs outputs,
    Presence presence,
    Signs signs,
    Expectation expectation) {

  static final double HEATER_OFF = -1;

  /** Place of the present step in the program, from 0. */
  public int stepPosition() {
    return cursor.position();
  }

  /** What a rehearsal expects of this batch; null where there is none. */
  public ExpectedCourse expectedCourse() {
    return expectation.course();
  }

  /** Between which uptakes, in mol, the batch is expected now; empty where nothing is. */
  public Optional<double[]> expectedUptakeMol() {
    if (expectation.segment() == null || stepVisit() == 0) {
      return Optional.empty();
    }
    double[] bounds = expectation.segment().at(stepS);
    return Optional.of(new double[] {StrictMath.max(0, bounds[4]), StrictMath.max(0, bounds[5])});
  }

  /** How many times the present step was begun; 0 between two steps. */
  public int stepVisit() {
    boolean between = run == null || expectation.position() != cursor.position();
    return between ? 0 : expectation.visits()[expectation.position()];
  }

  /** The state before the first tick of a batch. */
  public static ControlState initial(Plan plan) {
    return new ControlState(
        -1,
        BatchState.IDLE,
        "waiting to be started",
        plan.program(),
        Cursor.start(plan.program().size()),
        null,
        0,
        HEATER_OFF,
        RegulatorState.IDLE,
        Pulse.NONE,
        GasAccount.empty(plan.gasModel(), plan.rig().oxygen()),
        Composition.ofCharge(plan),
        HeatWatch.NONE,
        LeakRate.UNKNOWN,
        UptakeLog.EMPTY,
        AlarmBoard.allNormal(plan.interlocks().size()),
        null,
        0,
        List.of(),
        Tally.NONE,
        plan.rig().safeOutputs(),
        Presence.NOBODY,
        Signs.none(),
        Expectation.of(plan.program().size()));
  }

  /** The state before the first tick of a batch whose steps were changed. */
  public static ControlState initial(Plan plan, Program changed) {
    TickWork work = new TickWork(plan, initial(plan));
    work.program = changed;
    return work.state();
  }
}
