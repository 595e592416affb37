package tarnish.controller.access;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The people who may sign in: a text file, one a line, role, name and password hash with a tab
 * between. Lines that begin with # are remarks. Only its owner may read it.
 */
public final class PeopleFile {
  private static final String HEAD =
      "# People who may sign in to Tarnish: role, name, password hash. Change it with"
          + " 'tarnish people'.\n";
  private static final long BYTES_MAX = 1 << 20;

  private final Path path;

  public PeopleFile(Path path) {
    this.path = path;
  }

  /** The file is there but cannot be understood; the message says where and why. */
  public static final class Unreadable extends IOException {
    private static final long serialVersionUID = 1L;

    Unreadable(String message) {
      super(message);
    }
  }

  public Path path() {
    return path;
  }

  /** Everybody by name, in the order of the file; empty where there is no file. */
  public Map<String, Person> read() throws IOException {
    Map<String, Person> people = new LinkedHashMap<>();
    List<String> lines;
    try {
      if (Files.size(path) > BYTES_MAX) {
        throw new Unreadable(path + " is too long for a list of people.");
      }
      lines = Files.readAllLines(path, StandardCharsets.UTF_8);
    } catch (NoSuchFileException e) {
      return people;
    }
    for (int i = 0; i < lines.size(); i++) {
      String line = lines.get(i);
      if (!line.isBlank() && !line.startsWith("#")) {
        Person person = person(line, i + 1);
        if (people.put(person.name(), person) != null) {
          throw new Unreadable(path + ":" + (i + 1) + ": '" + person.name() + "' stands twice.");
        }
      }
    }
    return people;
  }

  private Person person(String line, int number) throws Unreadable {
    String[] parts = line.split("\t", -1);
    boolean sound =
        parts.length == 3
            && Role.of(parts[0]).isPresent()
            && Person.isName(parts[1])
            && PasswordHash.isWellFormed(parts[2]);
    if (!sound) {
      throw new Unreadable(
          path
              + ":"
              + number
              + ": expected role (look or operate), name and password hash with a tab between;"
              + " write the line with 'tarnish people add'.");
    }
    return new Person(parts[1], Role.of(parts[0]).orElseThrow(), parts[2]);
  }

  /** Replaces the file in one step, so that no reader sees half of it. */
  public void write(Collection<Person> people) throws IOException {
    List<String> lines = new ArrayList<>();
    for (Person each : people) {
      lines.add(each.role().words() + "\t" + each.name() + "\t" + each.passwordHash());
    }
    Path folder = path.toAbsolutePath().getParent();
    Files.createDirectories(folder);
    Path fresh = Files.createTempFile(folder, "people", ".new");
    try {
      if (Files.getFileStore(folder).supportsFileAttributeView("posix")) {
        Files.setPosixFilePermissions(fresh, PosixFilePermissions.fromString("rw-------"));
      }
      Files.writeString(fresh, HEAD + String.join("\n", lines) + "\n", StandardCharsets.UTF_8);
      Files.move(fresh, path, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    } finally {
      Files.deleteIfExists(fresh);
    }
  }
}
