package tarnish.controller.notify;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import tarnish.controller.service.Status;

/**
 * Compares the published picture of the bench with what was told already. It only looks: control
 * does not know of it. Alarms and questions stand until a person has dealt with them, so a look now
 * and then misses none.
 */
final class Watch {
  private static final String URGENT = "high";
  private static final Set<String> ENDS = Set.of("complete", "stopped", "aborted");

  /** A loop that makes no tick for so long has failed, in ms of looking. */
  private static final long STANDSTILL_MILLIS = 30_000;

  private final Set<String> told = new LinkedHashSet<>();
  private long ticks = -1;
  private long ticksSinceMillis;

  /**
   * @param toldBefore what a former run has told, so that a restart does not tell it again
   */
  Watch(Set<String> toldBefore) {
    told.addAll(toldBefore);
  }

  /** What stands now and has been told. */
  Set<String> told() {
    return Set.copyOf(told);
  }

  /** What is new; the next look takes it as told. */
  List<Notice> look(Status status, long nowMillis) {
    List<Notice> news = new ArrayList<>();
    Set<String> standing = new LinkedHashSet<>();
    question(status, standing, news);
    alarms(status, standing, news);
    end(status, standing, news);
    standstill(status, nowMillis, standing, news);
    told.clear();
    told.addAll(standing);
    return news;
  }

  private void question(Status status, Set<String> standing, List<Notice> news) {
    if (status.ask() == null) {
      return;
    }
    String key = "batch " + status.batch() + " question " + status.ask().number();
    String text = status.ask().prompt() + "\n\n" + status.sentence();
    tell(
        key, new Notice("question", "A person is needed", text, status.wallTime()), standing, news);
  }

  private void alarms(Status status, Set<String> standing, List<Notice> news) {
    for (Status.AlarmLine alarm : status.alarms()) {
      if (alarm.priority().equals(URGENT) && alarm.mayAcknowledge()) {
        String key = "batch " + status.batch() + " alarm " + alarm.id();
        String text =
            alarm.what()
                + "\n\nDone: "
                + alarm.done()
                + "\nTo do: "
                + alarm.todo()
                + "\n\n"
                + status.sentence();
        tell(
            key,
            new Notice("alarm", "Alarm: " + alarm.id(), text, status.wallTime()),
            standing,
            news);
      }
    }
  }

  private void end(Status status, Set<String> standing, List<Notice> news) {
    if (status.batch() == null || !ENDS.contains(status.state())) {
      return;
    }
    String key = "batch " + status.batch() + " end";
    String subject = "Batch " + status.batch() + " is " + status.state();
    String text = status.recipe() + "\n\n" + status.sentence() + " " + status.why();
    tell(key, new Notice("end", subject, text, status.wallTime()), standing, news);
  }

  private void standstill(Status status, long nowMillis, Set<String> standing, List<Notice> news) {
    if (status.loop().ticks() != ticks) {
      ticks = status.loop().ticks();
      ticksSinceMillis = nowMillis;
    } else if (nowMillis - ticksSinceMillis >= STANDSTILL_MILLIS) {
      String text =
          "No tick for "
              + STANDSTILL_MILLIS / 1000
              + " s. Look at the bench: the heartbeat relay"
              + " should have made it safe.";
      Notice notice = new Notice("loop", "The control loop stands still", text, status.wallTime());
      tell("standstill", notice, standing, news);
    }
  }

  private void tell(String key, Notice notice, Set<String> standing, List<Notice> news) {
    standing.add(key);
    if (!told.contains(key)) {
      news.add(notice);
    }
  }
}
