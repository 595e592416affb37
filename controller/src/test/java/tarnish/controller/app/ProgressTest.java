package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;

class ProgressTest {
  private final AtomicLong nanos = new AtomicLong(5);
  private final StringWriter said = new StringWriter();

  private void pass(Progress progress, int seeds, double eachS) {
    for (int i = 0; i < seeds; i++) {
      nanos.addAndGet(Math.round(eachS * 1e9));
      progress.done();
    }
  }

  @Test
  void everyTenSecondsItSaysHowFarItIsAndHowLongItWillTake() {
    pass(new Progress(new PrintWriter(said), 100, nanos::get), 8, 4);

    assertEquals(
        String.format("3 of 100 done, about 6 min to go%n6 of 100 done, about 6 min to go%n"),
        said.toString());
  }

  @Test
  void secondsMinutesAndHoursAreSaidAsTheyCome() {
    pass(new Progress(new PrintWriter(said), 9, nanos::get), 1, 11);
    pass(new Progress(new PrintWriter(said), 1000, nanos::get), 1, 15);

    assertEquals(
        String.format("1 of 9 done, about 88 s to go%n1 of 1000 done, about 4 h to go%n"),
        said.toString());
  }

  @Test
  void whatIsQuickAndWhatIsThroughSaysNothing() {
    pass(new Progress(new PrintWriter(said), 100, nanos::get), 100, 0.09);
    pass(new Progress(new PrintWriter(said), 1, nanos::get), 1, 60);

    assertEquals("", said.toString());
  }
}
