package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tarnish.shared.recipe.RepeatUntil;
import tarnish.shared.recipe.Step;

/** Ramp at 0.2 K/s, twice (soak, twice (ramp at 0.1 K/s, soak), soak), soak. */
class ProgramTest {
  private static final RepeatUntil COUNT = new RepeatUntil.CountOnly();
  private static final Step.Soak SOAK = TestSteps.soak(500, 60, 3);
  private static final Program PROGRAM =
      Program.of(
          List.of(
              SOAK,
              TestSteps.ramp(500, 0.2),
              TestSteps.repeat(
                  2, COUNT, SOAK, TestSteps.repeat(2, COUNT, TestSteps.ramp(500, 0.1), SOAK), SOAK),
              SOAK),
          0.3);

  private static double rate(Program program, int position) {
    return ((Instruction.Do) program.at(position)).rampRateKPerS();
  }

  @Test
  void theStepsStandInOneLineWithMarksAroundRepeats() {
    assertEquals(11, PROGRAM.size());
    Instruction.LoopStart outer = (Instruction.LoopStart) PROGRAM.at(2);
    Instruction.LoopStart inner = (Instruction.LoopStart) PROGRAM.at(4);
    assertEquals(9, outer.end());
    assertEquals(7, inner.end());
    assertEquals(2, ((Instruction.LoopEnd) PROGRAM.at(9)).start());
    assertEquals(4, ((Instruction.LoopEnd) PROGRAM.at(7)).start());
    int[] depths = {0, 0, 0, 1, 1, 2, 2, 1, 1, 0, 0};
    for (int i = 0; i < depths.length; i++) {
      assertEquals(depths[i], PROGRAM.at(i).depth(), "at " + i);
    }
  }

  @Test
  void aSoakComesBackAtTheRateOfTheLastRampBeforeIt() {
    assertEquals(0.3, rate(PROGRAM, 0), "before the first ramp");
    assertEquals(0.2, rate(PROGRAM, 3));
    assertEquals(0.1, rate(PROGRAM, 6));
    assertEquals(0.1, rate(PROGRAM, 8), "out of the inner repeat");
    assertEquals(0.1, rate(PROGRAM, 10), "out of both");
  }

  @Test
  void aChangedRampChangesTheRateOfTheSoaksAfterIt() {
    Program changed = PROGRAM.with(1, TestSteps.ramp(500, 0.25));
    assertEquals(0.25, ((Step.Ramp) ((Instruction.Do) changed.at(1)).step()).rateKPerS());
    assertEquals(0.3, rate(changed, 0));
    assertEquals(0.25, rate(changed, 1));
    assertEquals(0.25, rate(changed, 3));
    assertEquals(0.1, rate(changed, 6), "another ramp stands before this one");
    assertEquals(PROGRAM.size(), changed.size());
    assertEquals(0.2, rate(PROGRAM, 3), "the old one stays as it was");
    Program twice = changed.with(5, TestSteps.ramp(500, 0.15));
    assertEquals(0.15, rate(twice, 10));
    assertEquals(2, twice.at(5).depth());
  }

  @Test
  void aPersonReadsTheStepsWithOneLineForEachRepeat() {
    List<Program.Line> lines = PROGRAM.lines();
    assertEquals(
        List.of(0, 1, 2, 3, 4, 5, 6, 8, 10), lines.stream().map(l -> l.position()).toList());
    assertEquals("Repeat", lines.get(2).title());
    assertEquals("Ramp", lines.get(5).title());
    assertEquals(2, lines.get(5).depth());
    assertTrue(Program.of(List.of(), 1).lines().isEmpty());
  }
}
