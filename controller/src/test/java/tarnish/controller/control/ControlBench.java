package tarnish.controller.control;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.Step;
import tarnish.shared.recipe.StepCommon;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Switch;

/** Steps the control law by hand: set readings, tick, look at outputs and events. */
final class ControlBench {
  static final double TICK_S = 0.25;
  static final String PERSON = "Ada";

  final Plan plan;
  final Readings readings;
  final List<Event> events = new ArrayList<>();
  ControlState state;
  Turn last;
  long millis;

  ControlBench(RigDescription rig, Recipe recipe) {
    this(rig, believingAll(Plan.of(recipe, rig)));
  }

  /** With the rows that read heat and gas, too: then readings must be as a bench makes them. */
  static ControlBench seeing(RigDescription rig, Step... steps) {
    Plan plan = Plan.of(TestSteps.recipe(steps), rig);
    return new ControlBench(rig, plan.with(plan.interlocks(), PlausibilityRules.none()));
  }

  private ControlBench(RigDescription rig, Plan plan) {
    this.plan = plan;
    Recipe recipe = plan.recipe();
    readings = new Readings(rig.resolutions());
    state = ControlState.initial(plan);
    if (recipe.steps().stream().anyMatch(ControlBench::needsPerson)) {
      TickWork work = new TickWork(plan, state);
      work.presence = new Presence(PERSON, Long.MAX_VALUE, false);
      state = work.state();
    }
    quiet();
  }

  /** Rows that compare what the bench does with what it should do. */
  static boolean isSign(Cause cause) {
    return cause instanceof Cause.Sign
        || cause instanceof Cause.PairDisagrees
        || cause instanceof Cause.Below
        || cause instanceof Cause.BelowOrLost;
  }

  /**
   * Readings set by hand stand still and leap, and no heat or gas stands behind them; here they are
   * meant. The rows that see through that have tests of their own.
   */
  private static Plan believingAll(Plan plan) {
    return plan.with(
        plan.interlocks().stream().filter(row -> !isSign(row.cause())).toList(),
        PlausibilityRules.none());
  }

  /** A request that needs a person is made by one who comes for it and leaves again. */
  private static List<Request> inPerson(boolean attended, Request... requests) {
    boolean needed =
        Arrays.stream(requests)
            .anyMatch(
                r ->
                    r instanceof Request.Reset
                        || r instanceof Request.Answer
                        || r instanceof Request.Restart
                        || r instanceof Request.Resume);
    if (attended || !needed) {
      return List.of(requests);
    }
    List<Request> all = new ArrayList<>(List.of(requests));
    all.add(0, new Request.CheckIn(PERSON, 1));
    all.add(new Request.CheckOut(PERSON));
    return all;
  }

  private static boolean needsPerson(Step step) {
    if (step instanceof Step.Repeat repeat) {
      return repeat.steps().stream().anyMatch(ControlBench::needsPerson);
    }
    return step.common().presence() == StepCommon.Presence.ATTENDED || step instanceof Step.Open;
  }

  static ControlBench with(Step... steps) {
    return new ControlBench(new TestRig().build(), TestSteps.recipe(steps));
  }

  /** A bench at rest: everything at room temperature, the vessel at 500 mbar. */
  void quiet() {
    for (Channel channel : Channel.values()) {
      if (readings.isFitted(channel)) {
        readings.good(channel, restValue(channel));
      }
    }
  }

  static double restValue(Channel channel) {
    return switch (channel) {
      case SAMPLE_TEMPERATURE,
          OVEN_TEMPERATURE,
          OVEN_TEMPERATURE_PAIR,
          SEAL_TEMPERATURE,
          ROOM_TEMPERATURE ->
          295;
      case VESSEL_PRESSURE, VESSEL_PRESSURE_PAIR -> 50_000;
      case SUPPLY_PRESSURE -> 150_000;
      case ROOM_PRESSURE -> TestRig.ROOM_PA;
      case ROOM_OXYGEN -> 0.2095;
      case EMERGENCY_STOP, DOOR -> 1;
    };
  }

  ControlBench set(Channel channel, double value) {
    readings.good(channel, value);
    return this;
  }

  ControlBench bad(Channel channel) {
    readings.bad(channel, BadReason.OPEN_CIRCUIT);
    return this;
  }

  /** Sample and both oven sensors at one temperature. */
  ControlBench allAtK(double temperatureK) {
    set(Channel.OVEN_TEMPERATURE, temperatureK);
    if (readings.isFitted(Channel.OVEN_TEMPERATURE_PAIR)) {
      set(Channel.OVEN_TEMPERATURE_PAIR, temperatureK);
    }
    return set(Channel.SAMPLE_TEMPERATURE, temperatureK);
  }

  ControlBench pressurePa(double pressurePa) {
    return set(Channel.VESSEL_PRESSURE, pressurePa);
  }

  Turn tick(Request... requests) {
    return tickAfterMillis(250, requests);
  }

  Turn tickAfterMillis(long periodMillis, Request... requests) {
    millis += periodMillis;
    boolean attended = state.presence().attended();
    last = Control.tick(plan, state, readings, inPerson(attended, requests), millis);
    state = last.state();
    events.addAll(last.events());
    return last;
  }

  /** Ticks with a request and nobody who comes for it: only who is checked in already is there. */
  Turn tickAlone(Request... requests) {
    millis += 250;
    last = Control.tick(plan, state, readings, List.of(requests), millis);
    state = last.state();
    events.addAll(last.events());
    return last;
  }

  /** Nobody is checked in from now on. */
  ControlBench deserted() {
    TickWork work = new TickWork(plan, state);
    work.presence = Presence.NOBODY;
    state = work.state();
    return this;
  }

  /** Why the last tick refused a request; empty if it refused none. */
  String whyRefused() {
    return last.events().stream()
        .filter(Event.RequestRefused.class::isInstance)
        .map(each -> ((Event.RequestRefused) each).why())
        .findFirst()
        .orElse("");
  }

  /** What the last tick said, a sentence per line. */
  String said() {
    return last.events().stream()
        .map(Event::sentence)
        .collect(java.util.stream.Collectors.joining("\n"));
  }

  ControlBench ticks(int count) {
    for (int i = 0; i < count; i++) {
      tick();
    }
    return this;
  }

  ControlBench forSeconds(double seconds) {
    return ticks((int) StrictMath.round(seconds / TICK_S));
  }

  ControlBench start() {
    tick(new Request.Start(PERSON));
    return this;
  }

  Outputs outputs() {
    return last.outputs();
  }

  boolean isOn(Switch which) {
    return last.outputs().isOn(which);
  }

  BatchState phase() {
    return state.phase();
  }

  AlarmState alarm(String id) {
    return state.alarms().state(row(id));
  }

  int row(String id) {
    return AlarmBoard.indexOf(id, plan.interlocks());
  }

  <E extends Event> List<E> events(Class<E> kind) {
    return events.stream().filter(kind::isInstance).map(kind::cast).toList();
  }

  boolean refusedLast() {
    return last.events().stream().anyMatch(e -> e instanceof Event.RequestRefused);
  }

  /** Everything off but the heartbeat. */
  boolean allOff() {
    return (last.outputs().switches() & ~InterlockRow.bit(Switch.HEARTBEAT)) == 0
        && last.outputs().heaterPerMille() == 0;
  }
}
