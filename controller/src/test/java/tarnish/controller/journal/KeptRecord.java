package tarnish.controller.journal;

import java.nio.file.Path;
import java.util.List;
import java.util.SplittableRandom;
import tarnish.controller.control.Event;
import tarnish.controller.control.Request;
import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Switch;

/**
 * Writes the record that is kept of each version of the tables, by the code it is run with: an
 * ended batch and one that is cut off. Run before a version is added; merge its log with {@code
 * PRAGMA wal_checkpoint(TRUNCATE)} and {@code PRAGMA journal_mode = DELETE}, then keep tarnish.db.
 */
final class KeptRecord {
  private static final double[] RESOLUTIONS = {
    0.1, 0.0625, 0.1, 0.25, 0.01, 10, 10, 1000, 5, 1e-4, 1, 0
  };

  private KeptRecord() {}

  public static void main(String[] arguments) {
    SqliteJournal journal = SqliteJournal.open(Path.of(arguments[0]));
    journal.begin(head("invented ended batch", "recipe text ä\n", "2026-01-01T00:00:00Z", 7L));
    write(journal, 1, 1500, 3);
    journal.end(1, "complete", "{\"invented\":true}");
    journal.begin(head("invented interrupted batch", "recipe text\n", "2026-01-02T00:00:00Z", 8L));
    write(journal, 2, 1100, 4);
    journal.flush();
    // As a power cut: the second batch has no end.
    Runtime.getRuntime().halt(0);
  }

  private static Journal.BatchHead head(String title, String recipe, String startedAt, long seed) {
    return new Journal.BatchHead(
        title, recipe, "rig text", startedAt, "invented demonstration data", seed);
  }

  private static void write(SqliteJournal journal, int batch, int ticks, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    Readings readings = new Readings(RESOLUTIONS);
    long millis = 0;
    for (int i = 0; i < ticks; i++) {
      millis += i == 700 ? 3_000_000 : 250;
      for (Channel channel : Channel.values()) {
        if (readings.isFitted(channel)) {
          read(readings, channel, i, random);
        }
      }
      List<Request> requests =
          i % 400 == 5
              ? List.of(
                  new Request.Reset("Ann Example", "over-temperature", "cause \"found\",\nmended"),
                  new Request.Pause("Ann Example"))
              : List.of();
      List<Event> events =
          i % 150 == 3
              ? List.of(
                  new Event.Advisory("invented advice " + i + ", ä 日本"),
                  new Event.RequestDone("Ann Example", "paused"))
              : List.of();
      String wallTime = "2026-01-01T00:00:00Z+" + millis;
      Outputs outputs = Outputs.of(random.nextInt(1001), Switch.HEARTBEAT);
      journal.tick(batch, millis, wallTime, readings, requests, outputs, events);
    }
  }

  private static void read(Readings readings, Channel channel, int tick, SplittableRandom random) {
    double base =
        switch (channel.kind()) {
          case TEMPERATURE -> 573;
          case PRESSURE -> 95_000;
          case FRACTION -> 0.2094;
          case CONTACT -> 1;
        };
    if (random.nextDouble() < 0.003) {
      readings.bad(channel, BadReason.values()[random.nextInt(3) + 1]);
    } else if (channel.kind() == Channel.Kind.CONTACT) {
      readings.good(channel, 1);
    } else {
      double step = RESOLUTIONS[channel.ordinal()];
      readings.good(channel, base + random.nextInt(-2, 3) * step + tick * 0.01);
    }
  }
}
