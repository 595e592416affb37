package tarnish.controller.app;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import tarnish.controller.control.Request;

/** Requests on their way to the next tick. Any thread puts; the loop takes. */
final class RequestQueue {
  private static final int LENGTH = 64;

  private final BlockingQueue<Request> queue = new ArrayBlockingQueue<>(LENGTH);

  /** False if the queue is full. An abort is always taken: it drives out the oldest. */
  boolean offer(Request request) {
    if (request instanceof Request.Abort) {
      while (!queue.offer(request)) {
        queue.poll();
      }
      return true;
    }
    return queue.offer(request);
  }

  /** Everything that waits, after {@code first} where that is not null. */
  List<Request> take(Request first) {
    if (first == null && queue.isEmpty()) {
      return List.of();
    }
    List<Request> requests = new ArrayList<>();
    if (first != null) {
      requests.add(first);
    }
    queue.drainTo(requests);
    return requests;
  }

  /** The same requests and what the person of a demonstration asks for by itself. */
  static List<Request> with(
      List<Request> requests, StandInOperator standIn, BenchRun run, long tickMillis) {
    Optional<Request> byItself = standIn.staysIn(run.state());
    if (byItself.isEmpty()) {
      byItself = standIn.pauseOrResume(run.state(), (run.millis() + tickMillis) / 1000.0);
    }
    if (byItself.isEmpty()) {
      return requests;
    }
    List<Request> all = new ArrayList<>(requests);
    all.add(byItself.get());
    return all;
  }
}
