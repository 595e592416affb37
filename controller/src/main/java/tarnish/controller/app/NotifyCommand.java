package tarnish.controller.app;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import tarnish.controller.files.NoticeSettings;
import tarnish.controller.files.NoticeSettingsReader;
import tarnish.controller.notify.Outside;

/** {@code notify}: tries the ways on which a person is told. */
@Command(
    name = "notify",
    mixinStandardHelpOptions = true,
    description =
        "Checks the file that says whom to tell; with --test, also sends a test message on every"
            + " way in it. Exit status 1 if one fails.")
final class NotifyCommand implements Callable<Integer> {
  @Option(
      names = "--settings",
      required = true,
      paramLabel = "FILE",
      description = "the file, e.g. notify.yaml in the folder of the record")
  private Path settings;

  @Option(names = "--test", description = "send a test message on every way")
  private boolean test;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    NoticeSettings read = read(settings);
    PrintWriter out = spec.commandLine().getOut();
    if (!test) {
      out.println(settings + " can be used.");
      out.flush();
      return Main.DONE;
    }
    String now = OffsetDateTime.now().truncatedTo(ChronoUnit.SECONDS).toString();
    Map<String, String> outcomes;
    try {
      outcomes = Outside.test(read, now);
    } catch (IllegalArgumentException e) {
      throw new CommandFailure(e.getMessage());
    }
    outcomes.forEach(
        (way, failure) -> out.println(way + ": " + (failure.isEmpty() ? "taken" : failure)));
    out.flush();
    return outcomes.values().stream().allMatch(String::isEmpty) ? Main.DONE : Main.FAILED;
  }

  static NoticeSettings read(Path file) {
    return LoadedFiles.value(NoticeSettingsReader.read(file.toString(), LoadedFiles.text(file)));
  }
}
