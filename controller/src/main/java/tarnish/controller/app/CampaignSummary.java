package tarnish.controller.app;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;

/** What a campaign came to. */
final class CampaignSummary {
  private final List<CampaignRun.Outcome> outcomes;
  private final double wallS;
  private final boolean faultFree;

  CampaignSummary(List<CampaignRun.Outcome> outcomes, double wallS, boolean faultFree) {
    this.outcomes = outcomes;
    this.wallS = wallS;
    this.faultFree = faultFree;
  }

  /**
   * How fast a row trips.
   *
   * @param medianSinceFaultS from the beginning of the last fault
   * @param medianSinceBreachS from when the plant or the raw readings showed the cause; NaN where
   *     the row always acted before that
   * @param leastSampleMarginK least distance of the sample to its limit at the trip
   */
  record Latency(
      String row,
      int trips,
      double medianSinceFaultS,
      double medianSinceBreachS,
      double worstSinceBreachS,
      double leastSampleMarginK,
      double leastOvenMarginK) {}

  int seeds() {
    return outcomes.size();
  }

  double wallS() {
    return wallS;
  }

  double simulatedHours() {
    return outcomes.stream().mapToDouble(CampaignRun.Outcome::simulatedS).sum() / 3600;
  }

  int trips() {
    return outcomes.stream().mapToInt(outcome -> outcome.trips().size()).sum();
  }

  /** Chatter: the most times that one row came within a minute, in any batch. */
  int mostInAMinute() {
    return outcomes.stream().mapToInt(CampaignRun.Outcome::mostInAMinute).max().orElse(0);
  }

  /** Where nothing went wrong: trips of which the plant really had what the row looks for. */
  int tripsOfThePlant() {
    return trips() - falseTrips();
  }

  /** Where nothing went wrong: trips for nothing. */
  int falseTrips() {
    return outcomes.stream().mapToInt(outcome -> outcome.unprovedTrips().size()).sum();
  }

  List<CampaignRun.Outcome> violations() {
    return outcomes.stream().filter(each -> !violation(each).isEmpty()).toList();
  }

  /** What is violated in a seed; empty for nothing. */
  String violation(CampaignRun.Outcome outcome) {
    if (!outcome.isGood() || !faultFree || outcome.unprovedTrips().isEmpty()) {
      return outcome.violation();
    }
    return "'" + outcome.unprovedTrips().get(0).row() + "' tripped and nothing was wrong";
  }

  List<Latency> latencies() {
    Map<String, List<CampaignWatch.Trip>> byRow = new TreeMap<>();
    for (CampaignRun.Outcome outcome : outcomes) {
      for (CampaignWatch.Trip trip : outcome.trips()) {
        byRow.computeIfAbsent(trip.row(), row -> new ArrayList<>()).add(trip);
      }
    }
    return byRow.entrySet().stream().map(row -> latency(row.getKey(), row.getValue())).toList();
  }

  private static Latency latency(String row, List<CampaignWatch.Trip> trips) {
    double[] fault = sorted(trips, CampaignWatch.Trip::sinceFaultS);
    double[] breach = sorted(trips, CampaignWatch.Trip::sinceBreachS);
    return new Latency(
        row,
        trips.size(),
        median(fault),
        median(breach),
        breach.length == 0 ? Double.NaN : breach[breach.length - 1],
        trips.stream().mapToDouble(CampaignWatch.Trip::sampleMarginK).min().orElse(Double.NaN),
        trips.stream().mapToDouble(CampaignWatch.Trip::ovenMarginK).min().orElse(Double.NaN));
  }

  private static double[] sorted(
      List<CampaignWatch.Trip> trips, ToDoubleFunction<CampaignWatch.Trip> what) {
    return trips.stream().mapToDouble(what).filter(Double::isFinite).sorted().toArray();
  }

  private static double median(double[] sorted) {
    return sorted.length == 0 ? Double.NaN : sorted[sorted.length / 2];
  }

  List<String> words() {
    List<String> lines = new ArrayList<>();
    lines.add(
        String.format(
            Locale.ROOT,
            "%d seeds, %.0f h of batches in %.1f s: %d trips, %d violations",
            seeds(),
            simulatedHours(),
            wallS,
            trips(),
            violations().size()));
    if (faultFree) {
      lines.add(
          "trips that the plant really had: "
              + tripsOfThePlant()
              + ", false trips: "
              + falseTrips());
    }
    lines.add(
        String.format(
            Locale.ROOT,
            "%-32s %6s %12s %12s %12s %10s %10s",
            "first out",
            "trips",
            "since fault",
            "since breach",
            "worst",
            "sample",
            "oven"));
    for (Latency each : latencies()) {
      lines.add(
          String.format(
              Locale.ROOT,
              "%-32s %6d %12s %12s %12s %10s %10s",
              each.row(),
              each.trips(),
              seconds(each.medianSinceFaultS()),
              seconds(each.medianSinceBreachS()),
              seconds(each.worstSinceBreachS()),
              kelvin(each.leastSampleMarginK()),
              kelvin(each.leastOvenMarginK())));
    }
    lines.add("most often one row came within a minute: " + mostInAMinute() + " times");
    lines.add("medians; worst since breach; least margins to the attended limits at the trip");
    return lines;
  }

  private static String seconds(double value) {
    return Double.isFinite(value) ? String.format(Locale.ROOT, "%.2f s", value) : "-";
  }

  private static String kelvin(double value) {
    return Double.isFinite(value) ? String.format(Locale.ROOT, "%.0f K", value) : "-";
  }
}
