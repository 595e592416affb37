package tarnish.controller.app;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tarnish.controller.journal.Backup;

/** {@code backup}: a copy of the record while the service runs. */
@Command(
    name = "backup",
    mixinStandardHelpOptions = true,
    description =
        "Copies the whole record as it is now to one file, while the service goes on. To go back to"
            + " it, put it as tarnish.db into an empty folder.")
final class BackupCommand implements Callable<Integer> {
  @Parameters(paramLabel = "FILE", description = "the copy; must not be there yet")
  private Path to;

  @Option(names = "--data", required = true, paramLabel = "DIR", description = "of the record")
  private Path data;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    long bytes = Backup.of(data, to);
    spec.commandLine().getOut().println(to + ": " + bytes + " bytes, checked.");
    spec.commandLine().getOut().flush();
    return Main.DONE;
  }
}
