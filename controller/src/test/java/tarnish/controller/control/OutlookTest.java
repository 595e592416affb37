package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tarnish.shared.recipe.RepeatUntil;
import tarnish.shared.recipe.Step;

class OutlookTest {
  private static final RepeatUntil COUNT = new RepeatUntil.CountOnly();

  private static Outlook of(ControlBench bench) {
    return Outlook.from(bench.plan, bench.state, bench.readings);
  }

  private static List<Outlook.Point> points(double... timesAndSetpoints) {
    List<Outlook.Point> points = new java.util.ArrayList<>();
    for (int i = 0; i < timesAndSetpoints.length; i += 2) {
      points.add(new Outlook.Point(timesAndSetpoints[i], timesAndSetpoints[i + 1]));
    }
    return points;
  }

  @Test
  void rampAndSoakTakeTheirOwnTimes() {
    ControlBench bench =
        ControlBench.with(
            TestSteps.ramp(395, 0.1), TestSteps.soak(395, 600, 3), TestSteps.ramp(345, 0.05));
    Outlook outlook = of(bench);
    // 100 K at 0.1 K/s, 600 s, 50 K at 0.05 K/s.
    assertEquals(1000 + 600 + 1000, outlook.endS(), 1e-9);
    assertEquals(
        points(0, -1, 0, 295, 1000, 395, 1600, 395, 1600, 395, 2600, 345), outlook.course());
    assertFalse(outlook.waitsForPerson());
  }

  @Test
  void theOutlookStartsFromWhereTheBatchIs() {
    ControlBench bench = ControlBench.with(TestSteps.ramp(395, 0.1), TestSteps.soak(395, 600, 3));
    bench.start().forSeconds(100);
    double setpointK = bench.state.setpointK();
    Outlook outlook = of(bench);
    double nowS = bench.millis / 1000.0;
    assertEquals(nowS + (395 - setpointK) / 0.1 + 600, outlook.endS(), 1e-6);
    assertEquals(new Outlook.Point(nowS, setpointK), outlook.course().get(0));
  }

  @Test
  void aSoakUnderWayOwesOnlyItsRest() {
    ControlBench bench = ControlBench.with(TestSteps.ramp(395, 0.1), TestSteps.soak(395, 600, 3));
    bench.allAtK(395).start().forSeconds(200);
    SoakRun soaking = (SoakRun) bench.state.run();
    assertTrue(soaking.inBandS() > 100);
    assertEquals(bench.millis / 1000.0 + 600 - soaking.inBandS(), of(bench).endS(), 1e-6);
    bench.tick(new Request.Pause("Ada"));
    bench.allAtK(345).tick();
    double earnedS = soaking.inBandS();
    // Back over 50 K at the rate of the ramp before it.
    assertEquals(bench.millis / 1000.0 + 500 + 600 - earnedS, of(bench).endS(), 1e-6);
  }

  @Test
  void repeatsCountTheirPasses() {
    Step.Soak soak = TestSteps.soak(295, 100, 5);
    assertEquals(300, of(ControlBench.with(TestSteps.repeat(3, COUNT, soak))).endS(), 1e-9);
    Step.Repeat nested = TestSteps.repeat(2, COUNT, TestSteps.repeat(3, COUNT, soak), soak);
    assertEquals(800, of(ControlBench.with(nested)).endS(), 1e-9);
  }

  @Test
  void repeatsUnderWayCountWhatIsLeft() {
    Step.Soak soak = TestSteps.soak(295, 100, 5);
    Step.Repeat nested = TestSteps.repeat(2, COUNT, TestSteps.repeat(3, COUNT, soak), soak);
    ControlBench bench = ControlBench.with(nested);
    bench.start();
    double endS = 0.25 + 799.75;
    while (bench.phase() == BatchState.RUNNING) {
      // Every step loses one tick at its end, so the forecast drifts by at most a few seconds.
      assertEquals(endS, of(bench).endS(), 4, "at " + bench.millis / 1000.0 + " s");
      bench.forSeconds(10);
    }
    assertEquals(BatchState.COMPLETE, bench.phase());
  }

  @Test
  void gasStepsHaveTheirRoughTimes() {
    Step.Dose dose =
        new Step.Dose(TestSteps.unattended("Dose"), 1000, 20_500, 50, 0.5, 0.5, 60, 600);
    ControlBench bench =
        ControlBench.with(
            TestSteps.evacuate(100),
            TestSteps.leakTest(60, 600, 0.1),
            new Step.Backfill(TestSteps.unattended("Fill"), Step.Gas.INERT, 10_000, 3, 500),
            dose);
    // 120 s of pumping, the test, 3 fills of 60 s, 11 pulses of 63 s from 10 000 to 20 500 Pa.
    assertEquals(120 + 660 + 180 + 11 * 63, of(bench).endS(), 1e-9);
    Step.Dose counted =
        new Step.Dose(TestSteps.unattended("Dose"), 1000, 90_000, 5, 0.5, 0.5, 60, 600);
    assertEquals(5 * 63, of(ControlBench.with(counted, dose)).endS(), 1e-9);
  }

  /** T - T0 = (T1 - T0) exp(-t/tau), tau 2400 s: from 395 K to 345 K with the room at 295 K. */
  @Test
  void coolingFollowsAnExponential() {
    double coolS = 2400 * StrictMath.log(2);
    ControlBench cool =
        ControlBench.with(TestSteps.soak(395, 100, 3), TestSteps.cool(345), TestSteps.cool(350));
    Outlook outlook = of(cool);
    assertEquals(100 + coolS, outlook.endS(), 1e-9);
    assertEquals(points(0, -1, 100, 395, 100, -1, 100 + coolS, -1), outlook.course());
    ControlBench toRoom = ControlBench.with(TestSteps.soak(395, 100, 3), TestSteps.cool(290));
    assertEquals(100, of(toRoom).endS(), "what it never reaches it cannot forecast");
  }

  @Test
  void openingAndAskingWaitForAPerson() {
    Outlook open = of(ControlBench.with(TestSteps.soak(395, 100, 3), TestSteps.open()));
    assertTrue(open.waitsForPerson());
    assertEquals(100 + 2400 * StrictMath.log(100 / 18.15) + 120, open.endS(), 1e-6);
    assertTrue(of(ControlBench.with(TestSteps.ask())).waitsForPerson());
  }

  @Test
  void aStepThatMayOnlyRunWithAPersonIsAVisitAtItsBeginning() {
    Step watched = new Step.Soak(TestSteps.attended("Watched"), 395, 60, 3);
    Outlook outlook = of(ControlBench.with(TestSteps.soak(395, 100, 3), watched));
    assertTrue(outlook.waitsForPerson());
    assertEquals(new Outlook.Visit(100, "Watched"), outlook.visit());
    assertEquals(new Outlook.Span(100, 160), outlook.soaks().get(1));
  }
}
