package tarnish.controller.notify;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.service.FakeBench;
import tarnish.controller.service.Scene;

/** What is told, when and how often; no network. */
class NotifierTest {
  private static final long INTERVAL_MILLIS = 60_000;

  @TempDir private Path folder;
  private final FakeBench bench = new FakeBench(Scene.RUNNING);
  private final Received way = new Received();

  /** A way that keeps what it was given, or fails. */
  private static final class Received implements Way {
    final List<Notice> notices = new ArrayList<>();
    final List<Integer> others = new ArrayList<>();
    int tries;
    boolean down;

    @Override
    public String name() {
      return "test way";
    }

    @Override
    public void send(String bench, Notice notice, int more) throws IOException {
      tries++;
      if (down) {
        throw new IOException("out of reach");
      }
      notices.add(notice);
      others.add(more);
    }

    List<String> kinds() {
      return notices.stream().map(Notice::kind).toList();
    }
  }

  private Notifier notifier() {
    return new Notifier(
        "bench", INTERVAL_MILLIS, List.of(way), bench::status, folder.resolve("notices.json"));
  }

  /** One look a second. */
  private static void run(Notifier notifier, long fromMillis, long toMillis) {
    for (long now = fromMillis; now <= toMillis; now += 1000) {
      notifier.step(now);
    }
  }

  @Test
  void aQuestionAnAlarmAndAnEndAreToldOnceEach() {
    Notifier notifier = notifier();
    run(notifier, 0, 10_000);
    assertEquals(List.of(), way.kinds());
    bench.show(Scene.ASKING);
    run(notifier, 11_000, 600_000);
    assertEquals(List.of("question"), way.kinds());
    bench.show(Scene.TRIPPED);
    run(notifier, 601_000, 1_200_000);
    assertEquals(List.of("question", "alarm"), way.kinds());
    bench.show(Scene.ABORTED);
    run(notifier, 1_201_000, 2_000_000);
    assertEquals(List.of("question", "alarm", "end"), way.kinds());
  }

  @Test
  void whatComesWithinTheLeastIntervalLeavesTogetherWithTheAlarmInFront() {
    Notifier notifier = notifier();
    bench.show(Scene.ASKING);
    run(notifier, 0, 1_000);
    bench.show(Scene.ABORTED);
    run(notifier, 2_000, 5_000);
    bench.show(Scene.TRIPPED);
    run(notifier, 6_000, 59_000);
    assertEquals(List.of("question"), way.kinds());
    run(notifier, 60_000, 61_000);
    assertEquals(List.of("question", "alarm"), way.kinds());
    assertEquals(List.of(0, 1), way.others);
    assertTrue(way.notices.get(1).text().contains("is aborted"), way.notices.get(1).text());
  }

  @Test
  void nothingIsLostWhileTheWayIsDownAndTriesGrowRare() {
    Notifier notifier = notifier();
    way.down = true;
    bench.show(Scene.TRIPPED);
    run(notifier, 0, 3_600_000);
    assertTrue(way.tries >= 4 && way.tries <= 12, way.tries + " tries in an hour");
    way.down = false;
    run(notifier, 3_601_000, 3_600_000 + 900_000);
    assertEquals(List.of("alarm"), way.kinds());
  }

  @Test
  void aRestartNeitherLosesNorRepeats() {
    way.down = true;
    bench.show(Scene.TRIPPED);
    run(notifier(), 0, 2_000);
    way.down = false;
    run(notifier(), 0, 2_000);
    assertEquals(List.of("alarm"), way.kinds());
    run(notifier(), 0, 200_000);
    assertEquals(List.of("alarm"), way.kinds());
  }

  @Test
  void aLoopThatStandsStillIsToldAndOneThatRunsIsNot() {
    Notifier notifier = notifier();
    run(notifier, 0, 120_000);
    assertEquals(List.of(), way.kinds());
    bench.standStill();
    run(notifier, 121_000, 400_000);
    assertEquals(List.of("loop"), way.kinds());
  }

  @Test
  void aFullOutboxDropsTheOldestAndSaysHowMany() {
    Outbox outbox = new Outbox(way, "bench", INTERVAL_MILLIS, List.of());
    for (int i = 0; i < Outbox.WAITING_MAX + 7; i++) {
      outbox.add(new Notice("question", "question " + i, "text", "now"));
    }
    assertEquals(Outbox.WAITING_MAX, outbox.waiting().size());
    outbox.step(0);
    assertEquals("question 7", way.notices.get(0).subject());
    assertTrue(way.notices.get(0).text().endsWith("7 older messages could not be kept."));
    assertEquals(Outbox.WAITING_MAX - 1 + 7, way.others.get(0));
  }
}
