package tarnish.controller.journal;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.SplittableRandom;
import tarnish.controller.control.Event;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Switch;

/** Prints size and speed of a record of invented noisy data: {@code days folder [DURABLE|FAST]}. */
public final class JournalFigures {
  static final double[] RESOLUTIONS = {0.1, 0.1, 0.1, 0.1, 0.0625, 10, 10, 100, 10, 1e-4, 1, 1};

  private static final int TICKS_PER_DAY = 4 * 86_400;

  private JournalFigures() {}

  /**
   * Twelve channels with noise of one to two steps, a slow wander, and a pulse every ten minutes.
   */
  public static void write(Journal journal, int batch, int ticks) {
    SplittableRandom random = new SplittableRandom(91);
    Readings readings = new Readings(RESOLUTIONS);
    for (int i = 0; i < ticks; i++) {
      double t = i * 0.25;
      for (Channel channel : Channel.values()) {
        double step = RESOLUTIONS[channel.ordinal()];
        double noise = (random.nextDouble() + random.nextDouble() + random.nextDouble() - 1.5) * 2;
        double slow = 20 * StrictMath.sin(t / 3000 + channel.ordinal());
        double base =
            switch (channel.kind()) {
              case TEMPERATURE -> 573;
              case PRESSURE -> 95_000 - 50 * (t % 600) / 6;
              case FRACTION -> 0.2094;
              case CONTACT -> 1;
            };
        boolean still = channel.kind() == Channel.Kind.CONTACT;
        readings.good(channel, still ? 1 : base + (slow + noise) * step);
      }
      int duty = 300 + random.nextInt(40);
      Outputs outputs = Outputs.of(duty, Switch.HEARTBEAT).with(Switch.HEATER, i % 8 < 3);
      List<Event> events =
          i % 2400 == 0 ? List.of(new Event.Advisory("invented advice")) : List.of();
      journal.tick(batch, i * 250L + random.nextInt(2), "", readings, List.of(), outputs, events);
    }
  }

  public static void main(String[] arguments) throws IOException {
    int ticks = (int) (Double.parseDouble(arguments[0]) * TICKS_PER_DAY);
    Path folder = Path.of(arguments[1]);
    long start = System.nanoTime();
    try (SqliteJournal journal = SqliteJournal.open(folder, Pace.valueOf(arguments[2]))) {
      int batch = journal.begin(BatchMaker.HEAD);
      write(journal, batch, ticks);
      journal.flush();
      say("write " + ticks + " ticks", start);
    }
    Path counters = Path.of("/proc/self/io");
    if (Files.exists(counters)) {
      Files.readAllLines(counters).stream()
          .filter(l -> l.startsWith("w"))
          .forEach(System.out::println);
    }
    System.out.println(Files.size(folder.resolve("tarnish.db")) + " bytes");
    start = System.nanoTime();
    try (SqliteJournal journal = SqliteJournal.open(folder)) {
      say("open", start);
      for (int columns : new int[] {1000, 3000}) {
        histories(journal, ticks * 250L, columns);
      }
      start = System.nanoTime();
      long[] count = new long[1];
      journal.playBack(1, tick -> count[0] += 1);
      say("play back " + count[0], start);
      start = System.nanoTime();
      Path csv = folder.resolve("samples.csv");
      try (Writer to = new BufferedWriter(Files.newBufferedWriter(csv), 1 << 16)) {
        CsvExport.samples(journal, 1, to);
      }
      say("export " + Files.size(csv) + " bytes", start);
    }
  }

  private static void histories(Journal journal, long endMillis, int columns) {
    for (long span = endMillis; span > 60_000; span /= 3) {
      long from = (endMillis - span) / 2;
      for (String turn : List.of("first", "again")) {
        long start = System.nanoTime();
        journal.history(1, from, from + span, columns);
        say("history of " + span / 1000 + " s in " + columns + " columns, " + turn, start);
      }
    }
  }

  private static void say(String what, long startNanos) {
    System.out.printf("%s: %.1f ms%n", what, (System.nanoTime() - startNanos) / 1e6);
  }
}
