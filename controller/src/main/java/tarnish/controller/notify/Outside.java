package tarnish.controller.notify;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tarnish.controller.files.NoticeSettings;
import tarnish.controller.files.NoticeSettings.Broker;
import tarnish.controller.service.Bench;

/**
 * Everything that leaves this machine, and only what the settings name. Each part has a thread of
 * its own with less say than the loop; when it fails it waits and tries again.
 */
public final class Outside implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(Outside.class);
  private static final long LOOK_MILLIS = 1_000;
  private static final long RETRY_MILLIS = 15_000;

  private final List<Thread> threads = new ArrayList<>();
  private volatile boolean closing;

  /** Work that is done again and again. */
  private interface Round {
    void step(long nowMillis) throws IOException;
  }

  private Outside() {}

  /**
   * Starts what the settings ask for.
   *
   * @param folder for what waits
   * @throws IllegalArgumentException if a secret cannot be read
   */
  public static Outside start(NoticeSettings settings, Bench bench, Path folder) {
    Outside outside = new Outside();
    List<Way> ways = ways(settings);
    if (!ways.isEmpty()) {
      Notifier notifier =
          new Notifier(
              settings.bench(),
              StrictMath.round(settings.leastIntervalS() * 1000),
              ways,
              bench::status,
              folder.resolve("notices.json"));
      outside.run("notices", notifier::step);
    }
    settings.broker().ifPresent(broker -> outside.link(broker, bench, folder));
    return outside;
  }

  private void link(Broker broker, Bench bench, Path folder) {
    Optional<String> secret = secret(broker.secretFile());
    EventFeed feed = new EventFeed(bench.journal(), folder.resolve("broker-place.json"));
    BrokerLink[] link = new BrokerLink[1];
    run(
        "broker",
        now -> {
          // Made by its own thread, so that the start of the service does not wait for it.
          if (link[0] == null) {
            link[0] = new BrokerLink(broker, secret, feed, bench::status);
          }
          link[0].step(now);
        });
  }

  /**
   * Tries every way once with a test message: name to failure, or to nothing where it was taken.
   */
  public static Map<String, String> test(NoticeSettings settings, String at) {
    Notice notice = new Notice("test", "Test message", "Somebody tries whether this arrives.", at);
    Map<String, String> outcomes = new LinkedHashMap<>();
    for (Way way : ways(settings)) {
      try {
        way.send(settings.bench(), notice, 0);
        outcomes.put(way.name(), "");
      } catch (IOException e) {
        outcomes.put(way.name(), String.valueOf(e.getMessage()));
      }
    }
    settings.broker().ifPresent(broker -> outcomes.put("mqtt", testBroker(broker, notice)));
    return outcomes;
  }

  private static String testBroker(Broker broker, Notice notice) {
    try (BrokerLink link = new BrokerLink(broker, secret(broker.secretFile()), null, null)) {
      link.test(notice);
      return "";
    } catch (IOException e) {
      return String.valueOf(e.getMessage());
    }
  }

  private static List<Way> ways(NoticeSettings settings) {
    List<Way> ways = new ArrayList<>();
    settings
        .webhook()
        .ifPresent(hook -> ways.add(new WebhookWay(hook.address(), secret(hook.secretFile()))));
    settings.mail().ifPresent(mail -> ways.add(new MailWay(mail, secret(mail.secretFile()))));
    return ways;
  }

  private static Optional<String> secret(Optional<String> file) {
    return file.map(
        name -> {
          try {
            return Files.readString(Path.of(name)).strip();
          } catch (IOException e) {
            throw new IllegalArgumentException("the secret file " + name + " cannot be read", e);
          }
        });
  }

  private void run(String name, Round round) {
    Thread thread = new Thread(() -> loop(name, round), name);
    thread.setDaemon(true);
    thread.setPriority(Thread.MIN_PRIORITY);
    threads.add(thread);
    thread.start();
  }

  private void loop(String name, Round round) {
    String lastFailure = "";
    while (!closing) {
      String failure = "";
      try {
        round.step(System.nanoTime() / 1_000_000);
      } catch (IOException | RuntimeException e) {
        failure = String.valueOf(e.getMessage());
      }
      if (!failure.equals(lastFailure)) {
        LOG.warn("{}: {}", name, failure.isEmpty() ? "works again" : failure);
        lastFailure = failure;
      }
      try {
        Thread.sleep(failure.isEmpty() ? LOOK_MILLIS : RETRY_MILLIS);
      } catch (InterruptedException e) {
        return;
      }
    }
  }

  /** Stops without waiting for the network; what waits is on the disk. */
  @Override
  public void close() {
    closing = true;
    threads.forEach(Thread::interrupt);
  }
}
