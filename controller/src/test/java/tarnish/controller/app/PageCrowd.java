package tarnish.controller.app;

import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.Random;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;

/**
 * Asks what so many open pages ask: status and events every second, curves and marks every two. A
 * process of its own, so that its work is not the service's. Ends when its input does.
 */
final class PageCrowd {
  private PageCrowd() {}

  /** Arguments: address with a slash at its end, number of pages, batch. */
  public static void main(String[] arguments) throws Exception {
    String address = arguments[0];
    int pages = Integer.parseInt(arguments[1]);
    String batch = address + "api/batches/" + arguments[2] + "/";
    HttpClient client = HttpClient.newBuilder().version(HttpClient.Version.HTTP_1_1).build();
    AtomicLong answers = new AtomicLong();
    AtomicLong failures = new AtomicLong();
    ScheduledExecutorService clock = Executors.newScheduledThreadPool(2);
    Random random = new Random(1);
    for (int page = 0; page < pages; page++) {
      boolean[] even = {false};
      clock.scheduleAtFixedRate(
          () -> {
            even[0] = !even[0];
            ask(client, address + "api/status", answers, failures);
            ask(client, batch + "events", answers, failures);
            if (even[0]) {
              ask(client, batch + "history?columns=1200", answers, failures);
              ask(client, batch + "marks", answers, failures);
            }
          },
          random.nextInt(1000),
          1000,
          TimeUnit.MILLISECONDS);
    }
    while (System.in.read() >= 0) {
      System.out.println(answers.get() + " " + failures.get());
    }
    clock.shutdownNow();
    System.exit(0);
  }

  private static void ask(
      HttpClient client, String address, AtomicLong answers, AtomicLong failures) {
    client
        .sendAsync(
            HttpRequest.newBuilder(URI.create(address)).build(),
            HttpResponse.BodyHandlers.ofByteArray())
        .whenComplete(
            (answer, failure) ->
                (failure == null && answer.statusCode() == 200 ? answers : failures)
                    .incrementAndGet());
  }
}
