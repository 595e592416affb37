package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CampaignTest {
  private static List<CampaignRun.Outcome> run(String without, long first, long last) {
    return new Campaign(without, incident -> true).run(first, last, !without.isEmpty());
  }

  @Test
  void nothingIsViolatedWhateverGoesWrong() {
    for (CampaignRun.Outcome outcome : run("", 1, 60)) {
      assertTrue(outcome.isGood(), "seed " + outcome.seed() + ": " + outcome.violation());
    }
  }

  @Test
  void withoutFaultsNothingTrips() {
    for (CampaignRun.Outcome outcome : new Campaign("", incident -> false).run(1, 12, false)) {
      assertTrue(outcome.isGood(), outcome::violation);
      assertEquals(List.of(), outcome.trips(), "seed " + outcome.seed());
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"emergency stop", "sample temperature lost", "journal not writable"})
  void aCampaignMissesARowThatIsTakenAway(String row) {
    List<CampaignRun.Outcome> outcomes = run(row, 1, 200);
    CampaignRun.Outcome last = outcomes.get(outcomes.size() - 1);
    assertFalse(last.isGood(), "200 seeds did not miss '" + row + "'");
    assertTrue(last.violation().contains(row), last::violation);
  }

  @Test
  void aTableTellsHowManySeedsARowThatIsLeftOutNeeds() {
    CampaignGaps gaps = new CampaignGaps(1, 40);
    CampaignGaps.Gap stop = gaps.without("sample temperature lost");
    assertTrue(stop.isMissed(), stop::line);
    // Every one of these seeds before the one that missed it must be good without the row, too.
    for (long seed = 1; seed < stop.seed(); seed++) {
      assertTrue(new CampaignRun(seed, incident -> true, stop.row()).run().isGood());
    }
    CampaignGaps.Gap none = gaps.without("no such row");
    assertFalse(none.isMissed());
    assertEquals("no seed reaches it", none.violation());
  }

  @Test
  void theCampaignsBenchesHaveEveryRowThatASimulatedBenchCanHave() {
    assertEquals(43, CampaignBench.rows().size(), () -> CampaignBench.rows().toString());
    assertTrue(CampaignBench.rows().contains("second gauge pressure too high"));
  }

  @Test
  void oneSeedGivesOneOutcome() {
    CampaignRun.Outcome once = new CampaignRun(5, incident -> true, "").run();
    CampaignRun.Outcome twice = new CampaignRun(5, incident -> true, "").run();
    assertEquals(once.toString(), twice.toString());
  }

  @Test
  void aFailingSeedIsMadeSmaller() {
    Campaign campaign = new Campaign("emergency stop", incident -> true);
    List<CampaignRun.Outcome> outcomes = campaign.run(1, 200, true);
    CampaignRun.Outcome failed = outcomes.get(outcomes.size() - 1);
    CampaignRun.Outcome smallest = campaign.smallest(failed);
    assertFalse(smallest.isGood());
    assertTrue(smallest.incidents().size() <= failed.incidents().size());
    assertTrue(
        smallest.incidents().stream()
            .anyMatch(incident -> incident.words().contains("stop") || !incident.isOperators()));
  }
}
