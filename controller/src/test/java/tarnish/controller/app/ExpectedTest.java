package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Event;
import tarnish.controller.control.ExpectedCourse;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Request;
import tarnish.controller.service.Status;
import tarnish.sim.BenchSpec;
import tarnish.sim.SimulatedRig;

class ExpectedTest {
  private static final LoadedFiles FILES = Demo.copper();
  private static final ExpectedCourse EXPECTED =
      BackgroundRehearsal.expected(FILES.recipe(), FILES.rig(), 900);

  private record Ran(List<String> advisories, ExpectedFollower follower, long millis) {}

  /** A batch on a bench, compared with the rehearsal from its first tick on. */
  private static Ran run(BenchSpec spec, double hours) {
    Plan plan = Plan.of(FILES.recipe(), FILES.rig());
    SimulatedRig bench = new SimulatedRig(spec, FILES.rig());
    BenchRun run = new BenchRun(plan, new SimulatedBench(bench), ControlState.initial(plan));
    StandInOperator operator = new StandInOperator(plan, bench);
    ExpectedFollower follower = new ExpectedFollower();
    List<String> advisories = new ArrayList<>();
    boolean told = false;
    while (!run.state().phase().isFinal()
        && run.state().phase() != BatchState.HELD
        && run.millis() < hours * 3.6e6) {
      long next = run.millis() + plan.rig().tickMillis();
      List<Request> requests = new ArrayList<>(operator.requests(run.state(), next / 1000.0));
      if (!told) {
        requests.add(new Request.Expect("test", EXPECTED.text()));
        told = true;
      }
      for (Event event : run.tickAt(next, requests).events()) {
        if (event instanceof Event.Advisory && event.sentence().contains("rehearsed")) {
          advisories.add(event.sentence());
        }
      }
      follower.follow(run.state());
    }
    bench.close();
    return new Ran(advisories, follower, run.millis());
  }

  @Test
  void aBatchThatGoesAsRehearsedIsNotRemarkedUpon() {
    for (long seed = 41; seed <= 43; seed++) {
      Ran ran = run(BenchSpec.drawn(FILES.rig(), FILES.recipe(), seed), 1000);
      assertEquals(List.of(), ran.advisories(), "seed " + seed);
    }
  }

  @Test
  void aChargeThatTakesUpOxygenOtherwiseIsToldAboutOnceItLeavesTheBand() {
    BenchSpec other = OtherSolid.on(BenchSpec.drawn(FILES.rig(), FILES.recipe(), 41));
    Ran ran = run(other, 1000);
    assertFalse(ran.advisories().isEmpty());
    String first = ran.advisories().get(0);
    assertTrue(first.startsWith("Not as rehearsed: the "), first);
    assertTrue(ran.advisories().size() < 20, "told once, not every tick: " + ran.advisories());
  }

  @Test
  void theBandIsMovedToWhenTheStepsReallyBeganAndReachesToTheEnd() {
    Ran ran = run(BenchSpec.drawn(FILES.rig(), FILES.recipe(), 41), 12);
    List<Status.BandLine> band = ran.follower().band();
    double lastS = 0;
    for (Status.BandLine line : band) {
      assertTrue(line.seconds() >= lastS, "in order of time");
      assertTrue(line.sampleLowK() < line.sampleHighK());
      assertTrue(line.pressureLowPa() < line.pressureHighPa());
      assertTrue(line.uptakeLowMol() < line.uptakeHighMol());
      lastS = line.seconds();
    }
    assertTrue(lastS > ran.millis() / 1000.0 + 3600, "and on to the end: " + lastS);
  }

  @Test
  void noBandExpectsLessThanNoUptake() {
    for (ExpectedCourse.Segment segment : EXPECTED.segments()) {
      for (double[] bounds : segment.bounds()) {
        assertTrue(bounds[4] >= 0, "step " + segment.position() + ": " + bounds[4] + " mol");
        assertTrue(bounds[5] > bounds[4], "step " + segment.position() + " has room above it");
      }
    }
  }

  @Test
  void theTextOfAnExpectedCourseComesBackTheSame() {
    ExpectedCourse back = ExpectedCourse.parse(EXPECTED.text());
    assertEquals(EXPECTED.text(), back.text());
    assertEquals(EXPECTED.segments().size(), back.segments().size());
    assertArrayEquals(
        EXPECTED.segments().get(3).bounds()[0], back.segments().get(3).bounds()[0], 6);
  }
}
