package tarnish.controller.app;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code campaign}: batches in which everything goes wrong, watched at every tick. */
@Command(
    name = "campaign",
    mixinStandardHelpOptions = true,
    description =
        "Runs a random batch on a random simulated bench for every seed, with faults and people"
            + " who press anything, and checks at every tick what must always be true. Exit status"
            + " 0 if nothing is violated.")
final class CampaignCommand implements Callable<Integer> {
  @Option(
      names = "--seeds",
      required = true,
      converter = SeedRange.Converter.class,
      paramLabel = "A..B",
      description = "from A to B")
  private SeedRange seeds;

  @Option(names = "--json", description = "print one JSON object")
  private boolean json;

  @Option(
      names = "--without",
      defaultValue = "",
      paramLabel = "ROW",
      description = "leave out a row of the interlock table; stops at the first violation")
  private String without;

  @Option(
      names = "--keep",
      paramLabel = "N,N",
      description = "only these incidents of each seed, by their numbers; '-' for none")
  private String keep;

  @Option(
      names = "--fault-free",
      description = "no incidents; a trip is a violation unless the plant really had what it tells")
  private boolean faultFree;

  @Option(
      names = "--each-without",
      description =
          "leave out every row of the interlock table in turn and print how many seeds it takes to"
              + " miss it")
  private boolean eachWithout;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    if (eachWithout) {
      return eachWithout();
    }
    Campaign campaign = new Campaign(without, faultFree ? incident -> false : kept());
    long began = System.nanoTime();
    List<CampaignRun.Outcome> outcomes =
        campaign.run(seeds.from(), seeds.to(), !without.isEmpty(), Progress.of(spec, seeds));
    double wallS = (System.nanoTime() - began) / 1e9;
    CampaignSummary summary = new CampaignSummary(outcomes, wallS, faultFree);
    PrintWriter out = spec.commandLine().getOut();
    if (json) {
      out.println(json(summary));
    } else {
      print(summary, campaign, out);
    }
    out.flush();
    return summary.violations().isEmpty() ? Main.DONE : Main.FAILED;
  }

  private int eachWithout() {
    long began = System.nanoTime();
    CampaignGaps gaps = new CampaignGaps(seeds.from(), seeds.to(), Progress.of(spec, seeds));
    double wallS = (System.nanoTime() - began) / 1e9;
    PrintWriter out = spec.commandLine().getOut();
    CampaignSummary summary = new CampaignSummary(gaps.whole(), wallS, false);
    summary.words().forEach(out::println);
    summary.violations().forEach(v -> out.println("seed " + v.seed() + ": " + v.violation()));
    out.println();
    out.println(CampaignGaps.Gap.title());
    out.flush();
    boolean all = summary.violations().isEmpty();
    for (String row : CampaignBench.rows()) {
      CampaignGaps.Gap gap = gaps.without(row);
      all &= gap.isMissed();
      out.println(gap.line());
      out.flush();
    }
    return all ? Main.DONE : Main.FAILED;
  }

  private Predicate<Incident> kept() {
    if (keep == null) {
      return incident -> true;
    }
    if (keep.equals("-")) {
      return incident -> false;
    }
    try {
      Set<Integer> numbers =
          Arrays.stream(keep.split(",")).map(Integer::valueOf).collect(Collectors.toSet());
      return incident -> numbers.contains(incident.number());
    } catch (NumberFormatException e) {
      throw new CommandFailure("--keep is '" + keep + "'; it must be numbers such as 0,2 or '-'.");
    }
  }

  private void print(CampaignSummary summary, Campaign campaign, PrintWriter out) {
    summary.words().forEach(out::println);
    int shown = 0;
    for (CampaignRun.Outcome each : summary.violations()) {
      if (shown++ >= 10) {
        out.println("... and " + (summary.violations().size() - 10) + " more");
        return;
      }
      out.println();
      out.println("seed " + each.seed() + ": " + summary.violation(each));
      CampaignRun.Outcome smallest = faultFree ? each : campaign.smallest(each);
      smallest.incidents().forEach(incident -> out.println("  " + incident.words()));
      out.println("  again: " + again(smallest));
      out.flush();
    }
  }

  private String again(CampaignRun.Outcome smallest) {
    String numbers =
        smallest.incidents().stream()
            .map(incident -> String.valueOf(incident.number()))
            .collect(Collectors.joining(","));
    return "tarnish campaign --seeds "
        + smallest.seed()
        + ".."
        + smallest.seed()
        + (without.isEmpty() ? "" : " --without '" + without + "'")
        + (faultFree ? " --fault-free" : " --keep " + (numbers.isEmpty() ? "-" : numbers));
  }

  private String json(CampaignSummary summary) {
    ObjectNode root = new ObjectMapper().createObjectNode();
    root.put("seeds", summary.seeds());
    root.put("simulatedHours", summary.simulatedHours());
    root.put("wallSeconds", summary.wallS());
    root.put("trips", summary.trips());
    if (faultFree) {
      root.put("tripsOfThePlant", summary.tripsOfThePlant());
      root.put("falseTrips", summary.falseTrips());
    }
    root.put("mostOftenWithinAMinute", summary.mostInAMinute());
    ArrayNode violations = root.putArray("violations");
    for (CampaignRun.Outcome each : summary.violations()) {
      ObjectNode one = violations.addObject();
      one.put("seed", each.seed());
      one.put("violation", summary.violation(each));
      ArrayNode incidents = one.putArray("incidents");
      each.incidents().forEach(incident -> incidents.add(incident.words()));
    }
    ArrayNode rows = root.putArray("latencies");
    for (CampaignSummary.Latency each : summary.latencies()) {
      ObjectNode one = rows.addObject();
      one.put("row", each.row());
      one.put("trips", each.trips());
      putFinite(one, "medianSinceFaultS", each.medianSinceFaultS());
      putFinite(one, "medianSinceBreachS", each.medianSinceBreachS());
      putFinite(one, "worstSinceBreachS", each.worstSinceBreachS());
      putFinite(one, "leastSampleMarginK", each.leastSampleMarginK());
      putFinite(one, "leastOvenMarginK", each.leastOvenMarginK());
    }
    return root.toString();
  }

  private static void putFinite(ObjectNode node, String name, double value) {
    if (Double.isFinite(value)) {
      node.put(name, Double.parseDouble(String.format(Locale.ROOT, "%.2f", value)));
    }
  }
}
