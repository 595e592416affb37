package tarnish.controller.app;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tarnish.shared.magnetism.MagneticSheet;

/** {@code magnetic}: what a magnetic weighing says of the product. */
@Command(
    name = "magnetic",
    mixinStandardHelpOptions = true,
    description =
        "Evaluates a magnetic weighing: balance readings of sample, reference and empty holder with"
            + " and without the magnet, one 'name: value' a line. --blank prints an empty sheet.")
final class MagneticCommand implements Callable<Integer> {
  @Parameters(paramLabel = "SHEET", arity = "0..1", description = "file of the readings")
  private Path sheet;

  @Option(names = "--blank", description = "print a sheet with examples to fill in")
  private boolean blank;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    var out = spec.commandLine().getOut();
    if (blank) {
      out.println("# Examples, invented: write your own readings with their standard uncertainty.");
      MagneticSheet.fields()
          .forEach(f -> out.println(f.key() + ": " + f.example() + "     # " + f.label()));
      out.flush();
      return Main.DONE;
    }
    if (sheet == null) {
      throw new CommandFailure("Name a file of readings, or print an empty one with --blank.");
    }
    Map<String, String> texts = read(sheet);
    try {
      for (MagneticSheet.Line line : MagneticSheet.evaluate(texts)) {
        out.printf("%-22s %s%n", line.what(), line.value());
      }
    } catch (IllegalArgumentException wrong) {
      throw new CommandFailure(sheet + ": " + wrong.getMessage());
    }
    out.flush();
    return Main.DONE;
  }

  private static Map<String, String> read(Path file) {
    List<String> known = MagneticSheet.fields().stream().map(MagneticSheet.Field::key).toList();
    Map<String, String> texts = new LinkedHashMap<>();
    try {
      int number = 0;
      for (String line : Files.readAllLines(file, StandardCharsets.UTF_8)) {
        number++;
        String said = line.replaceFirst("(^|\\s)#.*", "").strip();
        int colon = said.indexOf(':');
        String key = colon < 0 ? said : said.substring(0, colon).strip();
        if (said.isEmpty()) {
          continue;
        }
        if (colon < 0 || !known.contains(key)) {
          throw new CommandFailure(
              file
                  + ":"
                  + number
                  + ": found '"
                  + said
                  + "', expected one of "
                  + String.join(", ", known)
                  + ", a colon and a value.");
        }
        if (texts.put(key, said.substring(colon + 1).strip()) != null) {
          throw new CommandFailure(file + ":" + number + ": '" + key + "' is there twice.");
        }
      }
    } catch (IOException e) {
      throw new CommandFailure("Cannot read " + file + ": " + e.getMessage() + ".");
    }
    return texts;
  }
}
