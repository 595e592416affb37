package tarnish.controller.service;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import tarnish.controller.control.Event;
import tarnish.controller.control.Request;

/**
 * Counts what people decide by: the state of the batch, open questions, who is there, and what
 * others have asked for. An act says the count it was decided on, and is refused if somebody or
 * something else came between. Any thread may call.
 */
public final class Changes {
  private static final int KEPT = 200;
  private static final int TOLD = 3;
  private static final int PAGES_KEPT = 500;

  /** What nobody at a page has caused. */
  private static final String NO_PAGE = "";

  private record Change(long version, String page, String sentence) {}

  private final Deque<Change> kept = new ArrayDeque<>();
  private final Map<Request, String> pages = new IdentityHashMap<>();
  private long version;

  /**
   * @param first greater than any count before a restart, such as the time in ms
   */
  public Changes(long first) {
    version = first;
  }

  public synchronized long version() {
    return version;
  }

  /**
   * Takes an act if nothing has changed since it was decided on, but by the same page.
   *
   * @param page a name that the page gave itself
   * @return empty if taken, else a sentence of what has changed
   */
  public synchronized Optional<String> claim(
      long decidedOn, String page, String sentence, Request request) {
    Optional<String> between = since(decidedOn, page);
    if (between.isEmpty()) {
      take(page, sentence, request);
    }
    return between;
  }

  /** Takes an act that makes things safer, whatever has changed. */
  public synchronized void take(String page, String sentence, Request request) {
    add(page, sentence);
    if (pages.size() >= PAGES_KEPT) {
      pages.clear();
    }
    pages.put(request, page);
  }

  /** Told by the control loop after each tick. */
  public synchronized void ticked(List<Request> requests, List<Event> events) {
    String page = null;
    for (Request request : requests) {
      String from = pages.remove(request);
      from = from == null ? NO_PAGE : from;
      page = page == null || page.equals(from) ? from : NO_PAGE;
    }
    for (Event event : events) {
      if (event instanceof Event.StateChanged
          || event instanceof Event.Asked
          || event instanceof Event.PresenceChanged
          || event instanceof Event.StepChanged) {
        add(page == null ? NO_PAGE : page, event.sentence());
      }
    }
  }

  /** Something that no tick tells, such as a new batch. */
  public synchronized void note(String sentence) {
    add(NO_PAGE, sentence);
  }

  private void add(String page, String sentence) {
    version++;
    kept.addLast(new Change(version, page, sentence));
    if (kept.size() > KEPT) {
      kept.removeFirst();
    }
  }

  private Optional<String> since(long decidedOn, String page) {
    boolean known =
        decidedOn <= version && (kept.isEmpty() || decidedOn >= kept.getFirst().version() - 1);
    if (!known || (kept.isEmpty() && decidedOn != version)) {
      return Optional.of("The page is old: look again, then decide.");
    }
    List<String> sentences = new ArrayList<>();
    for (Change change : kept) {
      if (change.version() > decidedOn && (page.isEmpty() || !change.page().equals(page))) {
        sentences.add(change.sentence());
      }
    }
    if (sentences.isEmpty()) {
      return Optional.empty();
    }
    int from = Math.max(0, sentences.size() - TOLD);
    return Optional.of(
        "Not done, because this changed meanwhile: "
            + String.join("; ", sentences.subList(from, sentences.size()))
            + ". Look again, then decide.");
  }
}
