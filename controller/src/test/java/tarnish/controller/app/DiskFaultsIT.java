package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The short version of the disks in {@code .ci/crashes}; skipped where no disk can be mounted. */
class DiskFaultsIT {
  @TempDir Path folder;

  @BeforeAll
  static void seeWhetherDisksCanBeMade() throws Exception {
    String whyNot = SmallDisk.whyNot();
    if (!whyNot.isEmpty()) {
      System.out.println("DiskFaultsIT is skipped. " + whyNot);
    }
    Assumptions.assumeTrue(whyNot.isEmpty(), whyNot);
  }

  @Test
  void aFullDiskHoldsTheBatchAndCostsNothingOnceThereIsRoom() throws Exception {
    assertClean(new DiskFaults(folder).full());
  }

  @Test
  void aDiskThatTurnsReadOnlyHoldsTheBatchAndKeepsWhatWasRecorded() throws Exception {
    assertClean(new DiskFaults(folder).readOnly());
  }

  @Test
  void aDiskThatFailsHoldsTheBatchAndKeepsWhatWasRecorded() throws Exception {
    assertClean(new DiskFaults(folder).failing());
  }

  @Test
  void thePowerMayFailAtAnyMoment() throws Exception {
    assertClean(new DiskFaults(folder).powerCut(1));
  }

  private static void assertClean(DiskFaults.Row row) {
    System.out.println(row.words());
    assertTrue(row.isClean(), row::words);
  }
}
