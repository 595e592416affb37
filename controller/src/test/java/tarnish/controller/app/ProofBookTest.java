package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.control.InterlockTable;
import tarnish.controller.files.AttendedOnly;
import tarnish.controller.files.ProofRule;
import tarnish.controller.files.ReadResult;
import tarnish.controller.files.RigFile;
import tarnish.controller.files.RigReader;
import tarnish.controller.service.ProofTests;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.Step;
import tarnish.shared.recipe.StepCommon;
import tarnish.shared.rig.RigDescription;

class ProofBookTest {
  private static final String RIG_TEXT = DemoCommand.resource("bench.rig.yaml");
  private static final RigDescription RIG = LoadedFiles.rig("bench.rig.yaml", RIG_TEXT);
  private static final ProofRule STRICT = new ProofRule(30, ProofRule.WhenOverdue.ATTENDED_ONLY);

  @TempDir private Path folder;
  private LocalDate today = LocalDate.parse("2026-03-01");
  private ProofBook book;

  @BeforeEach
  void open() {
    book = new ProofBook(RIG, STRICT, new ProofRecord(folder), () -> today);
  }

  private ProofTests.Line line(String row) {
    return book.lines().stream().filter(l -> l.row().equals(row)).findFirst().orElseThrow();
  }

  private void proveAll() {
    for (String row : InterlockTable.names(RIG)) {
      assertEquals(Optional.empty(), book.note(row, true, "Ann", ""));
    }
  }

  @Test
  void whatWasNeverTestedIsDueNow() {
    assertEquals(InterlockTable.names(RIG).size(), book.lines().size());
    assertTrue(line("runaway").overdue());
    assertEquals("never tested", line("runaway").result());
  }

  @Test
  void aResultIsNotedWithItsDateAndWithWhenItIsDueAgain() {
    book.note("door open", true, "Ann", "by hand");
    assertEquals("2026-03-01", line("door open").last());
    assertEquals("2026-03-31", line("door open").due());
    assertTrue(line("door open").how().contains("by hand, by Ann"));
    assertFalse(line("door open").overdue());
    today = LocalDate.parse("2026-04-01");
    assertTrue(line("door open").overdue());
  }

  @Test
  void whatDidNotActIsNotProved() {
    book.note("door open", false, "Ann", "");
    assertTrue(line("door open").overdue());
    assertEquals("did not act", line("door open").result());
  }

  @Test
  void aRowThatTheRigDoesNotHaveIsRefused() {
    assertTrue(book.note("no such row", true, "Ann", "").orElseThrow().contains("no such row"));
  }

  @Test
  void theSimulatorProvokesARowAndNotesWhatItTook() {
    assertEquals(Optional.empty(), book.simulate("emergency stop", "Ann"));
    assertTrue(line("emergency stop").result().startsWith("acted within"));
    assertFalse(line("emergency stop").overdue());
  }

  @Test
  void anOverdueTestLetsTheBenchRunAttendedOnlyWhereTheRigFileSaysSo() {
    assertTrue(book.whyAttendedOnly().startsWith("Proof tests are overdue: emergency stop"));
    proveAll();
    assertEquals("", book.whyAttendedOnly());
    today = today.plusDays(31);
    assertTrue(book.whyAttendedOnly().contains("more"));
    ProofBook lenient = new ProofBook(RIG, ProofRule.USUAL, new ProofRecord(folder), () -> today);
    assertEquals("", lenient.whyAttendedOnly());
  }

  @Test
  void aRigFileMaySayHowOftenAndWhatAnOverdueTestCosts() {
    RigFile usual = RigReader.readFile("rig", RIG_TEXT).value();
    assertEquals(ProofRule.USUAL, usual.proof());
    String strict = RIG_TEXT + "\nproof tests: {every: 30 d, when overdue: attended only}\n";
    assertEquals(STRICT, RigReader.readFile("rig", strict).value().proof());
    ReadResult<RigFile> broken =
        RigReader.readFile("rig", RIG_TEXT + "\nproof tests: {when overdue: explode}\n");
    assertFalse(broken.isGood());
  }

  @Test
  void attendedOnlyAsksForAPersonInEveryStepAndIsFoundAgainByItsNote() {
    LoadedFiles demo = Demo.copper();
    String note = AttendedOnly.note("simulated bench, seed 1", "Proof tests are overdue: x.");
    Recipe again = AttendedOnly.asNoted(demo.recipe(), note);
    assertEquals(demo.recipe().steps().size(), again.steps().size());
    assertTrue(again.steps().stream().allMatch(ProofBookTest::isAttended));
    assertEquals(demo.recipe(), AttendedOnly.asNoted(demo.recipe(), "simulated bench, seed 1"));
  }

  /** Numbers of each step without its title and presence, those inside repeats included. */
  private static List<String> numbers(List<Step> steps) {
    List<String> all = new ArrayList<>();
    for (Step step : steps) {
      if (step instanceof Step.Repeat repeat) {
        all.add(repeat.timesMax() + " " + repeat.until());
        all.addAll(numbers(repeat.steps()));
      } else {
        all.add(step.toString().replace(step.common().toString(), ""));
      }
    }
    return all;
  }

  @Test
  void attendedOnlyChangesNoNumberOfAStepNotEvenTheRiseOfAPlannedDose() {
    Step.Dose planned =
        new Step.Dose(
                new StepCommon(
                    "Dose",
                    OptionalDouble.empty(),
                    StepCommon.Presence.UNATTENDED,
                    OptionalDouble.empty()),
                1500,
                95_000,
                50,
                0.5,
                0.5,
                60,
                1800)
            .planned(1500, 5);
    List<Step> steps = new ArrayList<>(Demo.copper().recipe().steps());
    steps.add(planned);
    Recipe again = AttendedOnly.of(Demo.copper().recipe().withSteps(steps));
    assertEquals(numbers(steps), numbers(again.steps()));
  }

  private static boolean isAttended(Step step) {
    if (step instanceof Step.Repeat repeat) {
      return repeat.steps().stream().allMatch(ProofBookTest::isAttended);
    }
    return step instanceof Step.Open
        || step instanceof Step.Ask
        || step.common().presence() == StepCommon.Presence.ATTENDED;
  }
}
