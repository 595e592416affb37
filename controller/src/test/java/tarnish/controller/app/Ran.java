package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.List;

/** What a command printed and how it ended. */
record Ran(int status, String out, String errors) {
  /** Runs a command as typed, each argument as it prints. */
  static Ran run(Object... arguments) {
    StringWriter out = new StringWriter();
    StringWriter errors = new StringWriter();
    String[] words = List.of(arguments).stream().map(Object::toString).toArray(String[]::new);
    int status = Main.run(new PrintWriter(out), new PrintWriter(errors), words);
    return new Ran(status, out.toString(), errors.toString());
  }

  /** What a command printed that has to go well. */
  static String well(Object... arguments) {
    Ran ran = run(arguments);
    assertEquals(0, ran.status(), ran.errors());
    return ran.out();
  }
}
