package tarnish.controller.journal;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.Event;
import tarnish.controller.control.Request;
import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Switch;

/** Invented ticks of every kind from a seed: the same seed gives the same batch again. */
final class BatchMaker {
  /** By channel: some decimal, some binary fractions, one sensor not fitted. */
  static final double[] RESOLUTIONS = {0.1, 0.0625, 0.1, 0.25, 0.01, 10, 10, 1000, 5, 1e-4, 1, 0};

  static final Journal.BatchHead HEAD =
      new Journal.BatchHead(
          "invented batch",
          "recipe text ä\n",
          "rig text",
          "2026-01-01T00:00:00+01:00",
          "invented demonstration data",
          7L);

  /** A tick as it was handed to the journal. */
  record Made(
      long millis,
      String wallTime,
      Readings readings,
      List<Request> requests,
      Outputs outputs,
      List<Event> events) {

    void giveTo(Journal journal, int batch) {
      journal.tick(batch, millis, wallTime, readings, requests, outputs, events);
    }
  }

  private final SplittableRandom random;
  private final double eventfulShare;
  private final Readings readings = new Readings(RESOLUTIONS);
  private final long[] walk = new long[Channel.COUNT];
  private long millis;
  private Outputs outputs = Outputs.OFF;

  BatchMaker(long seed, double eventfulShare) {
    random = new SplittableRandom(seed);
    this.eventfulShare = eventfulShare;
  }

  static List<Made> ticks(long seed, int number, double eventfulShare) {
    BatchMaker maker = new BatchMaker(seed, eventfulShare);
    List<Made> ticks = new ArrayList<>();
    for (int i = 0; i < number; i++) {
      ticks.add(maker.next());
    }
    return ticks;
  }

  static int writeAll(Journal journal, List<Made> ticks) {
    int batch = journal.begin(HEAD);
    ticks.forEach(tick -> tick.giveTo(journal, batch));
    return batch;
  }

  Made next() {
    millis += chance(0.001) ? random.nextLong(1, 3_000_000) : 250 + nearZero();
    for (Channel channel : Channel.values()) {
      if (readings.isFitted(channel)) {
        move(channel);
      }
    }
    if (chance(0.05)) {
      outputs = new Outputs(random.nextInt(1 << Switch.values().length), random.nextInt(1001));
    }
    List<Request> requests = new ArrayList<>();
    List<Event> events = new ArrayList<>();
    while (chance(eventfulShare)) {
      requests.add(anyRequest());
    }
    while (chance(eventfulShare)) {
      events.add(anyEvent());
    }
    String wallTime = "wall " + millis;
    return new Made(millis, wallTime, readings.copy(), requests, outputs, events);
  }

  private boolean chance(double share) {
    return random.nextDouble() < share;
  }

  private int nearZero() {
    return chance(0.1) ? random.nextInt(-20, 21) : 0;
  }

  private void move(Channel channel) {
    int i = channel.ordinal();
    if (chance(0.002)) {
      walk[i] = random.nextLong();
    }
    walk[i] += random.nextInt(-3, 4);
    int code = chance(0.003) ? random.nextInt(BadReason.values().length) : -1;
    boolean staysBad = !readings.isGood(channel) && chance(0.98);
    readings.restore(channel, walk[i], staysBad ? readings.qualityCode(channel) : (byte) code);
  }

  private Request anyRequest() {
    return switch (random.nextInt(4)) {
      case 0 -> new Request.Pause("Ann Example");
      case 1 -> new Request.Reset("Ann Example", "over-temperature", "cause \"found\",\nmended");
      case 2 ->
          new Request.Answer(
              "Ann Example", random.nextInt(), Map.of("mass", random.nextDouble()), "ä, 日本");
      default -> new Request.PowerReturned("the service", random.nextDouble(1e6));
    };
  }

  private Event anyEvent() {
    return switch (random.nextInt(3)) {
      case 0 -> new Event.Advisory("advice " + random.nextInt());
      case 1 -> new Event.StateChanged(BatchState.RUNNING, BatchState.HELD, "tried");
      default -> new Event.RequestDone("Ann Example", "paused");
    };
  }
}
