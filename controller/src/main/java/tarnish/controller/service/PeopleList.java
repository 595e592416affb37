package tarnish.controller.service;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.function.LongSupplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import tarnish.controller.access.PeopleFile;
import tarnish.controller.access.Person;
import tarnish.controller.access.Sessions;

/**
 * The file of people as it stands now. A person who was taken out of it, or whose role or password
 * was changed, is signed out within two seconds. A file that cannot be read changes nothing, and is
 * told in the log.
 */
final class PeopleList {
  private static final Logger LOG = LoggerFactory.getLogger(PeopleList.class);
  private static final long LOOK_MILLIS = 2000;

  private final PeopleFile file;
  private final Sessions sessions;
  private final LongSupplier clockMillis;
  private Map<String, Person> people;
  private String seen = "";
  private long lookedMillis;

  /**
   * @throws IllegalArgumentException if the file cannot be read or names nobody
   */
  PeopleList(Path path, Sessions sessions, LongSupplier clockMillis) {
    file = new PeopleFile(path);
    this.sessions = sessions;
    this.clockMillis = clockMillis;
    try {
      seen = stamp();
      people = file.read();
    } catch (IOException e) {
      throw new IllegalArgumentException("The people file: " + e.getMessage(), e);
    }
    if (people.isEmpty()) {
      throw new IllegalArgumentException(
          "The people file "
              + path
              + " names nobody. Add somebody with 'tarnish people add', then start again.");
    }
    lookedMillis = clockMillis.getAsLong();
  }

  private String stamp() throws IOException {
    return Files.exists(file.path())
        ? Files.getLastModifiedTime(file.path()) + " " + Files.size(file.path())
        : "missing";
  }

  /** The person of that name now, or null. */
  synchronized Person find(String name) {
    look();
    return people.get(name);
  }

  /** Looks at the file, at most every two seconds. */
  synchronized void look() {
    long now = clockMillis.getAsLong();
    if (now - lookedMillis < LOOK_MILLIS) {
      return;
    }
    lookedMillis = now;
    try {
      String stamp = stamp();
      if (!stamp.equals(seen)) {
        people = file.read();
        seen = stamp;
        sessions.check(person -> people.get(person.name()));
      }
    } catch (IOException e) {
      LOG.error("The people file cannot be read, so the list stays as it was: {}", e.getMessage());
    }
  }
}
