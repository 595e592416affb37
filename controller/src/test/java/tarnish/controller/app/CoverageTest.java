package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Small versions of what {@code coverage}, {@code stalls} and {@code forecasts} print. */
class CoverageTest {

  /**
   * Of 30 batches 28.5 are covered on average, with a standard deviation of 1.2: fewer than 25 is
   * beyond chance. Seeds 2001 to 2030 were not used while the uncertainties were set.
   */
  @Test
  void theIntervalsCoverTheTruthThroughPausesAndLosses() {
    LoadedFiles files = Demo.copper();
    List<TrialBatch.Outcome> outcomes =
        CoverageCommand.run(files, new SeedRange(2001, 2030), false, Progress.silent());
    Coverage coverage = CoverageCommand.of(files, outcomes);
    assertTrue(
        outcomes.stream().anyMatch(o -> o.isComplete() && o.lostShare() > 0.5),
        "one of them lost more than half");
    for (Coverage.Row row : coverage.rows()) {
      assertTrue(row.covered() >= 25.0 / 30, coverage.words());
      assertTrue(Math.abs(row.bias()) < 0.005, coverage.words());
    }
  }

  /** A catalyst takes up most of its oxygen while the gauge cannot see it; the heat tells. */
  @Test
  void theIntervalsCoverTheTruthWherePulsesHideTheUptake() {
    LoadedFiles files = LoadedFiles.read(Demo.CATALYST, Demo.CATALYST_RIG);
    Coverage coverage =
        CoverageCommand.of(
            files, CoverageCommand.run(files, new SeedRange(2101, 2130), false, Progress.silent()));
    for (Coverage.Row row : coverage.rows()) {
      assertTrue(row.covered() >= 25.0 / 30, coverage.words());
      assertTrue(Math.abs(row.bias()) < 0.005, coverage.words());
    }
  }

  /** 95 % of 21 is 20 with a standard deviation of 1: fewer than 18 is beyond chance. */
  @Test
  void theCauseOfAStallIsFoundNearlyAlways() {
    List<StallTrial.Result> results =
        StallsCommand.run(Demo.copper(), new SeedRange(2201, 2221), Progress.silent());
    long right = results.stream().filter(StallTrial.Result::isRight).count();
    assertTrue(right >= 18, StallsCommand.table(results));
  }

  /** 90 % of 12 is 11 with a standard deviation of 1: fewer than 9 is beyond chance. */
  @Test
  void aForecastMadeHalfWayHoldsTheTrueEnd() {
    List<ForecastTrial.Result> results =
        ForecastsCommand.run(Demo.copper(), new SeedRange(2301, 2312), Progress.silent());
    ForecastsCommand.Summary summary = ForecastsCommand.Summary.of(results);
    assertTrue(summary.forecast() >= 10, summary.words());
    assertTrue(summary.covered() >= summary.forecast() - 3, summary.words());
    assertTrue(summary.medianError() < 0.1, summary.words());
  }
}
