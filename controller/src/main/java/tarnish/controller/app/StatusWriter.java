package tarnish.controller.app;

import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import tarnish.controller.control.AlarmState;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Narrator;
import tarnish.controller.control.OpenQuestion;
import tarnish.controller.control.Outlook;
import tarnish.controller.control.PersonNeed;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Presence;
import tarnish.controller.control.Report;
import tarnish.controller.control.SoakRecord;
import tarnish.controller.control.StallJudge;
import tarnish.controller.control.Words;
import tarnish.controller.service.Status;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Reading;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Switch;

/** Puts a state into the words and numbers of the page. */
final class StatusWriter {
  private static final DateTimeFormatter CLOCK =
      DateTimeFormatter.ofPattern("HH:mm 'on' d MMM", Locale.ENGLISH);

  private static final List<String> CAUTIONS =
      List.of(
          "Oxygen: keep oil, grease and flames away; open valves slowly; oil-free, oxygen-clean"
              + " parts only.",
          "Hot glass looks like cold glass: gloves, eye protection, a shield; never open while hot.",
          "A closed vessel bursts when its pressure passes the glass's rating: a relief valve that"
              + " works without this program must be fitted.",
          "Mains heaters: wiring, fuses and earthing by a licensed person to the local code.",
          "Air-sensitive solids can ignite: open only cold and under inert gas.",
          "This program is not a safety device. Hard-wired limits must protect you when it fails.");

  /** Causes below this weight are not shown. */
  private static final double WORTH_SAYING = 0.05;

  private List<String> drift = List.of();
  private final ForecastCache forecasts = new ForecastCache();
  private final String version;
  private final double speed;
  private final boolean simulated;

  StatusWriter(String version, double speed, boolean simulated) {
    this.version = version;
    this.speed = speed;
    this.simulated = simulated;
  }

  /** What the shell knows beside the state of control. */
  record Shell(Integer batch, OffsetDateTime wallTime, Double balanceKg, Status.LoopLine loop) {}

  /** What is always said, after what must be told about the oven model. */
  private List<String> cautions(Plan plan, Shell shell) {
    return Stream.of(
            OvenNotice.of(plan.rig(), shell.wallTime().toLocalDate()).stream(),
            drift.stream(),
            CAUTIONS.stream())
        .flatMap(words -> words)
        .toList();
  }

  /** What the last batch showed of the oven, from now on among the cautions. */
  void tellDrift(List<String> sentences) {
    drift = List.copyOf(sentences);
  }

  Status write(Plan plan, ControlState state, Readings readings, Shell shell) {
    Narrator narrator = Narrator.of(plan, state);
    Report report = new Report(plan, state);
    Outlook outlook = Outlook.from(plan, state, readings);
    boolean running = shell.batch() != null && !state.phase().isFinal();
    return new Status(
        version,
        plan.rig().name(),
        simulated,
        plan.rig().invented() || plan.recipe().invented(),
        speed,
        shell.wallTime().toString(),
        shell.batch(),
        shell.batch() == null ? null : plan.recipe().title(),
        Math.max(0, state.lastMillis()),
        state.phase().words(),
        narrator.sentence(),
        narrator.why(),
        narrator.next(),
        running ? ends(state, outlook, shell) : null,
        steps(report),
        readings(report, readings),
        outputs(state),
        permits(report),
        soaks(report, outlook, shell, state),
        oxygen(plan, state, readings, report, shell),
        alarms(report),
        ask(state, shell),
        running ? course(outlook) : List.of(),
        interlocks(report),
        report.mayAsk(),
        cautions(plan, shell),
        shell.loop(),
        presence(plan, state),
        report.missingInterlocks(),
        running ? NeedWriter.of(plan, state, outlook, shell.wallTime()) : List.of());
  }

  private String ends(ControlState state, Outlook outlook, Shell shell) {
    double leftS = outlook.endS() - state.lastMillis() / 1000.0;
    String when = CLOCK.format(shell.wallTime().plusSeconds(Math.round(leftS)));
    String about = "Ends about " + when + ", in " + Words.duration(Math.round(leftS / 60) * 60.0);
    return outlook.waitsForPerson() ? about + ", later if a person is waited for." : about + ".";
  }

  private static List<Status.StepLine> steps(Report report) {
    return report.steps().stream()
        .map(
            line ->
                new Status.StepLine(
                    line.number(), line.depth(), line.title(), line.where(), line.doing()))
        .toList();
  }

  private static List<Status.ReadingLine> readings(Report report, Readings readings) {
    List<Status.ReadingLine> lines = new ArrayList<>();
    for (Channel channel : Channel.values()) {
      if (!readings.isFitted(channel)) {
        continue;
      }
      Reading reading = readings.at(channel);
      String doubt = report.doubt(channel);
      if (reading instanceof Reading.Good && !doubt.isEmpty()) {
        lines.add(new Status.ReadingLine(channel.words(), "–", null, doubt));
      } else if (reading instanceof Reading.Good good) {
        lines.add(
            new Status.ReadingLine(
                channel.words(), Words.value(channel, good.value()), good.value(), ""));
      } else {
        String problem = ((Reading.Bad) reading).reason().words();
        lines.add(new Status.ReadingLine(channel.words(), "–", null, problem));
      }
    }
    return lines;
  }

  private static List<Status.OutputLine> outputs(ControlState state) {
    List<Status.OutputLine> lines = new ArrayList<>();
    for (Switch each : Switch.values()) {
      String detail =
          each == Switch.HEATER
              ? Quantities.print(state.outputs().heaterPerMille() / 1000.0, Unit.PERCENT, 1)
              : "";
      lines.add(new Status.OutputLine(each.words(), state.outputs().isOn(each), detail));
    }
    return lines;
  }

  private static List<Status.PermitLine> permits(Report report) {
    List<Status.PermitLine> lines = new ArrayList<>();
    for (Switch each : Switch.values()) {
      if (each != Switch.HEARTBEAT) {
        String by = report.withheldBy(each);
        lines.add(new Status.PermitLine(each.words(), by.isEmpty(), by));
      }
    }
    return lines;
  }

  private static List<Status.SoakLine> soaks(
      Report report, Outlook outlook, Shell shell, ControlState state) {
    List<Status.SoakLine> lines = new ArrayList<>();
    for (SoakRecord soak : report.soaks()) {
      boolean done = soak.inBandS() >= soak.requiredS();
      lines.add(soakLine(soak, done ? "done" : "now", done ? null : outlook, shell, state));
    }
    for (SoakRecord soak : report.soaksToCome()) {
      lines.add(soakLine(soak, "to come", outlook, shell, state));
    }
    return lines;
  }

  private static Status.SoakLine soakLine(
      SoakRecord soak, String where, Outlook outlook, Shell shell, ControlState state) {
    Outlook.Span span = outlook == null ? null : outlook.soaks().get(soak.position());
    return new Status.SoakLine(
        Words.temperature(soak.setpointK()),
        soak.setpointK(),
        soak.requiredS(),
        soak.inBandS(),
        where,
        NeedWriter.about(span, where, state, shell.wallTime()));
  }

  private Status.OxygenLine oxygen(
      Plan plan, ControlState state, Readings readings, Report report, Shell shell) {
    if (shell.batch() == null) {
      return null;
    }
    Estimate conversion = report.conversion();
    Estimate percent = conversion.times(100);
    return new Status.OxygenLine(
        Words.amount(report.uptakeMol()),
        Quantities.print(plan.recipe().oxygenNeededMol(), Unit.MILLIMOLE, 2),
        Words.estimate(report.oxygenPerUnit()),
        Quantities.printShort(plan.recipe().target().oxygenPerUnit(), Unit.ONE),
        Words.estimate(percent) + " %",
        conversion.value(),
        conversion.standardUncertainty(),
        report.uptakeMol().value(),
        report.uptakeMol().standardUncertainty(),
        more(state, report, forecasts.words(plan, state)),
        stalled(plan, state, readings));
  }

  private static List<Status.WhyLine> stalled(Plan plan, ControlState state, Readings readings) {
    return StallJudge.judge(plan, state, readings).stream()
        .filter(verdict -> verdict.weight() >= WORTH_SAYING)
        .map(
            verdict ->
                new Status.WhyLine(
                    verdict.cause().words(),
                    String.format(Locale.ROOT, "%.0f %%", 100 * verdict.weight()),
                    verdict.evidence(),
                    verdict.cause().act()))
        .toList();
  }

  private static List<Status.PairLine> more(ControlState state, Report report, String forecast) {
    List<Status.PairLine> lines = new ArrayList<>();
    state
        .expectedUptakeMol()
        .ifPresent(
            band ->
                lines.add(
                    new Status.PairLine(
                        "Taken up by now, as rehearsed",
                        String.format(
                            Locale.ROOT, "%.2f to %.2f mmol", band[0] * 1e3, band[1] * 1e3))));
    lines.add(new Status.PairLine("Mixture now", report.mixture()));
    lines.add(new Status.PairLine("Oxygen in the gas", Words.percent(report.gasOxygenFraction())));
    if (report.heatIsWitness()) {
      lines.add(
          new Status.PairLine("Taken up, by the heat", Words.amount(report.uptakeByHeatMol())));
    }
    lines.add(new Status.PairLine("Forecast", forecast));
    return lines;
  }

  private static List<Status.AlarmLine> alarms(Report report) {
    List<Status.AlarmLine> lines = new ArrayList<>();
    for (Report.Row row : report.interlocks()) {
      if (row.state() != AlarmState.NORMAL) {
        lines.add(
            new Status.AlarmLine(
                row.id(),
                row.state().words() + (row.aside().isEmpty() ? "" : ", " + row.aside()),
                row.priority(),
                row.firstOut(),
                row.what(),
                row.done(),
                row.todo(),
                row.state().isUnacknowledged(),
                row.state().isLatchedOnly()));
      }
    }
    return lines;
  }

  private static String rowState(Report.Row row) {
    if (!row.aside().isEmpty()) {
      return row.aside();
    }
    return row.state() == AlarmState.NORMAL ? "ready" : row.state().words();
  }

  private static Status.PresenceLine presence(Plan plan, ControlState state) {
    Presence presence = state.presence();
    double leftS = (presence.untilMillis() - Math.max(0, state.lastMillis())) / 1000.0;
    return new Status.PresenceLine(
        presence.by(),
        presence.attended(),
        presence.overdue(),
        presence.attended() ? leftS : 0,
        presence.attended() ? "attended" : "unattended",
        PersonNeed.waits(plan, state));
  }

  private static Status.AskLine ask(ControlState state, Shell shell) {
    OpenQuestion question = state.question();
    if (question == null) {
      return null;
    }
    List<Status.FieldLine> fields =
        question.fields().stream()
            .map(field -> new Status.FieldLine(field.name(), field.kind().words()))
            .toList();
    String balance =
        shell.balanceKg() == null || fields.isEmpty()
            ? ""
            : String.format(
                Locale.ROOT, " (The simulated balance shows %.4f g.)", shell.balanceKg() * 1e3);
    return new Status.AskLine(question.number(), question.prompt() + balance, fields);
  }

  private static List<Status.CourseLine> course(Outlook outlook) {
    return outlook.course().stream()
        .map(
            point ->
                new Status.CourseLine(
                    point.atS(), point.setpointK() < 0 ? Double.NaN : point.setpointK()))
        .toList();
  }

  private static List<Status.InterlockLine> interlocks(Report report) {
    return report.interlocks().stream()
        .map(
            row ->
                new Status.InterlockLine(
                    row.id(),
                    row.what(),
                    row.limit(),
                    Words.duration(row.delayS()),
                    row.done(),
                    row.latching() ? "until reset by a person" : "while it lasts",
                    rowState(row)))
        .toList();
  }
}
