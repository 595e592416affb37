package tarnish.controller.app;

import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import tarnish.controller.control.InterlockTable;
import tarnish.controller.control.Request;
import tarnish.controller.service.Status;

/**
 * Somebody who is always at a simulated bench that runs much faster than the clock: stays checked
 * in, answers, and goes on where others kept the machine busy for so long that the loop came late
 * or the check-in ran out. One thread.
 */
final class BenchKeeper {
  static final String NAME = "tester";

  private static final Pattern BALANCE = Pattern.compile("balance shows ([0-9.]+) g");
  private static final double SHIFT_HOURS = 12;
  private static final double RENEWED_BELOW_S = 11 * 3600;

  /** What may trip only because the machine has no time for the loop or for this person. */
  private static final Set<String> OF_A_BUSY_MACHINE =
      Set.of(InterlockTable.LOOP_OVERRUN, "operator overdue", "person needed");

  private final LiveBench bench;
  private long seenTicks = -1;

  BenchKeeper(LiveBench bench) {
    this.bench = bench;
  }

  /** Does what is to be done now, once for each picture that the loop publishes. */
  void look() {
    Status status = bench.status();
    if (status.loop().ticks() == seenTicks || status.batch() == null) {
      return;
    }
    seenTicks = status.loop().ticks();
    if (!status.presence().attended() || status.presence().leftS() < RENEWED_BELOW_S) {
      bench.submit(new Request.CheckIn(NAME, SHIFT_HOURS));
    }
    status.alarms().forEach(alarm -> reset(alarm, status));
    if (status.mayAsk().contains("restart")) {
      bench.submit(new Request.Restart(NAME));
    } else if (status.mayAsk().contains("resume")) {
      bench.submit(new Request.Resume(NAME));
    } else if (status.ask() != null) {
      bench.submit(answer(status.ask()));
    }
  }

  private void reset(Status.AlarmLine alarm, Status status) {
    if (status.state().equals("held")
        && alarm.firstOut()
        && !OF_A_BUSY_MACHINE.contains(alarm.id())) {
      throw new AssertionError("held: " + status.why() + " (" + alarm.id() + ")");
    }
    if (alarm.mayReset()) {
      bench.submit(new Request.Reset(NAME, alarm.id(), "the machine was busy"));
    }
  }

  private static Request answer(Status.AskLine ask) {
    Map<String, Double> values =
        shownGrams(ask.prompt())
            .map(grams -> Map.of(ask.fields().get(0).name(), Double.parseDouble(grams) / 1e3))
            .orElse(Map.of());
    return new Request.Answer(NAME, ask.number(), values, "");
  }

  /** What the simulated balance shows, in g, where a question says it. */
  static Optional<String> shownGrams(String prompt) {
    Matcher balance = BALANCE.matcher(prompt);
    return balance.find() ? Optional.of(balance.group(1)) : Optional.empty();
  }
}
