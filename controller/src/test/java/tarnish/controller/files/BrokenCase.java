package tarnish.controller.files;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/**
 * A way to break a base file and the messages that must come; see README.md of the resources.
 *
 * @param edits what is taken out and what goes in its place
 * @param messages as printed, without the file name
 */
record BrokenCase(String name, List<Edit> edits, List<String> messages) {
  /** Lines to be replaced, each ended by a line feed. */
  record Edit(String out, String in) {}

  static String resource(String name) {
    try (InputStream in = BrokenCase.class.getResourceAsStream(name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static List<BrokenCase> read(String resourceName) {
    List<BrokenCase> cases = new ArrayList<>();
    for (String line : resource(resourceName).split("\n")) {
      String rest = line.length() > 2 ? line.substring(2) : "";
      if (line.startsWith("== ")) {
        cases.add(new BrokenCase(line.substring(3), new ArrayList<>(), new ArrayList<>()));
      } else if (!line.isBlank()) {
        cases.get(cases.size() - 1).take(line.charAt(0), rest);
      }
    }
    return cases;
  }

  private void take(char mark, String rest) {
    Edit last = edits.isEmpty() ? new Edit("", "\n") : edits.get(edits.size() - 1);
    switch (mark) {
      case '>' -> messages.add(rest);
      case '-' -> {
        if (last.in.isEmpty()) {
          edits.set(edits.size() - 1, new Edit(last.out + rest + "\n", ""));
        } else {
          edits.add(new Edit(rest + "\n", ""));
        }
      }
      case '+' -> {
        String in = last.in + rest.replace("\\t", "\t") + "\n";
        edits.set(edits.size() - 1, new Edit(last.out, in));
      }
      default -> throw new IllegalStateException("no such mark: " + mark);
    }
  }

  String brokenText(String base) {
    String text = base;
    for (Edit edit : edits) {
      int at = text.indexOf(edit.out);
      if (at < 0) {
        throw new IllegalStateException(name + ": the base file has no\n" + edit.out);
      }
      text = text.substring(0, at) + edit.in + text.substring(at + edit.out.length());
    }
    return text;
  }
}
