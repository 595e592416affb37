package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tarnish.controller.control.InterlockTable;
import tarnish.shared.rig.RigDescription;

class ProofTestTest {
  private static final RigDescription RIG =
      LoadedFiles.rig("bench.rig.yaml", DemoCommand.resource("bench.rig.yaml"));

  private static List<ProofTrial> trials() {
    List<String> rows = InterlockTable.names(RIG);
    return ProofTrial.all().stream()
        .filter(trial -> rows.contains(trial.row()))
        .filter(trial -> !trial.row().equals("interlock defeated"))
        .toList();
  }

  @ParameterizedTest
  @MethodSource("trials")
  void everyRowActsWhenItIsProvokedOnTheBench(ProofTrial trial) {
    ProofBench.Result result = new ProofBench(RIG, 1).run(trial);
    assertTrue(result.acted(), trial.row());
  }

  @Test
  void everyRowOfTheTableHasItsProvocation() {
    List<String> provoked = ProofTrial.all().stream().map(ProofTrial::row).toList();
    for (String row : InterlockTable.names(RIG)) {
      assertTrue(provoked.contains(row), row);
    }
  }

  @Test
  void aRecordOfProofsSaysWhatIsOverdue(@TempDir Path folder) throws Exception {
    ProofRecord record = new ProofRecord(folder);
    LocalDate day = LocalDate.parse("2026-01-05");
    List<String> rows = List.of("door open", "runaway", "heater dead");
    assertEquals(rows, record.overdue(rows, day));
    record.add(
        List.of(
            entry("door open", true, day, day.plusDays(90)),
            entry("runaway", false, day, day.plusDays(90))));
    assertEquals(List.of("runaway", "heater dead"), record.overdue(rows, day));
    assertEquals(rows, record.overdue(rows, day.plusDays(91)));
    Files.writeString(
        folder.resolve(ProofRecord.FILE), "{\"row\": torn\n", StandardOpenOption.APPEND);
    assertEquals(List.of("runaway", "heater dead"), record.overdue(rows, day));
  }

  private static ProofRecord.Entry entry(
      String row, boolean passed, LocalDate date, LocalDate due) {
    return new ProofRecord.Entry(row, passed, 0.5, date, due, "Ann", "bench", "simulated");
  }
}
