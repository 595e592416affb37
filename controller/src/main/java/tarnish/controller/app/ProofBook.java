package tarnish.controller.app;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import tarnish.controller.control.InterlockTable;
import tarnish.controller.files.ProofRule;
import tarnish.controller.service.ProofTests;
import tarnish.shared.rig.RigDescription;

/** The proof tests of a rig for its page, kept in the dated record beside the journal. */
final class ProofBook implements ProofTests {
  private static final int NAMED_MAX = 3;
  private static final long SEED = 1;

  private final RigDescription rig;
  private final ProofRule rule;
  private final ProofRecord record;
  private final Supplier<LocalDate> today;

  ProofBook(RigDescription rig, ProofRule rule, ProofRecord record, Supplier<LocalDate> today) {
    this.rig = rig;
    this.rule = rule;
    this.record = record;
    this.today = today;
  }

  @Override
  public synchronized List<Line> lines() {
    Map<String, ProofRecord.Entry> newest = record.newest();
    List<Line> lines = new ArrayList<>();
    for (String row : InterlockTable.names(rig)) {
      ProofRecord.Entry entry = newest.get(row);
      boolean simulated = isSimulated() && trial(row).isPresent();
      String instruction =
          isSimulated()
              ? "The simulated bench provokes it: a batch of its own, beside the one that runs."
              : ProofWords.atTheBench(row);
      lines.add(
          entry == null
              ? new Line(row, "", "never tested", "", "", true, instruction, simulated)
              : line(entry, instruction, simulated));
    }
    return lines;
  }

  private Line line(ProofRecord.Entry entry, String instruction, boolean simulated) {
    boolean overdue = isOverdue(entry);
    String within =
        Double.isFinite(entry.withinS())
            ? String.format(Locale.ROOT, " within %.2f s", entry.withinS())
            : "";
    return new Line(
        entry.row(),
        entry.date().toString(),
        entry.passed() ? "acted" + within : "did not act",
        entry.how() + ", by " + entry.by(),
        entry.passed() ? entry.due().toString() : "",
        overdue,
        instruction,
        simulated);
  }

  private boolean isOverdue(ProofRecord.Entry entry) {
    return !entry.passed() || !entry.rig().equals(rig.name()) || today.get().isAfter(entry.due());
  }

  @Override
  public String rule() {
    String every = "Every row is proved every " + rule.everyDays() + " days. ";
    return rule.whenOverdue() == ProofRule.WhenOverdue.ATTENDED_ONLY
        ? every + "While one is overdue, batches start attended only (rig file)."
        : every + "An overdue test is a warning only (rig file).";
  }

  /** Why a batch may run attended only; empty where it may run alone. */
  synchronized String whyAttendedOnly() {
    if (rule.whenOverdue() != ProofRule.WhenOverdue.ATTENDED_ONLY) {
      return "";
    }
    List<String> overdue = lines().stream().filter(Line::overdue).map(Line::row).toList();
    if (overdue.isEmpty()) {
      return "";
    }
    String named = String.join(", ", overdue.subList(0, Math.min(NAMED_MAX, overdue.size())));
    int more = overdue.size() - NAMED_MAX;
    return "Proof tests are overdue: " + named + (more > 0 ? " and " + more + " more" : "") + ".";
  }

  @Override
  public synchronized Optional<String> note(String row, boolean acted, String by, String remark) {
    if (!InterlockTable.names(rig).contains(row)) {
      return Optional.of("The interlock table of this rig has no row '" + row + "'.");
    }
    String how = "at the bench" + (remark.isBlank() ? "" : ": " + remark.strip());
    return add(row, acted, Double.NaN, by, how);
  }

  @Override
  public synchronized Optional<String> simulate(String row, String by) {
    Optional<ProofTrial> trial = isSimulated() ? trial(row) : Optional.empty();
    if (trial.isEmpty()) {
      return Optional.of("'" + row + "' cannot be provoked on a simulated bench here.");
    }
    ProofBench.Result result = new ProofBench(rig, SEED).run(trial.get());
    return add(row, result.acted(), result.withinS(), by, "simulated bench, seed " + SEED);
  }

  private Optional<String> add(String row, boolean acted, double withinS, String by, String how) {
    LocalDate now = today.get();
    LocalDate due = now.plusDays(rule.everyDays());
    try {
      record.add(
          List.of(new ProofRecord.Entry(row, acted, withinS, now, due, by, rig.name(), how)));
      return Optional.empty();
    } catch (CommandFailure e) {
      return Optional.of(e.getMessage());
    }
  }

  private boolean isSimulated() {
    return rig.connection() == RigDescription.Connection.SIMULATED;
  }

  private Optional<ProofTrial> trial(String row) {
    return ProofTrial.all().stream()
        .filter(each -> each.row().equals(row) && ProofTestCommand.isAllowed(each, rig))
        .findFirst();
  }
}
