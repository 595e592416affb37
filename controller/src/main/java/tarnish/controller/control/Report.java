package tarnish.controller.control;

import java.util.ArrayList;
import java.util.List;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.rig.Switch;

/** Reads a state for those outside: what the page, the record and a rehearsal show. */
public final class Report {
  private final Plan plan;
  private final ControlState state;

  public Report(Plan plan, ControlState state) {
    this.plan = plan;
    this.state = state;
  }

  /**
   * Oxygen taken up by all witnesses, in mol: the gas, the heat of what it did not show ({@link
   * ValveFlow}), and what the weighings tell of the gauge and the volumes.
   */
  public Estimate uptakeMol() {
    return state.composition().uptake(state.gas());
  }

  /**
   * Oxygen taken up by the heat alone, in mol, with the conductance guessed from the charge's heat
   * capacity and the recipe's or the table's enthalpy: wide, but independent of gas and balance.
   */
  public Estimate uptakeByHeatMol() {
    HeatBalance balance = state.heat().balance();
    Estimate perKelvinSecond = balance.molPerKelvinSecond(plan);
    double a = perKelvinSecond.value();
    return new Estimate(
        a * balance.integralKs(),
        StrictMath.hypot(
            perKelvinSecond.standardUncertainty() * balance.integralKs(),
            a * balance.integralUncertaintyKs()));
  }

  /** Whether the heat has anything to say: it was learnt without oxygen, and oxygen was let in. */
  public boolean heatIsWitness() {
    return state.heat().balance().isLearnt() && state.gas().pulses() > 0;
  }

  /** The mixture of two members of the series that the composition stands for (lever rule). */
  public String mixture() {
    return Mixture.words(oxygenPerUnit(), plan.recipe().series());
  }

  /**
   * Oxygen's share of the gas in the vessel: little of it means that inert gas blankets the solid.
   */
  public Estimate gasOxygenFraction() {
    return state.gas().oxygenFraction();
  }

  /** Oxygen gained per formula unit of the charge, by all witnesses. */
  public Estimate oxygenPerUnit() {
    return state.composition().now(state.gas());
  }

  /** Conversion to the target, 1 when reached. */
  public Estimate conversion() {
    return oxygenPerUnit().times(1 / plan.recipe().target().oxygenPerUnit());
  }

  /** Every soak that is done or under way. */
  public List<SoakRecord> soaks() {
    List<SoakRecord> soaks = new ArrayList<>(state.soaks());
    if (state.run() instanceof SoakRun soaking) {
      soaks.add(
          new SoakRecord(
              state.cursor().position(),
              soaking.step().atK(),
              soaking.step().durationS(),
              soaking.inBandS()));
    }
    return soaks;
  }

  /** Soaks that the recipe still has in store after the present step, passes of repeats apart. */
  public List<SoakRecord> soaksToCome() {
    List<SoakRecord> soaks = new ArrayList<>();
    int from = state.cursor().position() + (state.run() instanceof SoakRun ? 1 : 0);
    for (int at = from; at < state.program().size(); at++) {
      if (state.program().at(at) instanceof Instruction.Do doing
          && doing.step() instanceof tarnish.shared.recipe.Step.Soak soak) {
        soaks.add(new SoakRecord(at, soak.atK(), soak.durationS(), 0));
      }
    }
    return soaks;
  }

  /**
   * One row of the cause-and-effect table with its state now.
   *
   * @param aside how it is set aside: shelved, defeated or suppressed by design; else empty
   */
  public record Row(
      String id,
      AlarmState state,
      String priority,
      boolean firstOut,
      String what,
      String done,
      String todo,
      String limit,
      double delayS,
      boolean latching,
      boolean holdsBatch,
      String aside) {}

  /** The whole table as enforced, limits of the present state of presence. */
  public List<Row> interlocks() {
    TickWork work = new TickWork(plan, state);
    List<Row> rows = new ArrayList<>();
    for (int i = 0; i < plan.interlocks().size(); i++) {
      InterlockRow row = plan.interlocks().get(i);
      rows.add(
          new Row(
              row.id(),
              state.alarms().state(i),
              row.priority().words(),
              state.alarms().isFirstOut(i),
              row.what(),
              row.done(),
              row.todo(),
              row.limitWords(work),
              row.delayS(),
              row.latching(),
              row.holdsBatch(),
              aside(i, row, work)));
    }
    return rows;
  }

  private String aside(int i, InterlockRow row, TickWork work) {
    AlarmBoard alarms = state.alarms();
    if (alarms.isDefeated(i) || alarms.isShelved(i)) {
      double leftS = (alarms.setAsideUntilMillis(i) - state.lastMillis()) / 1000.0;
      String what = alarms.isDefeated(i) ? "DEFEATED" : "shelved";
      return what + " for another " + Words.duration(StrictMath.max(0, StrictMath.rint(leftS)));
    }
    return row.isSuppressed(work) ? "suppressed by design" : "";
  }

  /** The rows that the rig cannot have, each in a sentence with what remains. */
  public List<String> missingInterlocks() {
    return InterlockTable.missing(plan.rig()).stream().map(MissingRow::sentence).toList();
  }

  /** Why a value that its device calls good is not believed; empty where it is. */
  public String doubt(tarnish.shared.reading.Channel channel) {
    tarnish.shared.reading.BadReason doubt = state.signs().plausibility().doubt(channel);
    return doubt == null ? "" : doubt.words();
  }

  /** The table as it would be enforced on a rig, one line a row, for the check of its file. */
  public static List<String> table(tarnish.shared.rig.RigDescription rig) {
    List<String> lines = new ArrayList<>();
    for (InterlockRow row : InterlockTable.of(rig)) {
      String delay = row.delayS() > 0 ? " for " + Words.duration(row.delayS()) : "";
      String alone = row.limitWords(rig.unattended());
      String with = row.limitWords(rig.attended());
      String limit = alone.equals(with) ? alone : alone + " (attended: " + with + ")";
      String until = row.latching() ? "until reset by a person" : "while it lasts";
      lines.add(
          row.id()
              + ": "
              + limit
              + delay
              + " -> "
              + row.done()
              + " ["
              + until
              + ", "
              + row.priority().words()
              + " priority]");
    }
    InterlockTable.missing(rig).forEach(row -> lines.add(row.sentence()));
    return lines;
  }

  /** Why a switch has no permit, or empty where it has. */
  public String withheldBy(Switch which) {
    List<String> causes = new ArrayList<>();
    for (int i = 0; i < plan.interlocks().size(); i++) {
      InterlockRow row = plan.interlocks().get(i);
      AlarmState now = state.alarms().state(i);
      boolean acts =
          now == AlarmState.UNACKNOWLEDGED || now == AlarmState.ACKNOWLEDGED || now.isLatchedOnly();
      if (acts && !state.alarms().isDefeated(i) && (row.effects() & InterlockRow.bit(which)) != 0) {
        causes.add(row.id());
      }
    }
    return String.join(", ", causes);
  }

  /** The requests that would not be refused now, by their words. */
  public List<String> mayAsk() {
    List<String> may = new ArrayList<>();
    BatchState phase = state.phase();
    boolean tripped = state.alarms().holding(plan.interlocks()) >= 0;
    addIf(may, (phase == BatchState.IDLE || phase.isFinal()) && !tripped, "start");
    addIf(may, phase.mayPause(), "pause");
    addIf(may, phase.mayResume(), "resume");
    addIf(may, phase.mayRestart() && !tripped, "restart");
    addIf(may, phase.mayStop(), "stop");
    addIf(may, phase.mayAbort(), "abort");
    addIf(may, state.question() != null && phase == BatchState.RUNNING, "answer");
    addIf(may, true, "checkIn");
    addIf(may, !state.presence().by().isEmpty(), "checkOut");
    addIf(may, state.presence().attended(), "handOver");
    return may;
  }

  private static void addIf(List<String> list, boolean condition, String word) {
    if (condition) {
      list.add(word);
    }
  }

  /** One line of the recipe: {@code where} is done, now or to come. */
  public record StepLine(int number, int depth, String title, String where, String doing) {}

  /** The recipe's lines with what is done, under way and to come. */
  public List<StepLine> steps() {
    List<StepLine> lines = new ArrayList<>();
    int position = state.cursor().position();
    for (Program.Line line : state.program().lines()) {
      boolean now = state.run() != null && line.position() == position;
      String where = now ? "now" : line.position() < position ? "done" : "to come";
      lines.add(
          new StepLine(
              line.position() + 1,
              line.depth(),
              line.title(),
              where,
              now ? state.run().doing() : ""));
    }
    return lines;
  }
}
