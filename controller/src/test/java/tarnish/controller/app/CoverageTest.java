package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

/** A small version of what {@code coverage} prints. */
class CoverageTest {

  /**
   * Of 30 batches 28.5 are covered on average, with a standard deviation of 1.2: fewer than 25 is
   * beyond chance. Seeds 2001 to 2030 were not used while the uncertainties were set.
   */
  @Test
  void theIntervalsCoverTheTruthThroughPausesAndLosses() {
    LoadedFiles files = Demo.copper();
    List<TrialBatch.Outcome> outcomes =
        CoverageCommand.run(files, new SeedRange(2001, 2030), false);
    Coverage coverage = CoverageCommand.of(files, outcomes);
    assertTrue(
        outcomes.stream().anyMatch(o -> o.isComplete() && o.lostShare() > 0.5),
        "one of them lost more than half");
    for (Coverage.Row row : coverage.rows()) {
      assertTrue(row.covered() >= 25.0 / 30, coverage.words());
      assertTrue(Math.abs(row.bias()) < 0.005, coverage.words());
    }
  }
}
