package tarnish.controller.service;

import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.Consumer;
import tarnish.controller.control.Event;
import tarnish.controller.control.Request;
import tarnish.controller.journal.Journal;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Switch;

/**
 * Two invented batches in memory: number 1 is complete, number 2 runs. Curves are computed when
 * asked for, with a gap, one narrow spike and oxygen pulses in them.
 */
final class FakeJournal implements Journal {
  static final long NOW_MILLIS = 20_000_000;
  static final long GAP_FROM_MILLIS = 15_000_000;
  static final long GAP_TO_MILLIS = 15_600_000;

  private static final OffsetDateTime START = OffsetDateTime.parse("2026-01-05T08:00:00+01:00");

  private final List<EventLine> events = new CopyOnWriteArrayList<>();

  FakeJournal() {
    add(0, "StateChanged", "Batch idle → running: started by Ada");
    add(0, "StepStarted", "Step 1 begins: Pump down");
    add(600_000, "LeakTested", "Leak test passed: rise 0.012 mbar/min in the second half");
    for (int i = 1; i <= 6; i++) {
      add(
          1_200_000L + i * 1_800_000L,
          "PulseGiven",
          "Oxygen pulse " + i + ": 880.0 mbar → 950.0 mbar, 1.2310 ± 0.0140 mmol admitted");
    }
    add(12_800_000, "StateChanged", "Batch running → pausing: Ada paused it");
    add(12_801_000, "StateChanged", "Batch pausing → paused: the heater is off");
    add(13_400_000, "StateChanged", "Batch paused → running: Ada resumed it");
    add(14_000_000, "AlarmRaised", "Alarm (first out): The oven was at 480.2 °C");
    add(14_000_000, "StateChanged", "Batch running → holding: oven too hot");
    add(14_001_000, "StateChanged", "Batch holding → held: safe");
    add(14_500_000, "StateChanged", "Batch held → restarting: Ada restarted it");
    add(14_501_000, "StateChanged", "Batch restarting → running: safe again");
    add(GAP_TO_MILLIS, "Advisory", "No readings for 600 s: the service was not running");
    add(16_500_000, "Asked", "Asked: Inert gas is sweeping. Open, grind, weigh, close.");
    add(17_300_000, "Weighed", "Weighed (4.6400 ± 0.0030) g: 0.740 ± 0.003 O per formula unit");
    add(17_400_000, "Answered", "Ada answered: done");
    add(19_000_000, "StepStarted", "Step 6 begins: Soak at 250 °C");
  }

  void add(long millis, String kind, String sentence) {
    String wallTime =
        START.plus(millis, ChronoUnit.MILLIS).format(DateTimeFormatter.ISO_OFFSET_DATE_TIME);
    events.add(new EventLine(millis, wallTime, kind, sentence));
  }

  @Override
  public List<BatchLine> batches() {
    return List.of(
        new BatchLine(
            1,
            "Copper to copper(II) oxide, first try",
            "2026-01-03T08:00:00+01:00",
            "invented demonstration data",
            "complete",
            NOW_MILLIS,
            "{}"),
        new BatchLine(
            2,
            "Copper to copper(II) oxide",
            "2026-01-05T08:00:00+01:00",
            "invented demonstration data",
            "",
            NOW_MILLIS,
            ""));
  }

  @Override
  public BatchHead head(int batch) {
    BatchLine line = batches().get(batch - 1);
    return new BatchHead(
        line.title(), "title: invented", "name: invented", line.startedAt(), line.note(), 7L);
  }

  @Override
  public List<EventLine> events(int batch, long fromMillis, int limit) {
    List<EventLine> wanted = events.stream().filter(each -> each.millis() >= fromMillis).toList();
    return fromMillis < 0
        ? wanted.subList(StrictMath.max(0, wanted.size() - limit), wanted.size())
        : wanted.subList(0, StrictMath.min(limit, wanted.size()));
  }

  @Override
  public History history(int batch, long fromMillis, long toMillis, int columns) {
    long[] start = new long[columns];
    int[] switches = new int[columns];
    int[] heater = new int[columns];
    for (int i = 0; i < columns; i++) {
      start[i] = fromMillis + (toMillis - fromMillis) * i / columns;
      boolean pulse = start[i] > 3_000_000 && start[i] % 1_800_000 < 120_000;
      switches[i] = Outputs.OFF.with(Switch.OXYGEN, pulse).switches();
      heater[i] = isThere(start[i]) ? 250 + (int) (start[i] / 1000 % 97) : 0;
    }
    return new History(
        fromMillis,
        toMillis,
        start,
        List.of(
            series(Channel.SAMPLE_TEMPERATURE, start),
            series(Channel.OVEN_TEMPERATURE, start),
            series(Channel.VESSEL_PRESSURE, start)),
        switches,
        heater);
  }

  private static Series series(Channel channel, long[] start) {
    int n = start.length;
    double[] least = new double[n];
    double[] greatest = new double[n];
    int[] count = new int[n];
    for (int i = 0; i < n; i++) {
      double middle = value(channel, start[i]);
      double half = channel.kind() == Channel.Kind.PRESSURE ? 150 : 0.6;
      least[i] = middle - half;
      greatest[i] = middle + half;
      count[i] = isThere(start[i]) ? 4 : 0;
    }
    return new Series(channel.name(), least, greatest, least, greatest, count);
  }

  private static boolean isThere(long millis) {
    return millis <= NOW_MILLIS && (millis < GAP_FROM_MILLIS || millis >= GAP_TO_MILLIS);
  }

  static double setpointK(double seconds) {
    return 293.15 + StrictMath.min(230, StrictMath.max(0, (seconds - 3000) / 3600 * 60));
  }

  private static double value(Channel channel, long millis) {
    double seconds = millis / 1e3;
    double sincePulse = seconds % 1800;
    double pulseHeatK = seconds > 3000 ? 9 * StrictMath.exp(-sincePulse / 300) : 0;
    return switch (channel) {
      case SAMPLE_TEMPERATURE -> setpointK(seconds - 240) + pulseHeatK;
      case OVEN_TEMPERATURE -> setpointK(seconds) + 6 * StrictMath.sin(seconds / 700);
      default -> 95_000 - (seconds > 3000 ? 7000 * (1 - StrictMath.exp(-sincePulse / 900)) : 0);
    };
  }

  @Override
  public int begin(BatchHead head) {
    return 2;
  }

  @Override
  public void tick(
      int batch,
      long millis,
      String wallTime,
      Readings readings,
      List<Request> requests,
      Outputs outputs,
      List<Event> events) {
    throw new UnsupportedOperationException();
  }

  @Override
  public void end(int batch, String endState, String summaryJson) {
    throw new UnsupportedOperationException();
  }

  @Override
  public OptionalInt unfinished() {
    return OptionalInt.empty();
  }

  @Override
  public void playBack(int batch, Consumer<RecordedTick> to) {
    new ArrayList<RecordedTick>().forEach(to);
  }

  @Override
  public void close() {}
}
