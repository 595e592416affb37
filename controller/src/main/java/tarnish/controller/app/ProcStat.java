package tarnish.controller.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** A {@code stat} file of proc(5), of a process or of a thread. */
record ProcStat(String line) {
  /** First field behind the name, which may itself hold blanks and parentheses. */
  private static final int BEHIND_NAME = 3;

  static ProcStat read(Path file) throws IOException {
    return new ProcStat(Files.readString(file));
  }

  /** Of the process or thread, at most 15 letters. */
  String name() {
    return line.substring(line.indexOf('(') + 1, line.lastIndexOf(')'));
  }

  /** A field by its number in proc(5), from 4 on. */
  long number(int field) {
    String behind = line.substring(line.lastIndexOf(')') + 2);
    return Long.parseLong(behind.split(" ")[field - BEHIND_NAME]);
  }
}
