package tarnish.controller.app;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.function.LongSupplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Tells systemd that the service lives, but only while the control loop moves: a loop that hangs is
 * restarted by the system. Does nothing where systemd did not ask for it.
 *
 * <p>Java has no datagram socket in the file system, so the command {@code systemd-notify} sends
 * the message; the unit needs {@code NotifyAccess=all}. See sd_notify(3) and
 * sd_watchdog_enabled(3).
 */
final class SystemdNotifier implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(SystemdNotifier.class);
  private static final long COMMAND_SECONDS = 2;
  private static final long MICROS_PER_MILLI = 1000;

  /** Sends one message; real or, in a test, a list. */
  interface Sender {
    void send(String message) throws IOException, InterruptedException;
  }

  private final LongSupplier progress;
  private final Sender sender;
  private final long periodMillis;
  private final Thread thread = new Thread(this::run, "systemd notifier");
  private long told = -1;

  private SystemdNotifier(LongSupplier progress, Sender sender, long periodMillis) {
    this.progress = progress;
    this.sender = sender;
    this.periodMillis = periodMillis;
    thread.setDaemon(true);
  }

  /**
   * Sees from the environment whether systemd waits for messages.
   *
   * @param progress moves with every tick of the loop
   */
  static SystemdNotifier of(Map<String, String> environment, LongSupplier progress, Sender sender) {
    String socket = environment.getOrDefault("NOTIFY_SOCKET", "");
    String micros = environment.getOrDefault("WATCHDOG_USEC", "");
    boolean asked = !socket.isEmpty() && micros.matches("[0-9]{1,15}");
    // sd_watchdog_enabled(3) advises half of the time that systemd waits.
    long period = asked ? Math.max(1, Long.parseLong(micros) / MICROS_PER_MILLI / 2) : 0;
    return new SystemdNotifier(progress, sender, period);
  }

  boolean isAsked() {
    return periodMillis > 0;
  }

  long periodMillis() {
    return periodMillis;
  }

  /** Says that the service is ready and keeps telling that it lives. */
  void start() {
    if (isAsked()) {
      tell("READY=1");
      thread.start();
    }
  }

  /** Tells that the loop lives, if it has moved since the last time. */
  void tellIfMoved() {
    long now = progress.getAsLong();
    if (now != told) {
      told = now;
      tell("WATCHDOG=1");
    }
  }

  private void tell(String message) {
    try {
      sender.send(message);
    } catch (IOException e) {
      LOG.warn("systemd could not be told {}: {}", message, e.getMessage());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void run() {
    while (!Thread.currentThread().isInterrupted()) {
      tellIfMoved();
      try {
        Thread.sleep(periodMillis);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
    }
  }

  /** Runs the command; one that hangs is ended. */
  static void command(String message) throws IOException, InterruptedException {
    Process process =
        new ProcessBuilder(List.of("systemd-notify", "--no-block", message))
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    if (!process.waitFor(COMMAND_SECONDS, TimeUnit.SECONDS)) {
      process.destroyForcibly();
    }
  }

  @Override
  public void close() {
    thread.interrupt();
  }
}
