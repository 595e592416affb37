package tarnish.controller.app;

import java.io.PrintWriter;
import java.util.Locale;
import java.util.function.LongSupplier;
import java.util.function.Supplier;
import picocli.CommandLine.Model.CommandSpec;

/**
 * Says on the error output, every ten seconds, how far a command with many seeds has come and how
 * long it will take. Any thread may report.
 */
final class Progress {
  private static final long PERIOD_NANOS = 10_000_000_000L;

  private final PrintWriter to;
  private final long total;
  private final LongSupplier nanos;
  private final long beganNanos;
  private long saidNanos;
  private long done;

  /**
   * @param nanos a clock that never goes back, in ns
   */
  Progress(PrintWriter to, long total, LongSupplier nanos) {
    this.to = to;
    this.total = total;
    this.nanos = nanos;
    beganNanos = nanos.getAsLong();
    saidNanos = beganNanos;
  }

  static Progress of(CommandSpec spec, SeedRange seeds) {
    return new Progress(spec.commandLine().getErr(), seeds.count(), System::nanoTime);
  }

  /** Nobody is told. */
  static Progress silent() {
    return new Progress(new PrintWriter(PrintWriter.nullWriter()), 0, () -> 0);
  }

  /** Does what is to be done for one seed, and counts it. */
  <T> T counted(Supplier<T> trial) {
    T result = trial.get();
    done();
    return result;
  }

  /** One seed is through. */
  synchronized void done() {
    done++;
    long now = nanos.getAsLong();
    if (done < total && now - saidNanos >= PERIOD_NANOS) {
      saidNanos = now;
      double leftS = (now - beganNanos) / 1e9 / done * (total - done);
      to.printf(Locale.ROOT, "%d of %d done, about %s to go%n", done, total, duration(leftS));
      to.flush();
    }
  }

  private static String duration(double seconds) {
    return seconds < 90
        ? Math.round(seconds) + " s"
        : seconds < 5400 ? Math.round(seconds / 60) + " min" : Math.round(seconds / 3600) + " h";
  }
}
