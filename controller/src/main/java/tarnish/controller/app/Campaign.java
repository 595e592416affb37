package tarnish.controller.app;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Predicate;

/** Many seeds, on all processors, with what came of each. */
final class Campaign {
  private final String without;
  private final Predicate<Incident> keep;

  Campaign(String without, Predicate<Incident> keep) {
    this.without = without;
    this.keep = keep;
  }

  /** Outcomes in the order of the seeds, {@code first} to {@code last} included. */
  List<CampaignRun.Outcome> run(long first, long last, boolean stopAtFirst) {
    return run(first, last, stopAtFirst, Progress.silent());
  }

  /** The same, told of as it goes. */
  List<CampaignRun.Outcome> run(long first, long last, boolean stopAtFirst, Progress progress) {
    ExecutorService pool = Executors.newFixedThreadPool(Runtime.getRuntime().availableProcessors());
    List<CampaignRun.Outcome> outcomes = new ArrayList<>();
    try {
      List<Future<CampaignRun.Outcome>> begun = new ArrayList<>();
      for (long seed = first; seed <= last; seed++) {
        long each = seed;
        begun.add(pool.submit(() -> progress.counted(() -> one(each, keep))));
      }
      for (Future<CampaignRun.Outcome> done : begun) {
        outcomes.add(done.get());
        if (stopAtFirst && !done.get().isGood()) {
          return outcomes;
        }
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } catch (ExecutionException e) {
      throw new IllegalStateException(e.getCause());
    } finally {
      pool.shutdownNow();
    }
    return outcomes;
  }

  private CampaignRun.Outcome one(long seed, Predicate<Incident> which) {
    try {
      return new CampaignRun(seed, which, without).run();
    } catch (RuntimeException e) {
      throw new IllegalStateException("seed " + seed + " broke off: " + e, e);
    }
  }

  /** Leaves out incidents one by one as long as the seed still fails in the same way. */
  CampaignRun.Outcome smallest(CampaignRun.Outcome failed) {
    CampaignRun.Outcome smallest = failed;
    Set<Integer> left = new HashSet<>();
    failed.incidents().forEach(incident -> left.add(incident.number()));
    for (Incident each : failed.incidents()) {
      left.remove(each.number());
      Set<Integer> tried = Set.copyOf(left);
      CampaignRun.Outcome again = one(failed.seed(), i -> tried.contains(i.number()));
      if (again.isGood() || !kind(again).equals(kind(failed))) {
        left.add(each.number());
      } else {
        smallest = again;
      }
    }
    return smallest;
  }

  /** A violation without its figures. */
  private static String kind(CampaignRun.Outcome outcome) {
    return outcome.violation().replaceAll("^at [0-9.]+ s: ", "").replaceAll("[0-9.E-]+", "#");
  }
}
