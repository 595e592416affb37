package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Defeat;
import tarnish.shared.rig.Switch;

/** What those see who check control from outside. */
class AuditTest {
  private static final Step.Soak SOAK = TestSteps.soak(295, 1e6, 5);

  private static Audit of(ControlBench bench) {
    return new Audit(bench.plan).of(bench.state);
  }

  @Test
  void anAlarmIsFollowedFromItsCauseToItsReset() {
    ControlBench bench = ControlBench.with(SOAK).start();
    Audit audit = of(bench);
    int row = audit.row("sample too hot");
    assertEquals("sample too hot", audit.id(row));
    assertEquals(-1, audit.row("no such row"));
    assertEquals(bench.plan.interlocks().size(), audit.rows());
    assertFalse(audit.isActive(row));
    assertFalse(audit.anyHolding());
    assertEquals(0, audit.withheldBits());

    bench.set(Channel.SAMPLE_TEMPERATURE, 900).forSeconds(1);
    assertSame(audit, audit.of(bench.state));
    assertEquals(AlarmState.UNACKNOWLEDGED, audit.alarm(row));
    assertTrue(audit.isActive(row));
    assertTrue(audit.anyHolding());
    bench.tick(new Request.Acknowledge("Ada", "sample too hot"));
    assertTrue(audit.of(bench.state).isActive(row), "acknowledged, but still too hot");
    bench.set(Channel.SAMPLE_TEMPERATURE, 295).forSeconds(5);
    assertEquals(AlarmState.LATCHED_ACKNOWLEDGED, audit.of(bench.state).alarm(row));
    assertTrue(audit.isActive(row));
    bench.tick(new Request.Reset("Ada", "sample too hot", "was held too near"));
    assertFalse(audit.of(bench.state).isActive(row));
  }

  @Test
  void whatARowWithholdsIsThatOfTheTableAndOfNoOtherRow() {
    ControlBench bench = ControlBench.with(SOAK).start();
    bench.set(Channel.ROOM_OXYGEN, 0.25).forSeconds(1);
    int wanted = Audit.bit(Switch.HEATER) | Audit.bit(Switch.OXYGEN);
    assertEquals(wanted, of(bench).withheldBits());
    // The heartbeat goes only where the heater itself must be cut off.
    bench.set(Channel.SAMPLE_TEMPERATURE, 900).forSeconds(1);
    assertEquals(wanted, of(bench).withheldBits() & wanted);
    assertEquals(
        bench.plan.interlocks().get(of(bench).row("sample too hot")).effects() | wanted,
        of(bench).withheldBits());
  }

  @Test
  void aDefeatedRowWithholdsNothing() {
    TestRig rig = new TestRig();
    rig.defeat = new Defeat(List.of("door open"), 600);
    ControlBench bench = new ControlBench(rig.build(), TestSteps.recipe(SOAK));
    bench.start().tick(new Request.CheckIn("Ada", 2));
    bench.set(Channel.DOOR, 0).forSeconds(2);
    Audit audit = of(bench);
    int row = audit.row("door open");
    assertTrue(audit.isActive(row));
    assertFalse(audit.isDefeated(row));
    assertFalse(audit.anyDefeated());
    assertEquals(Audit.bit(Switch.HEATER), audit.withheldBits());
    bench.tick(new Request.Defeat("Ada", "door open", 5, "loading"));
    audit.of(bench.state);
    assertTrue(audit.isActive(row));
    assertTrue(audit.isDefeated(row));
    assertFalse(audit.isDefeated(audit.row("sample too hot")));
    assertTrue(audit.anyDefeated());
    assertEquals(0, audit.withheldBits());
  }

  @Test
  void aDoorPassesAndATooHotSampleLatchesAndHolds() {
    Audit audit = of(ControlBench.with(SOAK));
    assertFalse(audit.isLatching(audit.row("door open")));
    assertFalse(audit.holdsBatch(audit.row("door open")));
    assertTrue(audit.isLatching(audit.row("sample too hot")));
    assertTrue(audit.holdsBatch(audit.row("sample too hot")));
  }

  @Test
  void theStepThatRunsIsNamedWithItsTimes() {
    ControlBench bench =
        new ControlBench(
            new TestRig().build(),
            TestSteps.recipe(
                SOAK, new Step.Evacuate(TestSteps.limited("Evacuate", 60), 100), SOAK));
    assertEquals("", of(bench).stepKind(), "none is begun");
    assertEquals(-1, of(bench).soakInBandS());
    assertNull(of(bench).soak());
    bench.start().forSeconds(10);
    assertEquals("soak", of(bench).stepKind());
    assertEquals(0, of(bench).position());
    assertEquals(((SoakRun) bench.state.run()).inBandS(), of(bench).soakInBandS());
    assertTrue(of(bench).soakInBandS() > 9);
    assertEquals(SOAK, of(bench).soak());
    assertTrue(of(bench).overLimitS() < -1e9, "a soak has no limit");
  }

  @Test
  void aStepOverItsLimitIsOverByTheTimeSinceUnlessAQuestionIsOpen() {
    Step.Evacuate pump = new Step.Evacuate(TestSteps.limited("Evacuate", 60), 100);
    ControlBench bench =
        new ControlBench(new TestRig().build(), TestSteps.recipe(SOAK, pump, SOAK));
    TickWork work = new TickWork(bench.plan, bench.state);
    work.phase = BatchState.RUNNING;
    work.cursor = work.cursor.at(1);
    work.run = EvacuateRun.begin(100);
    work.stepS = 63;
    Audit audit = new Audit(bench.plan).of(work.state());
    assertEquals(3, audit.overLimitS(), 1e-12);
    assertEquals("evacuate", audit.stepKind());
    assertEquals(1, audit.position());
    work.ask(OpenQuestion.Purpose.ASK, "Weigh", TestSteps.ask());
    assertEquals(-1, audit.of(work.state()).overLimitS(), "a person may take their time");
  }

  @Test
  void anAttendedStepCountsOnlyWhileItRuns() {
    Step.Soak watched = new Step.Soak(TestSteps.attended("Soak"), 295, 1e6, 5);
    ControlBench bench = ControlBench.with(watched);
    assertFalse(of(bench).runsAttendedStep());
    TickWork work = new TickWork(bench.plan, bench.state);
    work.run = new SoakRun(watched, 1, 0);
    work.phase = BatchState.PAUSED;
    Audit audit = new Audit(bench.plan);
    assertFalse(audit.of(work.state()).runsAttendedStep(), "paused");
    work.phase = BatchState.RUNNING;
    assertTrue(audit.of(work.state()).runsAttendedStep());
    work.run = null;
    assertFalse(audit.of(work.state()).runsAttendedStep(), "not begun");
    work.run = new SoakRun(watched, 1, 0);
    work.cursor = work.cursor.at(1);
    assertFalse(audit.of(work.state()).runsAttendedStep(), "the program is at its end");
    assertEquals("", audit.stepKind());
    ControlBench alone = ControlBench.with(SOAK).start();
    assertFalse(of(alone).runsAttendedStep(), "a soak may run alone");
  }

  @Test
  void theVesselMayBeOpenFromTheQuestionToThePurge() {
    Step.Open open = TestSteps.open();
    ControlBench bench = ControlBench.with(open);
    TickWork work = new TickWork(bench.plan, bench.state);
    for (OpenRun.Stage stage : OpenRun.Stage.values()) {
      work.run = new OpenRun(open, stage, OpenRun.begin(open));
      boolean wanted = stage == OpenRun.Stage.WAITING || stage == OpenRun.Stage.SWEEPING;
      assertEquals(wanted, new Audit(bench.plan).of(work.state()).mayBeOpen(), stage.toString());
    }
    work.run = new SoakRun(SOAK, 1, 0);
    assertFalse(new Audit(bench.plan).of(work.state()).mayBeOpen());
  }

  @Test
  void theGasIsThatOfTheAccount() {
    ControlBench bench = ControlBench.with(SOAK);
    GasByHand gas = GasByHand.filledWithOxygen(bench.plan, 5e-3);
    gas.rest(120, 0).rest(120, 1e-6);
    TickWork work = gas.work;
    Audit audit = new Audit(bench.plan).of(work.state());
    assertEquals(120e-6, audit.seenUptakeMol(), 3e-6);
    assertEquals(gas.account.total().standardUncertainty(), audit.uptakeUncertaintyMol());
    assertTrue(audit.uptakeUncertaintyMol() > 1e-7);
    assertFalse(audit.doubtsGas());
    work.gas =
        gas.account.doubted(
            new GasView(50_000, gas.heat, 10, 0, 0, 0, 0, false, false, 0.25), 1e-5, 0.06, work);
    assertTrue(audit.of(work.state()).doubtsGas());
  }

  /** The pump's ultimate is 30 Pa on this bench; a gauge that shows 70 Pa there is 40 Pa high. */
  @Test
  void theGaugesZeroIsThatOfTheAccount() {
    ControlBench bench = ControlBench.with(SOAK);
    TickWork work = new TickWork(bench.plan, bench.state);
    double ultimatePa = bench.plan.rig().pumpUltimatePa();
    GasAccount account = work.gas;
    GasView pumped =
        new GasView(
            ultimatePa + 40, new GasModel.Heat(295, 295, 295), 10, 0, 0, 0, 0, true, false, 0.25);
    GasView shut = new GasView(ultimatePa + 40, pumped.heat(), 10, 0, 0, 0, 0, false, false, 0.25);
    account = account.step(GasAccount.Window.RESTING, shut, work);
    for (int i = 0; i < 80; i++) {
      account = account.step(GasAccount.Window.EXCHANGING, pumped, work);
    }
    work.gas = account.step(GasAccount.Window.RESTING, shut, work);
    assertEquals(40, new Audit(bench.plan).of(work.state()).gaugeZeroPa(), 1);
  }

  @Test
  void aChannelIsDoubtedWhoseReadingIsNotBelieved() {
    Plan plan = Plan.of(TestSteps.recipe(SOAK), new TestRig().build());
    Readings readings = new Readings(plan.rig().resolutions());
    for (Channel channel : Channel.values()) {
      readings.good(channel, ControlBench.restValue(channel));
    }
    Plausibility seen = Plausibility.unseen();
    TickWork work = new TickWork(plan, ControlState.initial(plan));
    for (int i = 1; i <= 2; i++) {
      // No sample leaps by hundreds of kelvins within a tick.
      readings.good(Channel.SAMPLE_TEMPERATURE, i == 1 ? 300 : 800);
      seen = seen.step(plan.plausibility(), readings, i * 250L, (i - 1) * 250L);
    }
    work.signs = new Signs(seen, HeatSigns.NONE, GasSigns.NONE);
    Audit audit = new Audit(plan).of(work.state());
    assertTrue(audit.doubts(Channel.SAMPLE_TEMPERATURE));
    assertFalse(audit.doubts(Channel.OVEN_TEMPERATURE));
  }

  @Test
  void theLagIsKnownFromTwoWindowsOn() {
    ControlBench bench = ControlBench.with(SOAK);
    for (int learned = 0; learned < 4; learned++) {
      TickWork work = new TickWork(bench.plan, bench.state);
      SampleLag lag = new SampleLag(0, 300, 310, 0, true, 80, 0, learned, 300, 0);
      work.signs =
          new Signs(
              Plausibility.unseen(), new HeatSigns(-1, 0, 0, -1, 0, -1, 0, 0, lag), GasSigns.NONE);
      assertEquals(learned >= 2, new Audit(bench.plan).of(work.state()).knowsLag());
    }
  }
}
