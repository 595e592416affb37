package tarnish.controller.control;

import java.util.ArrayList;
import java.util.List;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Switch;

/**
 * The workbench of one tick: the state being changed, the demands and the events that come of it.
 * Lives for one tick and is seen by nobody outside this package.
 */
final class TickWork {
  final Plan plan;
  final Outputs outputsBefore;

  long lastMillis;
  BatchState phase;
  String phaseWhy;
  Program program;
  Cursor cursor;
  StepRun run;
  double stepS;
  double setpointK;
  RegulatorState regulator;

  /** The setpoint on its way; null where the oven has no model. */
  Course course;

  Pulse pulse;
  GasAccount gas;
  Composition composition;
  HeatWatch heat;
  LeakRate leak;
  UptakeLog log;
  AlarmBoard alarms;
  OpenQuestion question;
  int questions;
  List<SoakRecord> soaks;
  Tally tally;
  Outputs outputs;
  Presence presence;
  Signs signs;
  Expectation expectation;

  /** Filtered sample temperature after the last tick; 0 where there was none. */
  final double sampleBeforeK;

  /** Time since the last tick in s. */
  double tickS;

  Readings readings;

  /** Bits of each {@link Symptom} that shows. */
  int symptoms;

  private int demandBits;
  private List<Event> events = List.of();

  TickWork(Plan plan, ControlState state) {
    this.plan = plan;
    outputsBefore = state.outputs();
    lastMillis = state.lastMillis();
    phase = state.phase();
    phaseWhy = state.phaseWhy();
    program = state.program();
    cursor = state.cursor();
    run = state.run();
    stepS = state.stepS();
    setpointK = state.setpointK();
    regulator = state.regulator();
    pulse = state.pulse();
    gas = state.gas();
    composition = state.composition();
    heat = state.heat();
    leak = state.leak();
    log = state.log();
    alarms = state.alarms();
    question = state.question();
    questions = state.questions();
    soaks = state.soaks();
    tally = state.tally();
    outputs = state.outputs();
    presence = state.presence();
    signs = state.signs();
    expectation = state.expectation();
    sampleBeforeK = state.heat().sampleK();
    course = plan.modelRegulator() == null ? null : state.regulator().course();
  }

  ControlState state() {
    return new ControlState(
        lastMillis,
        phase,
        phaseWhy,
        program,
        cursor,
        run,
        stepS,
        setpointK,
        regulator,
        pulse,
        gas,
        composition,
        heat,
        leak,
        log,
        alarms,
        question,
        questions,
        soaks,
        tally,
        outputs,
        presence,
        signs,
        expectation);
  }

  void event(Event event) {
    if (events.isEmpty()) {
      events = new ArrayList<>(4);
    }
    events.add(event);
    if (event instanceof Event.AlarmRaised) {
      tally = tally.withAlarm();
    }
  }

  List<Event> events() {
    return events;
  }

  /** Asks for a switch to be on in this tick; the gate decides. */
  void demand(Switch which) {
    demandBits |= InterlockRow.bit(which);
  }

  int demandBits() {
    return demandBits;
  }

  void report(String alarm, String detail) {
    alarms = alarms.report(alarm, detail, plan.interlocks(), this);
  }

  /** Whether the readings that control regulates and accounts by are all believable. */
  boolean believable() {
    return readings.isGood(Channel.SAMPLE_TEMPERATURE)
        && readings.isGood(Channel.OVEN_TEMPERATURE)
        && readings.isGood(Channel.VESSEL_PRESSURE);
  }

  double sampleK() {
    return readings.value(Channel.SAMPLE_TEMPERATURE);
  }

  double ovenK() {
    return readings.value(Channel.OVEN_TEMPERATURE);
  }

  double pressurePa() {
    return readings.value(Channel.VESSEL_PRESSURE);
  }

  double roomPa() {
    return readings.valueOr(Channel.ROOM_PRESSURE, plan.rig().roomPressurePa());
  }

  /** Room temperature where the rig has no sensor for it, in K: common practice. */
  private static final double USUAL_ROOM_K = 295;

  double roomK() {
    return readings.valueOr(Channel.ROOM_TEMPERATURE, USUAL_ROOM_K);
  }

  /** V/T of the gas space in m³/K. */
  double volumeOverTemperature() {
    return gas.model().volumeOverTemperature(heatOfGas());
  }

  GasModel.Heat heatOfGas() {
    return new GasModel.Heat(sampleK(), ovenK(), roomK());
  }

  Recipe recipe() {
    return plan.recipe();
  }

  /** The step at the cursor, or null where there is none. */
  Instruction.Do doing() {
    return cursor.position() < program.size()
            && program.at(cursor.position()) instanceof Instruction.Do run
        ? run
        : null;
  }

  /** The limits in force. */
  Limits limits() {
    return plan.limits(presence);
  }

  /**
   * The limits in force for the pressure. A vessel that may be open stands at that of the room,
   * whoever has forgotten to check in again: an absent person's limit below it would say nothing of
   * the gas and shut the sweep that keeps air from the solid.
   */
  Limits pressureLimits() {
    return mayBeOpen() && !phase.isFinal() ? plan.rig().attended() : limits();
  }

  /** Whether a person may have opened the vessel, so that its pressure says nothing. */
  boolean mayBeOpen() {
    return run instanceof OpenRun open
        && (open.stage() == OpenRun.Stage.WAITING || open.stage() == OpenRun.Stage.SWEEPING);
  }

  void ask(OpenQuestion.Purpose purpose, String prompt, Step step) {
    questions++;
    question = new OpenQuestion(questions, purpose, prompt, fields(purpose, step));
    event(new Event.Asked(questions, prompt));
  }

  private static List<tarnish.shared.recipe.Question> fields(
      OpenQuestion.Purpose purpose, Step step) {
    if (purpose == OpenQuestion.Purpose.READY_TO_OPEN) {
      return List.of();
    }
    if (step instanceof Step.Open open) {
      return open.questions();
    }
    return step instanceof Step.Ask ask ? ask.questions() : List.of();
  }

  void enter(BatchState next, String why) {
    event(new Event.StateChanged(phase, next, why));
    phase = next;
    phaseWhy = why;
  }
}
