package tarnish.controller.app;

import java.util.List;
import java.util.Locale;

/**
 * How many seeds a campaign needs to miss a row of the interlock table that is left out.
 *
 * <p>Until a row acts for the first time a batch is the same with and without it. So only those
 * seeds are run again in which it acted, and the answer is that of running them all.
 */
final class CampaignGaps {
  private final List<CampaignRun.Outcome> whole;
  private final long first;

  /** Runs the seeds, first to last included, with the whole table. */
  CampaignGaps(long first, long last, Progress progress) {
    this(first, new Campaign("", incident -> true).run(first, last, false, progress));
  }

  /** With what came of the seeds, from the first on, with the whole table. */
  CampaignGaps(long first, List<CampaignRun.Outcome> whole) {
    this.first = first;
    this.whole = whole;
  }

  /**
   * A row that was left out.
   *
   * @param acted seeds in which it acts while it is there
   * @param seeds until it was missed; 0 where it was not
   * @param violation what was found then
   */
  record Gap(String row, int acted, long seeds, long seed, String violation) {
    boolean isMissed() {
      return seeds > 0;
    }

    static String title() {
      return String.format(
          Locale.ROOT, "%-32s %8s %8s  %s", "row left out", "acts in", "seeds", "what is violated");
    }

    String line() {
      String found = violation.replaceAll("^at [0-9.]+ s: ", "");
      String needed = isMissed() ? String.valueOf(seeds) : "-";
      return String.format(Locale.ROOT, "%-32s %8d %8s  %s", row, acted, needed, found);
    }
  }

  /** What came of the seeds with the whole table. */
  List<CampaignRun.Outcome> whole() {
    return whole;
  }

  Gap without(String row) {
    List<Long> acts =
        whole.stream()
            .filter(each -> each.raised().contains(row))
            .map(CampaignRun.Outcome::seed)
            .toList();
    Campaign campaign = new Campaign(row, incident -> true);
    for (long seed : acts) {
      CampaignRun.Outcome outcome = campaign.run(seed, seed, true).get(0);
      if (!outcome.isGood()) {
        return new Gap(row, acts.size(), seed - first + 1, seed, outcome.violation());
      }
    }
    return new Gap(row, acts.size(), 0, 0, acts.isEmpty() ? "no seed reaches it" : "not missed");
  }
}
