package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.access.PasswordHash;
import tarnish.controller.access.PeopleFile;
import tarnish.controller.access.Role;

class PeopleCommandTest {
  private static final String PASSWORD = "grey cake, broken twice";

  @TempDir private Path folder;
  private final StringWriter out = new StringWriter();
  private final StringWriter errors = new StringWriter();

  private Path file() {
    return folder.resolve("people.txt");
  }

  private int people(String typed, String... arguments) {
    List<String> all = new ArrayList<>(List.of("people"));
    all.addAll(List.of(arguments));
    all.addAll(List.of("--people", file().toString()));
    InputStream before = System.in;
    System.setIn(new ByteArrayInputStream((typed + "\n").getBytes(StandardCharsets.UTF_8)));
    try {
      return Main.run(
          new PrintWriter(out, true), new PrintWriter(errors, true), all.toArray(String[]::new));
    } finally {
      System.setIn(before);
    }
  }

  @Test
  void aPersonIsAddedChangedListedAndTakenOff() throws IOException {
    assertEquals(0, people(PASSWORD, "add", "Ada Example", "--role", "operate"), errors::toString);
    assertEquals(0, people(PASSWORD, "add", "Ben Example", "--role", "look"), errors::toString);
    assertEquals(0, people("", "change", "Ben Example", "--role", "operate"), errors::toString);
    var people = new PeopleFile(file()).read();
    assertEquals(Role.OPERATE, people.get("Ben Example").role());
    assertTrue(
        PasswordHash.matches(PASSWORD.toCharArray(), people.get("Ada Example").passwordHash()));
    assertEquals(0, people("another long one", "change", "Ada Example", "--password"));
    assertFalse(
        PasswordHash.matches(
            PASSWORD.toCharArray(),
            new PeopleFile(file()).read().get("Ada Example").passwordHash()));
    assertEquals(0, people("", "remove", "Ada Example"));
    assertEquals(0, people("", "list"));
    assertTrue(out.toString().endsWith("operate\tBen Example\n"), out.toString());
  }

  @Test
  void noPasswordAndNoRoleSlipsThrough() {
    assertEquals(1, people("short", "add", "Ada", "--role", "operate"));
    assertTrue(errors.toString().contains("12 to 128"), errors.toString());
    assertEquals(1, people(PASSWORD, "add", "Ada", "--role", "admin"));
    assertEquals(1, people(PASSWORD, "add", "A\tda", "--role", "look"));
    assertEquals(1, people("", "remove", "Ada"));
    assertEquals(2, people(PASSWORD, "add", "Ada", "--role", "look", "--password", PASSWORD));
    assertFalse(Files.exists(file()));
  }

  @Test
  void onlyItsOwnerMayReadTheListAndNoPasswordStandsInIt() throws IOException {
    people(PASSWORD, "add", "Ada", "--role", "look");
    assertEquals("rw-------", PosixFilePermissions.toString(Files.getPosixFilePermissions(file())));
    assertFalse(Files.readString(file()).contains("grey"));
  }

  @Test
  void onANetworkTheServiceDoesNotStartWithoutPeople() {
    String rig = Demo.RIG.toString();
    String[] serve = {"serve", "--rig", rig, "--data", folder.toString(), "--port", "0"};
    List<String> open = new ArrayList<>(List.of(serve));
    open.addAll(List.of("--listen", "0.0.0.0"));
    assertEquals(1, run(open), errors.toString());
    assertTrue(errors.toString().contains("tarnish people add"), errors.toString());
    List<String> empty = new ArrayList<>(open);
    empty.addAll(List.of("--people", folder.resolve("nobody.txt").toString()));
    assertEquals(1, run(empty));
    assertTrue(errors.toString().contains("names nobody"), errors.toString());
  }

  private int run(List<String> arguments) {
    return Main.run(
        new PrintWriter(out, true),
        new PrintWriter(errors, true),
        arguments.toArray(String[]::new));
  }
}
