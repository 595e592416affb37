package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Defeat;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Switch;

class PresenceTest {
  private static final Step ATTENDED_RAMP = new Step.Ramp(TestSteps.attended("Ramp"), 500, 0.1);

  static ControlBench alone(Recipe recipe, RigDescription rig) {
    ControlBench bench = new ControlBench(rig, recipe);
    TickWork work = new TickWork(bench.plan, bench.state);
    work.presence = Presence.NOBODY;
    bench.state = work.state();
    return bench;
  }

  private static ControlBench alone(Step... steps) {
    return alone(TestSteps.recipe(steps), new TestRig().build());
  }

  static Recipe with(Recipe.WhenAlone alone, Step... steps) {
    Recipe r = TestSteps.recipe(steps);
    return new Recipe(
        r.title(),
        r.invented(),
        r.charge(),
        r.chargeMolarMassKgPerMol(),
        r.series(),
        r.target(),
        r.activationEnergyJPerMol(),
        r.reactionEnthalpyJPerMolO2(),
        r.vesselName(),
        r.oxygenSourceName(),
        r.steps(),
        r.rehearsal(),
        alone);
  }

  @Test
  void aStepThatNeedsAPersonWaitsWithTheHeaterOffUntilOneChecksIn() {
    ControlBench bench = alone(ATTENDED_RAMP);
    bench.start().forSeconds(60);
    assertEquals(BatchState.RUNNING, bench.phase());
    assertFalse(bench.isOn(Switch.HEATER));
    bench.tick(new Request.CheckIn("Bo", 2));
    bench.forSeconds(60);
    assertTrue(bench.isOn(Switch.HEATER));
  }

  /** Alone before an opening, everything at one temperature for a minute. */
  private static ControlBench aloneBeforeAnOpening(double temperatureK) {
    ControlBench bench = ControlBench.seeing(new TestRig().build(), TestSteps.open());
    TickWork work = new TickWork(bench.plan, bench.state);
    work.presence = Presence.NOBODY;
    bench.state = work.state();
    return bench.allAtK(temperatureK).start().forSeconds(60);
  }

  @Test
  void aVesselThatIsTooHotToBeOpenedDoesNotAskForAPersonYet() {
    ControlBench bench = aloneBeforeAnOpening(330);
    assertEquals(BatchState.RUNNING, bench.phase(), bench.state.phaseWhy());
    assertEquals(AlarmState.NORMAL, bench.alarm(InterlockTable.PERSON_NEEDED));
    assertFalse(PersonNeed.waits(bench.plan, bench.state));
  }

  @Test
  void aColdVesselToBeOpenedAsksForAPersonAndIsNotBroughtToRoomPressureBefore() {
    ControlBench bench = aloneBeforeAnOpening(313);
    assertEquals(BatchState.RUNNING, bench.phase(), bench.state.phaseWhy());
    assertTrue(bench.alarm(InterlockTable.PERSON_NEEDED).isUnacknowledged());
    assertTrue(PersonNeed.waits(bench.plan, bench.state));
    assertEquals(OpenRun.Stage.COOLING, ((OpenRun) bench.state.run()).stage());
    bench.tick(new Request.CheckIn("Bo", 2));
    bench.ticks(2);
    assertFalse(PersonNeed.waits(bench.plan, bench.state));
    assertEquals(OpenRun.Stage.RELIEVING, ((OpenRun) bench.state.run()).stage());
  }

  @Test
  void aCheckInRunsOutAndTheStepThatNeedsAPersonPauses() {
    ControlBench bench = alone(ATTENDED_RAMP);
    bench.tick(new Request.CheckIn("Bo", 0.5));
    bench.start().forSeconds(1700);
    assertEquals(BatchState.RUNNING, bench.phase());
    bench.forSeconds(120);
    assertEquals(BatchState.PAUSED, bench.phase());
    assertTrue(bench.state.presence().overdue());
    assertEquals(
        1,
        bench.events(Event.PresenceChanged.class).stream()
            .filter(e -> e.sentence().equals("Bo is overdue: the check-in has run out"))
            .count());
    assertEquals("Bo is overdue and nobody else is checked in", bench.state.phaseWhy());
    assertEquals(bench.plan.rig().unattended(), new TickWork(bench.plan, bench.state).limits());
    bench.tick(new Request.CheckIn("Bo", 1));
    bench.tick(new Request.Resume("Bo"));
    assertEquals(BatchState.RUNNING, bench.phase());
  }

  @Test
  void aStepThatNeedsNobodyGoesOnOrPausesWhenTheCheckInRunsOutAsTheRecipeSays() {
    for (Recipe.Overdue overdue : Recipe.Overdue.values()) {
      Recipe.WhenAlone rule = new Recipe.WhenAlone(overdue, Optional.empty());
      ControlBench bench = alone(with(rule, TestSteps.ramp(500, 0.1)), new TestRig().build());
      bench.tick(new Request.CheckIn("Bo", 0.1));
      bench.start().forSeconds(400);
      BatchState wanted = overdue == Recipe.Overdue.PAUSE ? BatchState.PAUSED : BatchState.RUNNING;
      assertEquals(wanted, bench.phase());
    }
  }

  @Test
  void onlyWhoIsCheckedInHandsOverAndItIsRecorded() {
    ControlBench bench = alone(TestSteps.ramp(500, 0.1));
    bench.tick(new Request.HandOver("Bo", "Cy", 2));
    assertTrue(bench.refusedLast());
    bench.tick(new Request.CheckIn("Bo", 2));
    bench.tick(new Request.CheckIn("Cy", 2));
    assertTrue(bench.refusedLast(), "Bo must hand over");
    bench.tick(new Request.HandOver("Bo", "Cy", 2));
    assertEquals("Cy", bench.state.presence().by());
    assertTrue(
        bench.events(Event.PresenceChanged.class).stream()
            .anyMatch(e -> e.sentence().contains("takes over from Bo")));
  }

  @Test
  void aCheckInOfNoLengthOrLongerThanAShiftIsRefused() {
    for (double hours : new double[] {0, -1, 12.5, Double.NaN}) {
      ControlBench bench = alone(TestSteps.ramp(500, 0.1));
      bench.tick(new Request.CheckIn("Bo", hours));
      assertTrue(bench.refusedLast(), hours + " h");
    }
  }

  @Test
  void aTripIsNotResetByNobody() {
    ControlBench bench = alone(TestSteps.ramp(500, 0.1));
    bench.start();
    bench.tick(new Request.ShellTrouble("x", InterlockTable.JOURNAL_NOT_WRITABLE, ""));
    bench.ticks(2);
    Turn turn =
        Control.tick(
            bench.plan,
            bench.state,
            bench.readings,
            List.of(
                new Request.Reset("Bo", InterlockTable.JOURNAL_NOT_WRITABLE, "seen"),
                new Request.Restart("Bo")),
            bench.millis + 250);
    assertEquals(BatchState.HELD, turn.state().phase());
  }

  private static final Recipe.Resume RESUME = new Recipe.Resume(600, 290, 400, 1e4, 9e4);

  private static ControlBench interrupted(double outageS) {
    Recipe.WhenAlone rule = new Recipe.WhenAlone(Recipe.Overdue.GO_ON, Optional.of(RESUME));
    ControlBench bench = alone(with(rule, TestSteps.ramp(500, 0.1)), new TestRig().build());
    bench.start().forSeconds(30);
    return bench;
  }

  @Test
  void aShortPowerCutInsideTheRecipesWindowsGoesOnByItself() {
    ControlBench bench = interrupted(60);
    bench.tickAfterMillis(60_000, new Request.PowerReturned("service", 60));
    assertEquals(BatchState.RUNNING, bench.phase());
    assertEquals(1, bench.events(Event.Outage.class).size());
    assertTrue(bench.said().contains("goes on by itself, as its recipe allows"), bench.said());
    assertTrue(bench.state.phaseWhy().contains("power is back"), bench.state.phaseWhy());
    assertEquals(AlarmState.NORMAL, bench.alarm(InterlockTable.POWER_RETURNED));
    bench.forSeconds(60);
    assertTrue(bench.isOn(Switch.HEATER), "it heats again");
  }

  @Test
  void aPowerCutTooLongOrOutsideAWindowOrWithATripIsHeld() {
    ControlBench tooLong = interrupted(601);
    tooLong.tickAfterMillis(601_000, new Request.PowerReturned("service", 601));
    assertEquals(BatchState.HELD, tooLong.tick().state().phase());
    ControlBench tooHot = interrupted(60);
    tooHot.allAtK(450).tickAfterMillis(60_000, new Request.PowerReturned("service", 60));
    assertEquals(BatchState.HELD, tooHot.tick().state().phase());
    ControlBench tooFull = interrupted(60);
    tooFull.pressurePa(95_000).tickAfterMillis(60_000, new Request.PowerReturned("service", 60));
    assertEquals(BatchState.HELD, tooFull.tick().state().phase());
  }

  @Test
  void theCoolingOfAnOutageIsTheExponentialBetweenItsEndsAndSaidToBeAnEstimate() {
    Event.Outage outage = new Event.Outage(3600, 500, 400, 3000);
    assertTrue(outage.sentence().contains("estimate"), outage.sentence());
  }

  @Test
  void anInterlockIsDefeatedOnlyWhereTheRigFileAllowsItForATimeAndWithAPerson() {
    RigDescription r = new TestRig().build();
    RigDescription rig = r.withDefeat(new Defeat(List.of("door open"), 600));
    ControlBench bench = alone(TestSteps.recipe(TestSteps.ramp(500, 0.1)), rig);
    bench.start().forSeconds(30);
    bench.tick(new Request.Defeat("Bo", "door open", 5, "loading"));
    assertTrue(bench.refusedLast(), "nobody is there");
    bench.tick(new Request.CheckIn("Bo", 1));
    bench.tick(new Request.Defeat("Bo", "sample too hot", 5, "loading"));
    assertTrue(bench.refusedLast(), "not in the rig file");
    bench.tick(new Request.Defeat("Bo", "door open", 11, "loading"));
    assertTrue(bench.refusedLast(), "longer than the rig file allows");
    bench.tick(new Request.Defeat("Bo", "door open", 5, "loading"));
    assertFalse(bench.refusedLast());
    bench.set(tarnish.shared.reading.Channel.DOOR, 0).forSeconds(60);
    assertTrue(bench.isOn(Switch.HEATER), "defeated");
    bench.forSeconds(300);
    assertFalse(bench.isOn(Switch.HEATER), "its time is over");
  }

  @Test
  void aShelvedAlarmKeepsItsEffectAndHighOnesCannotBeShelved() {
    ControlBench bench = alone(TestSteps.ramp(500, 0.1));
    bench.start().forSeconds(30);
    bench.tick(new Request.Shelve("Bo", "sample too hot", 10, "x"));
    assertTrue(bench.refusedLast());
    bench.set(tarnish.shared.reading.Channel.DOOR, 0).forSeconds(2);
    bench.tick(new Request.Shelve("Bo", "door open", 10, "known"));
    assertFalse(bench.refusedLast());
    bench.forSeconds(5);
    assertFalse(bench.isOn(Switch.HEATER));
    assertTrue(bench.state.alarms().isShelved(bench.row("door open")));
    bench.forSeconds(600);
    assertFalse(bench.state.alarms().isShelved(bench.row("door open")));
  }
}
