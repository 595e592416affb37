package tarnish.controller.notify;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import tarnish.controller.journal.Journal;
import tarnish.controller.journal.Journal.BatchLine;
import tarnish.controller.journal.Journal.EventLine;

/**
 * Events of the record from where a reader stopped. The record itself is the store: nothing is
 * copied, nothing can overflow, and only the reader's place is kept in a small file.
 */
final class EventFeed {
  private static final ObjectMapper JSON = new ObjectMapper();

  /**
   * Where the reader stopped.
   *
   * @param batch that it reads
   * @param millis time of the last event handed on
   * @param taken how many events of that time were handed on
   */
  record Place(int batch, long millis, int taken) {}

  /**
   * One event with a name of its own.
   *
   * @param id the same each time it is told, so that a repeat can be told from news
   */
  record Told(String id, int batch, EventLine line, Place after) {}

  private final Journal journal;
  private final Path file;
  private Place place;

  EventFeed(Journal journal, Path file) {
    this.journal = journal;
    this.file = file;
    place = read(file);
  }

  /** The next events, at most {@code limit}, oldest first; the place does not move. */
  List<Told> next(int limit) {
    List<BatchLine> batches = journal.batches();
    if (place == null) {
      place = beginning(batches);
    }
    List<Told> events = of(place, limit);
    int newest = batches.isEmpty() ? 0 : batches.get(0).batch();
    while (events.isEmpty() && place.batch() < newest) {
      place = new Place(place.batch() + 1, 0, 0);
      events = of(place, limit);
    }
    return events;
  }

  /** Moves the place behind an event that was handed on, and keeps it. */
  void handedOn(Told told) throws IOException {
    place = told.after();
    Path next = file.resolveSibling(file.getFileName() + ".new");
    Files.write(next, JSON.writeValueAsBytes(place));
    Files.move(next, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
  }

  /** A broker that is new hears the present batch from its start, and no older one. */
  private static Place beginning(List<BatchLine> batches) {
    return new Place(batches.isEmpty() ? 1 : batches.get(0).batch(), 0, 0);
  }

  private List<Told> of(Place from, int limit) {
    if (from.batch() < 1) {
      return List.of();
    }
    List<Told> told = new ArrayList<>();
    long millis = from.millis();
    int taken = 0;
    for (EventLine line : journal.events(from.batch(), from.millis(), limit + from.taken())) {
      taken = line.millis() == millis ? taken + 1 : 1;
      millis = line.millis();
      if (millis > from.millis() || taken > from.taken()) {
        String id = from.batch() + "/" + millis + "/" + taken;
        told.add(new Told(id, from.batch(), line, new Place(from.batch(), millis, taken)));
      }
    }
    return told;
  }

  private static Place read(Path file) {
    try {
      return Files.exists(file) ? JSON.readValue(file.toFile(), Place.class) : null;
    } catch (IOException unreadable) {
      return null;
    }
  }
}
