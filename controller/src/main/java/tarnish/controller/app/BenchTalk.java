package tarnish.controller.app;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;

/** Tells and asks the person at the bench, and keeps all that was said. */
final class BenchTalk {
  private static final DateTimeFormatter NAME = DateTimeFormatter.ofPattern("yyyyMMdd-HHmmss");

  private final BufferedReader in;
  private final PrintWriter out;
  private final boolean alwaysYes;
  private final StringBuilder said = new StringBuilder();

  BenchTalk(BufferedReader in, PrintWriter out, boolean alwaysYes) {
    this.in = in;
    this.out = out;
    this.alwaysYes = alwaysYes;
  }

  void say(String line) {
    out.println(line);
    out.flush();
    said.append(line).append('\n');
  }

  /** Only the typed word yes is one; the end of the input is a no. */
  boolean confirms(String question) throws IOException {
    if (alwaysYes) {
      say(question + " Type yes: yes (simulated)");
      return true;
    }
    return ask(question + " Type yes: ").equals("yes");
  }

  /** What was typed, without blanks at its ends; empty at the end of the input. */
  String ask(String question) throws IOException {
    out.print(question);
    out.flush();
    String line = in.readLine();
    String answer = line == null ? "" : line.strip();
    said.append(question).append(answer).append('\n');
    return answer;
  }

  /** Puts all that was said into a file of the folder. */
  void keep(Path folder) throws IOException {
    Files.createDirectories(folder);
    OffsetDateTime now = OffsetDateTime.now(ZoneOffset.UTC);
    Path file = folder.resolve("bench-" + NAME.format(now) + "Z.txt");
    Files.writeString(file, said);
    out.println("Kept in " + file + ".");
    out.flush();
  }

  String text() {
    return said.toString();
  }
}
