package tarnish.controller.notify;

import java.io.IOException;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tarnish.controller.service.Status;

/**
 * Tells a person when something needs one. Looks at the published picture once a second from a
 * thread of its own and keeps what could not be sent; nothing here can hold up control.
 */
final class Notifier {
  private static final Logger LOG = LoggerFactory.getLogger(Notifier.class);

  private final Supplier<Status> bench;
  private final Path memoryFile;
  private final Watch watch;
  private final List<Outbox> outboxes;
  private final Map<String, String> lastFailure = new HashMap<>();
  private Memory written;

  Notifier(
      String benchName,
      long leastIntervalMillis,
      List<Way> ways,
      Supplier<Status> bench,
      Path memoryFile) {
    this.bench = bench;
    this.memoryFile = memoryFile;
    written = Memory.read(memoryFile);
    watch = new Watch(written.told());
    outboxes =
        ways.stream()
            .map(
                way ->
                    new Outbox(
                        way,
                        benchName,
                        leastIntervalMillis,
                        written.waiting().getOrDefault(way.name(), List.of())))
            .toList();
  }

  /** One look and one try; {@code nowMillis} is monotonic. */
  void step(long nowMillis) {
    for (Notice notice : watch.look(bench.get(), nowMillis)) {
      outboxes.forEach(outbox -> outbox.add(notice));
    }
    remember();
    for (Outbox outbox : outboxes) {
      outbox.step(nowMillis).ifPresent(failure -> log(outbox.name(), failure));
    }
    remember();
  }

  /** Says a failure once, and its end. */
  private void log(String way, String failure) {
    String before = lastFailure.getOrDefault(way, "");
    if (!failure.equals(before)) {
      LOG.warn("{}: {}", way, failure.isEmpty() ? "works again" : failure);
    }
    lastFailure.put(way, failure);
  }

  /** Before a message leaves it is on the disk, and after it left it is off it. */
  private void remember() {
    Map<String, List<Notice>> waiting = new HashMap<>();
    outboxes.forEach(outbox -> waiting.put(outbox.name(), outbox.waiting()));
    Memory now = new Memory(watch.told(), waiting);
    if (now.equals(written)) {
      return;
    }
    try {
      now.write(memoryFile);
      written = now;
    } catch (IOException e) {
      LOG.warn("cannot keep {}: {}", memoryFile, e.getMessage());
    }
  }
}
