package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.Switch;

/** Every row of the table that a reading can provoke, written down a second time here. */
class InterlocksTest {
  private static final Set<Switch> HEAT_RELAY =
      Set.of(Switch.HEATER, Switch.OXYGEN, Switch.HEARTBEAT);
  private static final Set<Switch> HEAT_OXYGEN = Set.of(Switch.HEATER, Switch.OXYGEN);
  private static final Set<Switch> SUPPLIES = Set.of(Switch.HEATER, Switch.OXYGEN, Switch.INERT);
  private static final Set<Switch> ALL_BUT_VENT =
      Set.of(
          Switch.HEATER, Switch.OXYGEN, Switch.INERT, Switch.VACUUM, Switch.PUMP, Switch.HEARTBEAT);

  /** {@code value} provokes it, null stands for a bad reading; {@code limit} does not yet. */
  record Row(
      String id, Channel channel, Double value, double limit, double delayS, Set<Switch> off) {
    void provoke(ControlBench bench) {
      if (value == null) {
        bench.bad(channel);
      } else {
        bench.set(channel, value);
      }
    }

    void cure(ControlBench bench) {
      bench.set(channel, ControlBench.restValue(channel));
    }

    /** Ticks of bad news up to and including the one in which it acts. */
    int ticksToAct() {
      return (int) StrictMath.max(1, StrictMath.ceil(delayS / ControlBench.TICK_S));
    }

    @Override
    public String toString() {
      return id;
    }
  }

  static List<Row> rows() {
    return List.of(
        new Row("emergency stop", Channel.EMERGENCY_STOP, 0.0, 1, 0, ALL_BUT_VENT),
        new Row("emergency stop", Channel.EMERGENCY_STOP, null, 1, 0, ALL_BUT_VENT),
        // 23.5 %: oxygen-enriched by 29 CFR 1910.146(b).
        new Row("room oxygen high", Channel.ROOM_OXYGEN, 0.2352, 0.2349, 0.5, HEAT_OXYGEN),
        new Row("sample too hot", Channel.SAMPLE_TEMPERATURE, 833.2, 833.15, 0.5, HEAT_RELAY),
        new Row("oven too hot", Channel.OVEN_TEMPERATURE, 923.2, 923.15, 0.5, HEAT_RELAY),
        new Row(
            "second oven sensor too hot",
            Channel.OVEN_TEMPERATURE_PAIR,
            923.2,
            923.15,
            0.5,
            HEAT_RELAY),
        new Row("seal too hot", Channel.SEAL_TEMPERATURE, 413.2, 413.1, 0.5, HEAT_OXYGEN),
        new Row("pressure too high", Channel.VESSEL_PRESSURE, 106_020.0, 106_000, 0.5, SUPPLIES),
        new Row(
            "second gauge pressure too high",
            Channel.VESSEL_PRESSURE_PAIR,
            106_020.0,
            106_000,
            0.5,
            SUPPLIES),
        new Row("sample temperature lost", Channel.SAMPLE_TEMPERATURE, null, 295, 1, HEAT_OXYGEN),
        new Row("oven temperature lost", Channel.OVEN_TEMPERATURE, null, 295, 1, HEAT_OXYGEN),
        new Row("seal temperature lost", Channel.SEAL_TEMPERATURE, null, 295, 1, HEAT_OXYGEN),
        new Row("vessel pressure lost", Channel.VESSEL_PRESSURE, null, 50_000, 1, HEAT_OXYGEN),
        new Row(
            "second oven temperature lost",
            Channel.OVEN_TEMPERATURE_PAIR,
            null,
            295,
            1,
            HEAT_OXYGEN),
        new Row(
            "second vessel pressure lost",
            Channel.VESSEL_PRESSURE_PAIR,
            null,
            50_000,
            1,
            HEAT_OXYGEN));
  }

  /** Running a ramp with the heater on. */
  private static ControlBench heating() {
    ControlBench bench = ControlBench.with(TestSteps.ramp(700, 0.1)).start().forSeconds(60);
    assertTrue(bench.isOn(Switch.HEATER), "the heater must be on for a trip to mean anything");
    return bench;
  }

  @ParameterizedTest
  @MethodSource("rows")
  void aRowActsAfterItsDelayAndNotBefore(Row row) {
    ControlBench bench = heating();
    bench.set(row.channel(), row.limit()).ticks(20);
    assertEquals(AlarmState.NORMAL, bench.alarm(row.id()), "at the limit it must not act");

    row.provoke(bench);
    bench.ticks(row.ticksToAct() - 1);
    assertEquals(AlarmState.NORMAL, bench.alarm(row.id()));
    assertEquals(BatchState.RUNNING, bench.phase());
    bench.tick();
    assertEquals(AlarmState.UNACKNOWLEDGED, bench.alarm(row.id()));
    assertTrue(bench.allOff(), "outputs must be off in the tick of the trip");
    assertEquals(BatchState.HELD, bench.phase());
    List<BatchState> way =
        bench.events(Event.StateChanged.class).stream().map(Event.StateChanged::to).toList();
    assertEquals(List.of(BatchState.RUNNING, BatchState.HOLDING, BatchState.HELD), way);
    assertEquals(1, bench.state.tally().trips());
    assertEquals(1, bench.state.tally().alarms());
  }

  @ParameterizedTest
  @MethodSource("rows")
  void aRowWithholdsItsOutputsWhileItIsUpOrLatched(Row row) {
    ControlBench bench = heating();
    int bits = row.off().stream().mapToInt(InterlockRow::bit).sum();
    assertEquals(0, bench.state.alarms().withheld(bench.plan.interlocks()));
    row.provoke(bench);
    bench.ticks(row.ticksToAct());
    assertEquals(bits, bench.state.alarms().withheld(bench.plan.interlocks()));
    bench.tick(new Request.Acknowledge("Ada", row.id()));
    assertEquals(AlarmState.ACKNOWLEDGED, bench.alarm(row.id()));
    assertEquals(bits, bench.state.alarms().withheld(bench.plan.interlocks()));
    row.cure(bench);
    bench.forSeconds(12);
    assertEquals(AlarmState.LATCHED_ACKNOWLEDGED, bench.alarm(row.id()));
    assertEquals(bits, bench.state.alarms().withheld(bench.plan.interlocks()));
    Report report = new Report(bench.plan, bench.state);
    for (Switch each : Switch.values()) {
      assertEquals(row.off().contains(each) ? row.id() : "", report.withheldBy(each));
    }
  }

  @ParameterizedTest
  @MethodSource("rows")
  void badNewsShorterThanTheDelayNeverTrips(Row row) {
    ControlBench bench = heating();
    for (int i = 0; i < 100 && row.ticksToAct() > 1; i++) {
      row.provoke(bench);
      bench.ticks(row.ticksToAct() - 1);
      row.cure(bench);
      // A sensor that is bad now and then is another matter: see below.
      bench.ticks(row.value() == null ? 40 : 1);
    }
    assertEquals(BatchState.RUNNING, bench.phase());
    assertTrue(bench.events(Event.AlarmRaised.class).isEmpty());
  }

  @Test
  void aLooseContactThatGivesAValueNowAndThenIsFound() {
    ControlBench bench = heating();
    for (int i = 0; i < 60; i++) {
      bench.bad(Channel.SAMPLE_TEMPERATURE).tick();
      bench.set(Channel.SAMPLE_TEMPERATURE, 295).ticks(3);
    }
    assertEquals(BatchState.HELD, bench.phase());
  }

  @ParameterizedTest
  @MethodSource("rows")
  void aTripIsResetOnlyWithAReasonAndOnlyWithItsCauseGone(Row row) {
    ControlBench bench = heating();
    row.provoke(bench);
    bench.ticks(row.ticksToAct());
    bench.tick(new Request.Reset("Ada", row.id(), "looked at it"));
    assertTrue(bench.refusedLast(), "the cause is still there");
    row.cure(bench);
    bench.forSeconds(60);
    assertEquals(AlarmState.LATCHED_UNACKNOWLEDGED, bench.alarm(row.id()));
    bench.tick(new Request.Restart("Ada"));
    assertTrue(bench.refusedLast(), "a latched trip forbids the restart");
    bench.tick(new Request.Reset("Ada", row.id(), "  "));
    assertTrue(bench.refusedLast(), "a reset needs a reason");
    assertEquals(BatchState.HELD, bench.phase());

    bench.tick(new Request.Reset("Ada", row.id(), "cable mended"));
    assertFalse(bench.refusedLast());
    assertEquals(AlarmState.NORMAL, bench.alarm(row.id()));
    Event.AlarmChanged last =
        bench.events(Event.AlarmChanged.class).stream().reduce((a, b) -> b).orElseThrow();
    assertEquals("reset by Ada: cable mended", last.why());
    bench.tick(new Request.Restart("Ada"));
    assertEquals(BatchState.RUNNING, bench.phase());
  }

  @ParameterizedTest
  @MethodSource("rows")
  void aTripForbidsTheStart(Row row) {
    ControlBench bench = ControlBench.with(TestSteps.ramp(700, 0.1));
    row.provoke(bench);
    bench.ticks(row.ticksToAct());
    assertEquals(AlarmState.UNACKNOWLEDGED, bench.alarm(row.id()));
    bench.start();
    assertTrue(bench.refusedLast());
    assertEquals(BatchState.IDLE, bench.phase());
  }

  @Test
  void theTableHasNoRowThatTheseTestsForget() {
    Set<String> tested = rows().stream().map(Row::id).collect(Collectors.toSet());
    Set<String> others =
        Set.of(
            "door open",
            "room oxygen lost",
            "glass over its rating",
            "loop overrun",
            InterlockTable.POWER_RETURNED,
            InterlockTable.JOURNAL_NOT_WRITABLE,
            InterlockTable.CLOCK_LOST,
            InterlockTable.CLOCK_STEPPED,
            InterlockTable.STEP_OVERDUE,
            InterlockTable.LEAK_TEST_FAILED,
            InterlockTable.NO_PRESSURE_STEP);
    Set<String> all = Stream.concat(tested.stream(), others.stream()).collect(Collectors.toSet());
    Set<String> table =
        InterlockTable.of(new TestRig().build()).stream()
            .filter(row -> !ControlBench.isSign(row.cause()))
            .map(InterlockRow::id)
            .collect(Collectors.toSet());
    assertEquals(all, table);
  }

  @Test
  void rowsOfSensorsThatAreNotFittedAreLeftOut() {
    TestRig rig = new TestRig();
    rig.notFitted.addAll(
        List.of(
            Channel.DOOR,
            Channel.ROOM_OXYGEN,
            Channel.OVEN_TEMPERATURE_PAIR,
            Channel.SEAL_TEMPERATURE,
            Channel.VESSEL_PRESSURE_PAIR));
    Set<String> ids =
        InterlockTable.of(rig.build()).stream().map(InterlockRow::id).collect(Collectors.toSet());
    assertFalse(ids.contains("door open"));
    assertFalse(ids.contains("room oxygen high"));
    assertFalse(ids.contains("second oven sensor too hot"));
    assertFalse(ids.contains("seal too hot"));
    assertFalse(ids.contains("seal temperature lost"));
    assertFalse(ids.contains("second gauge pressure too high"));
    assertTrue(ids.contains("emergency stop"));
    ControlBench bench = new ControlBench(rig.build(), TestSteps.recipe(TestSteps.ramp(400, 0.1)));
    bench.start().forSeconds(10);
    assertEquals(BatchState.RUNNING, bench.phase());
  }

  @Test
  void anOpenDoorCutsTheHeatAndLetsItComeBackByItself() {
    ControlBench bench = heating();
    bench.set(Channel.DOOR, 0).tick();
    assertEquals(AlarmState.NORMAL, bench.alarm("door open"));
    bench.tick();
    assertFalse(bench.isOn(Switch.HEATER));
    assertEquals(0, bench.outputs().heaterPerMille());
    assertEquals(BatchState.RUNNING, bench.phase());
    assertEquals("door open", new Report(bench.plan, bench.state).withheldBy(Switch.HEATER));
    bench.set(Channel.DOOR, 1).forSeconds(1);
    assertEquals(AlarmState.RETURNED_UNACKNOWLEDGED, bench.alarm("door open"));
    assertTrue(bench.isOn(Switch.HEATER));
    bench.tick(new Request.Acknowledge("Ada", "door open"));
    assertEquals(AlarmState.NORMAL, bench.alarm("door open"));
    assertEquals(0, bench.state.tally().trips());
  }

  @Test
  void aLoopLaterThanTwoSecondsHoldsTheBatchAtOnce() {
    ControlBench bench = heating();
    bench.tickAfterMillis(2000);
    assertEquals(BatchState.RUNNING, bench.phase());
    bench.tickAfterMillis(2001);
    assertEquals(BatchState.HELD, bench.phase());
    assertTrue(bench.allOff());
    bench.tick();
    assertEquals(AlarmState.LATCHED_UNACKNOWLEDGED, bench.alarm("loop overrun"));
  }

  @Test
  void powerReturnedHoldsTheBatchHoweverLongTheOutageWas() {
    ControlBench bench = heating();
    double runningS = bench.state.tally().runningS();
    bench.tickAfterMillis(7_200_000, new Request.PowerReturned("service", 7200));
    assertEquals(BatchState.HELD, bench.phase());
    assertTrue(bench.allOff());
    assertEquals(AlarmState.NORMAL, bench.alarm("loop overrun"));
    assertEquals(AlarmState.UNACKNOWLEDGED, bench.alarm(InterlockTable.POWER_RETURNED));
    assertEquals(runningS + ControlBench.TICK_S, bench.state.tally().runningS(), 1e-9);
    Event.AlarmRaised raised = bench.events(Event.AlarmRaised.class).get(0);
    assertTrue(raised.text().contains("2 h"), raised.text());
  }

  @Test
  void aTroubleOfTheShellHoldsTheBatch() {
    ControlBench bench = heating();
    bench.tick(
        new Request.ShellTrouble("service", InterlockTable.JOURNAL_NOT_WRITABLE, "Disk full."));
    assertEquals(BatchState.HELD, bench.phase());
    assertTrue(bench.allOff());
    Event.AlarmRaised raised = bench.events(Event.AlarmRaised.class).get(0);
    assertTrue(raised.text().endsWith("Disk full."), raised.text());
  }

  @Test
  void aTroubleThatTheTableDoesNotKnowIsRefusedAndStopsNoLoop() {
    ControlBench bench = heating();
    bench.tick(new Request.ShellTrouble("service", "moon is full", "?"));
    assertTrue(bench.refusedLast());
    assertEquals(BatchState.RUNNING, bench.phase());
  }

  @Test
  void anAvalancheMarksOnlyItsFirstAlarm() {
    ControlBench bench = heating();
    bench.set(Channel.SEAL_TEMPERATURE, 500).tick();
    for (Row row : rows()) {
      if (row.channel() != Channel.SEAL_TEMPERATURE && row.value() != null) {
        if (row.delayS() > 0) {
          row.provoke(bench);
        }
      }
    }
    bench.ticks(10);
    List<Event.AlarmRaised> raised = bench.events(Event.AlarmRaised.class);
    assertTrue(raised.size() >= 6, "an avalanche: " + raised);
    assertEquals("seal too hot", raised.get(0).alarm());
    assertTrue(raised.get(0).firstOut());
    assertTrue(raised.stream().skip(1).noneMatch(Event.AlarmRaised::firstOut));
    List<String> marked =
        new Report(bench.plan, bench.state)
            .interlocks().stream().filter(Report.Row::firstOut).map(Report.Row::id).toList();
    assertEquals(List.of("seal too hot"), marked);
    assertTrue(bench.state.phaseWhy().contains("seal"), bench.state.phaseWhy());
    assertEquals(1, bench.state.tally().trips());
    assertEquals(raised.size(), bench.state.tally().alarms());
  }

  @Test
  void anAlarmThatIsResetIsNoLongerTheFirstOut() {
    ControlBench bench = heating();
    bench.set(Channel.SEAL_TEMPERATURE, 500).ticks(2);
    bench.set(Channel.ROOM_OXYGEN, 0.24).ticks(2);
    bench.set(Channel.SEAL_TEMPERATURE, 295).forSeconds(1);
    bench.tick(new Request.Reset("Ada", "seal too hot", "fan was off"));
    assertFalse(bench.state.alarms().isFirstOut(bench.row("seal too hot")));
    bench.set(Channel.SEAL_TEMPERATURE, 500).ticks(2);
    List<Event.AlarmRaised> raised = bench.events(Event.AlarmRaised.class);
    assertEquals(3, raised.size());
    assertFalse(raised.get(2).firstOut(), "room oxygen was up before it");
  }

  @Test
  void afterAllIsNormalTheNextAlarmIsFirstOutAgain() {
    ControlBench bench = heating();
    for (String id : List.of("seal too hot", "room oxygen high", "seal too hot")) {
      Channel channel = id.startsWith("seal") ? Channel.SEAL_TEMPERATURE : Channel.ROOM_OXYGEN;
      bench.set(channel, channel == Channel.ROOM_OXYGEN ? 0.24 : 500).ticks(2);
      bench.set(channel, ControlBench.restValue(channel)).forSeconds(1);
      bench.tick(new Request.Reset("Ada", id, "seen"));
    }
    assertTrue(
        bench.events(Event.AlarmRaised.class).stream().allMatch(Event.AlarmRaised::firstOut));
    assertEquals(3, bench.events(Event.AlarmRaised.class).size());
  }

  @Test
  void anAttendedStepHasTheAttendedLimitsAndAnUnattendedOneTheOthers() {
    double between = 850;
    ControlBench attended =
        ControlBench.with(
            new tarnish.shared.recipe.Step.Ramp(TestSteps.attended("Ramp"), 860, 0.1));
    attended.start().set(Channel.SAMPLE_TEMPERATURE, between).forSeconds(10);
    assertEquals(BatchState.RUNNING, attended.phase());
    attended.set(Channel.SAMPLE_TEMPERATURE, 873.2).forSeconds(1);
    assertEquals(BatchState.HELD, attended.phase());

    ControlBench unattended = ControlBench.with(TestSteps.ramp(860, 0.1));
    unattended.start().set(Channel.SAMPLE_TEMPERATURE, between).forSeconds(1);
    assertEquals(BatchState.HELD, unattended.phase());
  }

  @Test
  void thePersonsLeavingBringsTheUnattendedLimitsWhateverTheStepSays() {
    ControlBench bench =
        ControlBench.with(
            new tarnish.shared.recipe.Step.Ramp(TestSteps.attended("Ramp"), 860, 0.1));
    bench.start().set(Channel.SAMPLE_TEMPERATURE, 850).forSeconds(10);
    bench.tick(new Request.CheckOut("Ada"));
    assertTrue(bench.refusedLast(), "nobody leaves a bench above its unattended limits");
    bench.set(Channel.SAMPLE_TEMPERATURE, 830).tick(new Request.CheckOut("Ada"));
    bench.set(Channel.SAMPLE_TEMPERATURE, 850).forSeconds(1);
    assertEquals(BatchState.HELD, bench.phase());
  }

  @Test
  void whatIsNotANumberCannotEnter() {
    for (double wild : new double[] {Double.NaN, Double.POSITIVE_INFINITY, -1 / 0.0}) {
      ControlBench bench = heating();
      bench.set(Channel.SAMPLE_TEMPERATURE, wild).tick();
      assertTrue(bench.allOff());
      assertFalse(bench.readings.isGood(Channel.SAMPLE_TEMPERATURE));
      bench.ticks(3);
      assertEquals(AlarmState.UNACKNOWLEDGED, bench.alarm("sample temperature lost"));
    }
  }

  @Test
  void alarmsThatAreNotThereCanNeitherBeAcknowledgedNorReset() {
    ControlBench bench = heating();
    for (String id : List.of("seal too hot", "no such alarm")) {
      bench.tick(new Request.Acknowledge("Ada", id));
      assertTrue(bench.refusedLast());
      bench.tick(new Request.Reset("Ada", id, "why not"));
      assertTrue(bench.refusedLast());
    }
    bench.set(Channel.SEAL_TEMPERATURE, 500).ticks(2);
    bench.tick(new Request.Acknowledge("Ada", "seal too hot"));
    assertFalse(bench.refusedLast());
    bench.tick(new Request.Acknowledge("Ada", "seal too hot"));
    assertTrue(bench.refusedLast(), "it is acknowledged already");
  }

  @Test
  void aNewBatchDoesNotForgetALatchedTrip() {
    ControlBench bench = heating();
    bench.set(Channel.SEAL_TEMPERATURE, 500).ticks(2);
    bench.set(Channel.SEAL_TEMPERATURE, 295).tick(new Request.Abort("Ada"));
    bench.forSeconds(1);
    Request found = AsFound.after("Tarnish", bench.plan, bench.state).orElseThrow();
    bench.state = ControlState.initial(bench.plan);
    bench.millis = 0;
    bench.tick(found, new Request.Start("Ada"));
    assertTrue(bench.refusedLast());
    assertEquals(AlarmState.LATCHED_UNACKNOWLEDGED, bench.alarm("seal too hot"));
    bench.tick(new Request.Reset("Ada", "seal too hot", "fan mended"));
    bench.start();
    assertEquals(BatchState.RUNNING, bench.phase());
  }

  @Test
  void everyRowSaysWhatHappenedWhatWasDoneAndWhatToDo() {
    ControlBench bench = heating();
    for (Report.Row row : new Report(bench.plan, bench.state).interlocks()) {
      assertFalse(row.what().isBlank());
      assertFalse(row.todo().isBlank());
      assertFalse(row.limit().isBlank());
      assertTrue(row.done().startsWith("Off: ") || !row.holdsBatch(), row.done());
      assertEquals(row.holdsBatch(), row.done().endsWith("; the batch is held."), row.done());
      assertEquals(row.holdsBatch(), row.latching());
      assertNotEquals("", row.priority());
      assertEquals(AlarmState.NORMAL, row.state());
      assertFalse(row.firstOut());
    }
  }

  @Test
  void aRefusedRestartNamesTheAlarmThatCameFirst() {
    ControlBench bench = heating();
    bench.set(Channel.SEAL_TEMPERATURE, 500).ticks(2);
    bench.set(Channel.ROOM_OXYGEN, 0.24).ticks(2);
    bench.tick(new Request.Restart("Ada"));
    assertTrue(lastRefusal(bench).contains("seal temperature"), lastRefusal(bench));
    bench.set(Channel.SEAL_TEMPERATURE, 295).forSeconds(1);
    bench.tick(new Request.Reset("Ada", "seal too hot", "fan mended"), new Request.Restart("Ada"));
    assertTrue(lastRefusal(bench).contains("too much oxygen"), lastRefusal(bench));
    assertEquals(
        1,
        bench.events(Event.RequestDone.class).stream()
            .filter(e -> e.what().equals("reset 'seal too hot'"))
            .count());
  }

  private static String lastRefusal(ControlBench bench) {
    return bench.events(Event.RequestRefused.class).stream()
        .reduce((a, b) -> b)
        .orElseThrow()
        .why();
  }

  @Test
  void aDoorThatIsOpenDoesNotForbidARestart() {
    ControlBench bench = heating();
    bench.set(Channel.DOOR, 0).ticks(2);
    bench.set(Channel.SEAL_TEMPERATURE, 500).ticks(2);
    assertEquals(BatchState.HELD, bench.phase());
    assertTrue(bench.state.phaseWhy().contains("seal"), bench.state.phaseWhy());
    bench.set(Channel.SEAL_TEMPERATURE, 295).forSeconds(1);
    bench.tick(new Request.Reset("Ada", "seal too hot", "fan mended"), new Request.Restart("Ada"));
    assertEquals(BatchState.RUNNING, bench.phase());
    assertFalse(bench.isOn(Switch.HEATER));
  }

  @Test
  void aTroubleThatIsReportedAgainIsOneAlarm() {
    ControlBench bench = heating();
    Request trouble =
        new Request.ShellTrouble("service", InterlockTable.JOURNAL_NOT_WRITABLE, "Disk full.");
    bench.tick(trouble, trouble);
    assertEquals(1, bench.events(Event.AlarmRaised.class).size());
    bench.tick();
    assertEquals(
        AlarmState.LATCHED_UNACKNOWLEDGED, bench.alarm(InterlockTable.JOURNAL_NOT_WRITABLE));
    bench.tick(trouble);
    assertEquals(2, bench.events(Event.AlarmRaised.class).size(), "it came back");
  }
}
