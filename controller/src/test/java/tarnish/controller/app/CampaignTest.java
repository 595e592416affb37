package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CampaignTest {
  private static final long SEEDS = 60;
  private static final String STOP = "emergency stop";
  private static final String SAMPLE_LOST = "sample temperature lost";

  /** A seed gives one outcome, so several tests look at the same ones. */
  private static final Map<String, List<CampaignRun.Outcome>> OUTCOMES = new HashMap<>();

  private static List<CampaignRun.Outcome> whole() {
    return OUTCOMES.computeIfAbsent(
        "", none -> new Campaign(none, incident -> true).run(1, SEEDS, false));
  }

  /** Outcomes without a row of the table, up to the seed that misses it. */
  private static List<CampaignRun.Outcome> without(String row) {
    return OUTCOMES.computeIfAbsent(
        row, each -> new Campaign(each, incident -> true).run(1, 200, true));
  }

  private static CampaignRun.Outcome missed(String row) {
    List<CampaignRun.Outcome> outcomes = without(row);
    return outcomes.get(outcomes.size() - 1);
  }

  @Test
  void nothingIsViolatedWhateverGoesWrong() {
    assertEquals(SEEDS, whole().size());
    for (CampaignRun.Outcome outcome : whole()) {
      assertTrue(outcome.isGood(), "seed " + outcome.seed() + ": " + outcome.violation());
    }
  }

  @Test
  void withoutFaultsNothingTrips() {
    for (CampaignRun.Outcome outcome : new Campaign("", incident -> false).run(1, 12, false)) {
      assertTrue(outcome.isGood(), outcome::violation);
      assertEquals(List.of(), outcome.unprovedTrips(), "seed " + outcome.seed());
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {STOP, SAMPLE_LOST, "journal not writable"})
  void aCampaignMissesARowThatIsTakenAway(String row) {
    CampaignRun.Outcome last = missed(row);
    assertFalse(last.isGood(), "200 seeds did not miss '" + row + "'");
    assertTrue(last.violation().contains(row), last::violation);
  }

  @Test
  void aTableTellsHowManySeedsARowThatIsLeftOutNeeds() {
    CampaignGaps gaps = new CampaignGaps(1, whole());
    CampaignGaps.Gap gap = gaps.without(SAMPLE_LOST);
    assertTrue(gap.isMissed(), gap::line);
    // Found as if every seed before it had been run again without the row.
    assertEquals(missed(SAMPLE_LOST).seed(), gap.seed());
    assertEquals(missed(SAMPLE_LOST).violation(), gap.violation());
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
    CampaignRun.Outcome again = new CampaignRun(5, incident -> true, "").run();
    assertEquals(whole().get(4).toString(), again.toString());
  }

  @Test
  void aFailingSeedIsMadeSmaller() {
    Campaign campaign = new Campaign(STOP, incident -> true);
    CampaignRun.Outcome failed = missed(STOP);
    CampaignRun.Outcome smallest = campaign.smallest(failed);
    assertFalse(smallest.isGood());
    assertTrue(smallest.incidents().size() <= failed.incidents().size());
    assertTrue(
        smallest.incidents().stream()
            .anyMatch(incident -> incident.words().contains("stop") || !incident.isOperators()));
  }
}
