package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.Step;

class PowerReturnTest {
  private static final Recipe.Resume RULE = new Recipe.Resume(600, 290, 400, 10_000, 90_000);

  /** Half a minute into the step, a person there. */
  private static ControlBench running(Optional<Recipe.Resume> rule, Step step) {
    Recipe.WhenAlone alone = new Recipe.WhenAlone(Recipe.Overdue.GO_ON, rule);
    ControlBench bench = PresenceTest.alone(PresenceTest.with(alone, step), new TestRig().build());
    bench.tick(new Request.CheckIn("Bo", 4));
    return bench.start().forSeconds(30);
  }

  private static ControlBench running() {
    return running(Optional.of(RULE), TestSteps.ramp(500, 0.1));
  }

  /** What the alarm says after a cut of {@code outageS}; empty where the batch goes on. */
  private static String said(ControlBench bench, double outageS, Request... before) {
    Request[] requests = java.util.Arrays.copyOf(before, before.length + 1);
    requests[before.length] = new Request.PowerReturned("service", outageS);
    bench.tickAfterMillis((long) (1000 * outageS), requests);
    return bench.events(Event.AlarmRaised.class).stream()
        .filter(alarm -> alarm.alarm().equals(InterlockTable.POWER_RETURNED))
        .map(Event.AlarmRaised::text)
        .findFirst()
        .orElse("");
  }

  private static void goesOn(ControlBench bench, double outageS) {
    assertEquals("", said(bench, outageS));
    assertEquals(BatchState.RUNNING, bench.tick().state().phase());
  }

  private static void isHeld(ControlBench bench, double outageS, String why) {
    String said = said(bench, outageS);
    assertTrue(said.contains(why), said);
    assertEquals(BatchState.HELD, bench.ticks(2).phase());
  }

  @Test
  void everyEdgeOfTheRecipesWindowsStillGoesOn() {
    goesOn(running(), 600);
    goesOn(running().allAtK(290), 60);
    goesOn(running().allAtK(400), 60);
    goesOn(running().pressurePa(10_000), 60);
    goesOn(running().pressurePa(90_000), 60);
  }

  @Test
  void justBeyondAnEdgeItIsHeldAndTheReasonNamesTheValueFound() {
    isHeld(running(), 601, "The recipe allows 10 min.");
    isHeld(running().allAtK(289.9), 60, "The sample is at 16.8 °C, outside its window.");
    isHeld(running().allAtK(400.1), 60, "The sample is at 127.0 °C, outside its window.");
    isHeld(running().pressurePa(9_990), 60, "The vessel is at 99.9 mbar, outside its window.");
    isHeld(running().pressurePa(90_010), 60, "The vessel is at 900.1 mbar, outside its window.");
  }

  @Test
  void aRecipeThatSaysNothingOfPowerCutsIsHeldAfterEachOfThem() {
    isHeld(
        running(Optional.empty(), TestSteps.ramp(500, 0.1)),
        1,
        "The recipe does not let it go on by itself.");
  }

  @Test
  void aStepThatNeedsAPersonIsNotGoneOnWithAlone() {
    isHeld(
        running(Optional.of(RULE), new Step.Ramp(TestSteps.attended("Ramp"), 500, 0.1)),
        60,
        "The step needs a person.");
    isHeld(running(Optional.of(RULE), TestSteps.ask()), 60, "The step needs a person.");
    isHeld(running(Optional.of(RULE), TestSteps.open()), 60, "The step needs a person.");
  }

  @Test
  void aLostSensorHoldsTheBatch() {
    for (Channel needed :
        new Channel[] {
          Channel.SAMPLE_TEMPERATURE, Channel.OVEN_TEMPERATURE, Channel.VESSEL_PRESSURE
        }) {
      isHeld(running().bad(needed), 60, "Not every reading can be believed.");
    }
  }

  @Test
  void everyTripOfTheTableHoldsTheBatchAndIsNamed() {
    int trips = 0;
    for (InterlockRow row : running().plan.interlocks()) {
      if (row.holdsBatch() && !row.id().equals(InterlockTable.POWER_RETURNED)) {
        trips++;
        ControlBench bench = running();
        String said = said(bench, 60, new Request.ShellTrouble("x", row.id(), ""));
        assertTrue(said.contains("A trip is up or latched: " + row.what()), row.id() + ": " + said);
        assertEquals(BatchState.HELD, bench.ticks(2).phase(), row.id());
      }
    }
    assertTrue(trips > 10, trips + " trips");
  }

  @Test
  void aPausedBatchIsNotSetGoing() {
    ControlBench bench = running();
    bench.tick(new Request.Pause("Bo"));
    bench.ticks(3);
    String said = said(bench, 60);
    assertTrue(said.contains("It was not running a step."), said);
    assertTrue(bench.ticks(2).phase() != BatchState.RUNNING);
  }

  private static Event.Outage outage(double beforeK, double afterK, double outageS) {
    ControlBench bench = ControlBench.with(TestSteps.ramp(600, 0.1));
    bench.allAtK(beforeK).start().forSeconds(30);
    bench.allAtK(afterK);
    said(bench, outageS);
    return bench.events(Event.Outage.class).get(0);
  }

  /** From 200 K to 100 K above the room is one half: tau = t / ln 2. */
  @Test
  void theTimeConstantOfTheCoolingIsThatOfAnExponentialTowardsTheRoom() {
    Event.Outage outage = outage(495, 395, 3600);
    assertEquals(495, outage.beforeK());
    assertEquals(395, outage.afterK());
    assertEquals(3600 / StrictMath.log(2), outage.timeConstantS(), 1e-6);
    assertEquals(295 + 200 / StrictMath.sqrt(2), outage.estimateK(1800), 1e-6);
  }

  @Test
  void aSampleThatDidNotCoolOrFellBelowTheRoomGivesNoTimeConstant() {
    for (double afterK : new double[] {495, 500, 290}) {
      Event.Outage outage = outage(495, afterK, 60);
      assertEquals(0, outage.timeConstantS(), "after: " + afterK + " K");
      assertTrue(outage.sentence().contains("is not known"), outage.sentence());
    }
  }
}
