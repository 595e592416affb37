package tarnish.controller.app;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tarnish.controller.control.Report;
import tarnish.controller.files.FileCheck;
import tarnish.shared.rig.RigDescription;

/** {@code check}: says everything that is wrong with a recipe or rig file. */
@Command(
    name = "check",
    mixinStandardHelpOptions = true,
    description = "Checks a recipe or rig file and prints all its faults at once.")
final class CheckCommand implements Callable<Integer> {
  @Parameters(paramLabel = "FILE", description = "recipe or rig file")
  private Path file;

  @Option(
      names = "--rig",
      paramLabel = "FILE",
      description = "rig file to check a recipe against; without it the rig's limits go unchecked")
  private Path rig;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    Optional<RigDescription> against =
        Optional.ofNullable(rig).map(it -> LoadedFiles.rig(it.toString(), LoadedFiles.text(it)));
    FileCheck.Report report = FileCheck.check(file.toString(), LoadedFiles.text(file), against);
    PrintWriter to = report.ok() ? spec.commandLine().getOut() : spec.commandLine().getErr();
    report.lines().forEach(to::println);
    if (report.ok() && report.lines().size() > 1 && report.lines().get(1).startsWith("  rig:")) {
      to.println("  interlocks as enforced:");
      RigDescription itself = LoadedFiles.rig(file.toString(), LoadedFiles.text(file));
      Report.table(itself).forEach(row -> to.println("    " + row));
    }
    to.flush();
    return report.ok() ? Main.DONE : Main.FAILED;
  }
}
