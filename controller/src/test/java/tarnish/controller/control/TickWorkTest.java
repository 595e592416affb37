package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import tarnish.shared.oven.IdentifiedOven;
import tarnish.shared.oven.OvenModel;
import tarnish.shared.recipe.Step;

class TickWorkTest {
  private final TickByHand bench = new TickByHand();

  @Test
  void onlyAnAlarmThatIsRaisedCountsAsAnAlarm() {
    TickWork work = bench.at(1000);
    work.event(new Event.Advisory("a word"));
    assertEquals(0, work.tally.alarms());
    work.report(InterlockTable.STEP_OVERDUE, "late");
    assertEquals(1, work.tally.alarms());
    work.report(InterlockTable.NO_PRESSURE_STEP, "");
    assertEquals(2, work.tally.alarms());
    assertEquals(3, work.events().size());
  }

  @Test
  void enteringAStateIsToldWithWhereItCameFromAndWhy() {
    TickWork work = bench.at(1000);
    work.phase = BatchState.RUNNING;
    work.enter(BatchState.PAUSING, "somebody asked");
    assertEquals(BatchState.PAUSING, work.phase);
    assertEquals("somebody asked", work.phaseWhy);
    assertEquals(
        List.of(new Event.StateChanged(BatchState.RUNNING, BatchState.PAUSING, "somebody asked")),
        work.events());
  }

  @Test
  void aVesselMayBeOpenOnlyWhileAPersonIsAskedToOpenOrToClose() {
    Step.Open step = TestSteps.open();
    TickWork work = bench.at(1000);
    assertFalse(work.mayBeOpen());
    for (OpenRun.Stage stage : OpenRun.Stage.values()) {
      work.run = new OpenRun(step, stage, null);
      boolean open = stage == OpenRun.Stage.WAITING || stage == OpenRun.Stage.SWEEPING;
      assertEquals(open, work.mayBeOpen(), stage.toString());
    }
  }

  private static TickWork withModel(double sampleK, double setpointK) {
    TestRig rig = new TestRig();
    OvenModel model = new OvenModel(0.7, 22, 3, 1700, 0.02, 135, 0.73, 56, 0.64, 8000, 0.07);
    rig.regulation =
        rig.regulation.withModel(
            new IdentifiedOven(
                model, new double[11], "quartz tube", LocalDate.of(2026, 1, 1), 0.1));
    TickWork work = new TickByHand(rig).heat(sampleK, sampleK).at(1000);
    work.phase = BatchState.RUNNING;
    work.setpointK = setpointK;
    return work;
  }

  @Test
  void anOvenWithAModelIsHeatedByIt() {
    TickWork work = withModel(400, ControlState.HEATER_OFF);
    Setpoint.move(work, 500, 0.05);
    assertEquals(400, work.setpointK, 0.01, "the course begins at the sample");
    assertEquals(400, work.course.firstK(), 0.1);
    int perMille = Heating.step(work);
    assertTrue(work.regulator.active());
    assertEquals(400, work.regulator.course().setpointK(), 0.01);
    assertTrue(perMille > 0, "an oven at 400 K loses heat");
    work.setpointK = ControlState.HEATER_OFF;
    assertEquals(0, Heating.step(work));
    assertEquals(RegulatorState.IDLE, work.regulator);
  }

  /** The limit of the rig is 0.1 K/s while nobody is there: a slow ramp may catch up by 2 %. */
  @Test
  void aRoundedSetpointIsAtItsEndWhenItsRampIsAndItIsNear() {
    TickWork work = withModel(400, 400);
    work.course = work.course.restarted(400);
    assertTrue(Setpoint.isAt(400, work));
    work.setpointK = 399.75;
    assertTrue(Setpoint.isAt(400, work));
    work.setpointK = 399.625;
    assertFalse(Setpoint.isAt(400, work));
    work.setpointK = 400.375;
    assertFalse(Setpoint.isAt(400, work));
    work.setpointK = 400;
    assertFalse(Setpoint.isAt(401, work), "its ramp has not begun");
  }

  /** Behind the straight ramp by more than 1 K the rounded one is faster by 2 %. */
  @Test
  void aRoundedSetpointCatchesUpByTwoPerCentWithinTheLimitOfTheRig() {
    double slow = 0.05;
    double limit = new TestRig().build().unattended().rampMaxKPerS();
    assertEquals(slow * 1.02 * 0.25, rampStepK(slow), 1e-9);
    assertEquals(limit * 0.25, rampStepK(limit), 1e-9, "but never beyond the limit");
    double beyond = 1.5 * limit;
    assertEquals(beyond * 0.25, rampStepK(beyond), 1e-9, "a rate asked for is not cut here");
  }

  private static double rampStepK(double rateKPerS) {
    TickWork work = withModel(400, 410);
    work.course = new Course(410, 410, 420, 410, 410, 0, 0, 1);
    double beforeK = work.course.rampK();
    Setpoint.move(work, 600, rateKPerS);
    return work.course.rampK() - beforeK;
  }
}
