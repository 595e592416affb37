package tarnish.controller.app;

import java.io.BufferedReader;
import java.io.Console;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Map;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tarnish.controller.access.PasswordHash;
import tarnish.controller.access.PeopleFile;
import tarnish.controller.access.Person;
import tarnish.controller.access.Role;

/** {@code people}: who may sign in where the page is served on a network. */
@Command(
    name = "people",
    mixinStandardHelpOptions = true,
    description =
        "Keeps the list of people who may sign in at the page. Passwords are read from the"
            + " terminal, or as one line from the standard input, never from an argument. A"
            + " running service takes up a change within seconds.")
final class PeopleCommand implements Runnable {
  @Spec private CommandSpec spec;

  @Override
  public void run() {
    throw new CommandLine.ParameterException(
        spec.commandLine(), "Say what to do: add, change, remove or list.");
  }

  /** Where the list is; the same for all. */
  static final class Where {
    @Option(
        names = "--people",
        required = true,
        paramLabel = "FILE",
        description = "the list of people")
    Path file;
  }

  private static Role role(String words) {
    return Role.of(words)
        .orElseThrow(
            () -> new CommandFailure("A role is 'look' or 'operate', not '" + words + "'."));
  }

  @Command(name = "add", description = "Adds a person; asks for a password.")
  int add(
      @CommandLine.Mixin Where where,
      @Parameters(paramLabel = "NAME", description = "as it stands in the record") String name,
      @Option(
              names = "--role",
              required = true,
              paramLabel = "ROLE",
              description = "look: sees everything; operate: also acts")
          String role) {
    if (!Person.isName(name)) {
      throw new CommandFailure(
          "A name must be 1 to 60 characters that can be printed, without spaces at its ends.");
    }
    Role wanted = role(role);
    Map<String, Person> people = read(where);
    if (people.containsKey(name)) {
      throw new CommandFailure("'" + name + "' is on the list; use 'people change'.");
    }
    people.put(name, new Person(name, wanted, hash(name)));
    write(where, people);
    return told(name + " may now " + wanted.words() + ".");
  }

  @Command(name = "change", description = "Changes a person's role, password, or both.")
  int change(
      @CommandLine.Mixin Where where,
      @Parameters(paramLabel = "NAME", description = "as on the list") String name,
      @Option(names = "--role", paramLabel = "ROLE", description = "look or operate") String role,
      @Option(names = "--password", description = "ask for a new password") boolean password) {
    if (role == null && !password) {
      throw new CommandFailure("Say what to change: --role, --password or both.");
    }
    Map<String, Person> people = read(where);
    Person before = known(people, name);
    Role wanted = role == null ? before.role() : role(role);
    people.put(name, new Person(name, wanted, password ? hash(name) : before.passwordHash()));
    write(where, people);
    return told(name + " was changed and is signed out everywhere.");
  }

  @Command(name = "remove", description = "Takes a person off the list.")
  int remove(
      @CommandLine.Mixin Where where,
      @Parameters(paramLabel = "NAME", description = "as on the list") String name) {
    Map<String, Person> people = read(where);
    known(people, name);
    people.remove(name);
    write(where, people);
    return told(name + " was taken off the list and is signed out everywhere.");
  }

  @Command(name = "list", description = "Prints names and roles.")
  int list(@CommandLine.Mixin Where where) {
    read(where).values().forEach(each -> told(each.role().words() + "\t" + each.name()));
    return Main.DONE;
  }

  private int told(String sentence) {
    spec.commandLine().getOut().println(sentence);
    spec.commandLine().getOut().flush();
    return Main.DONE;
  }

  private static Person known(Map<String, Person> people, String name) {
    Person person = people.get(name);
    if (person == null) {
      throw new CommandFailure("'" + name + "' is not on the list.");
    }
    return person;
  }

  private static Map<String, Person> read(Where where) {
    try {
      return new PeopleFile(where.file).read();
    } catch (IOException e) {
      throw new CommandFailure("The list of people cannot be read: " + e.getMessage());
    }
  }

  private static void write(Where where, Map<String, Person> people) {
    try {
      new PeopleFile(where.file).write(people.values());
    } catch (IOException e) {
      throw new CommandFailure("The list of people cannot be written: " + e.getMessage());
    }
  }

  private String hash(String name) {
    char[] password = password();
    String complaint = PasswordHash.complaint(password, name);
    if (!complaint.isEmpty()) {
      throw new CommandFailure(complaint);
    }
    String hash = PasswordHash.of(password);
    Arrays.fill(password, ' ');
    return hash;
  }

  private char[] password() {
    Console console = System.console();
    if (console == null) {
      return line();
    }
    char[] first =
        console.readPassword("Password (%d characters or more): ", PasswordHash.LENGTH_MIN);
    char[] second = console.readPassword("The same again: ");
    if (first == null || second == null || !Arrays.equals(first, second)) {
      throw new CommandFailure("The two passwords differ; nothing was changed.");
    }
    return first;
  }

  private char[] line() {
    PrintWriter out = spec.commandLine().getErr();
    try {
      String line =
          new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8)).readLine();
      if (line == null) {
        out.flush();
        throw new CommandFailure("No password came from the standard input.");
      }
      return line.toCharArray();
    } catch (IOException e) {
      throw new CommandFailure("The password cannot be read: " + e.getMessage());
    }
  }
}
