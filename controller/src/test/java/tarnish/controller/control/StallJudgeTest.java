package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tarnish.controller.control.StallJudge.Cause;
import tarnish.controller.control.StallJudge.Verdict;

class StallJudgeTest {
  private final Plan plan =
      Plan.of(TestSteps.recipe(TestSteps.soak(500, 1e6, 5)), new TestRig().build());
  private final ControlBench bench = ControlBench.with(TestSteps.soak(500, 1e6, 5));

  private List<Verdict> judged(UptakeLog.Course course, String... rows) {
    TickWork work = new TickWork(plan, ControlState.initial(plan));
    work.log = new UptakeLog(-1, new double[0], new double[0], 60, UptakeLog.Window.EMPTY, course);
    for (String row : rows) {
      work.alarms = work.alarms.report(row, "as the test says", plan.interlocks(), work);
    }
    return StallJudge.judge(plan, work.state(), bench.readings);
  }

  private static UptakeLog.Course lastTakingAtK(double takingK) {
    return new UptakeLog.Course(0, 1e-6, takingK, takingK, 0, 0, 0, 0, 30, takingK);
  }

  @Test
  void beforeAnythingWasSeenNothingIsSaid() {
    assertEquals(List.of(), judged(UptakeLog.Course.EMPTY));
  }

  @ParameterizedTest
  @CsvSource({
    "no pressure step, SOURCE",
    "oxygen supply empty, SOURCE",
    "gas comes in, LEAK",
    "vessel leaks, LEAK",
    "pump fails, LEAK",
    "leak test failed, LEAK",
  })
  void theInterlockThatHeldTheBatchIsEvidence(String row, Cause cause) {
    List<Verdict> verdicts = judged(UptakeLog.Course.EMPTY, row);
    assertEquals(cause, verdicts.get(0).cause());
    assertTrue(verdicts.get(0).weight() > 0.5, verdicts.toString());
    assertTrue(
        verdicts.get(0).evidence().contains("the interlock '" + row + "' has come"),
        verdicts.get(0).evidence());
  }

  @Test
  void weightsAddUpToOneAndFall() {
    List<Verdict> verdicts = judged(UptakeLog.Course.EMPTY, "gas comes in");
    assertEquals(1, verdicts.stream().mapToDouble(Verdict::weight).sum(), 1e-12);
    for (int i = 1; i < verdicts.size(); i++) {
      assertTrue(verdicts.get(i - 1).weight() >= verdicts.get(i).weight());
    }
    assertEquals(Cause.values().length, verdicts.size());
  }

  /** What was taken up at 450 K and comes back at 500 K is oxygen, and no leak. */
  @Test
  void gasThatComesAfterHeatingIsGivenBackBySolid() {
    bench.allAtK(500);
    assertEquals(Cause.EQUILIBRIUM, judged(lastTakingAtK(450), "gas comes in").get(0).cause());
    assertEquals(Cause.LEAK, judged(lastTakingAtK(495), "gas comes in").get(0).cause());
  }
}
