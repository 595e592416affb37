package tarnish.controller.app;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import tarnish.shared.planning.PlanningSheet;

/** {@code plan}: what to know before a batch is begun. */
@Command(
    name = "plan",
    mixinStandardHelpOptions = true,
    description =
        "Plans a recipe on a rig: oxygen, doses and their heat, purges, pressure, times."
            + " Warnings are in the sheet and do not change the exit status.")
final class PlanCommand implements Callable<Integer> {
  @Parameters(paramLabel = "RECIPE", description = "recipe file")
  private Path recipe;

  @Option(names = "--rig", required = true, paramLabel = "FILE", description = "rig file")
  private Path rig;

  @Option(names = "--json", description = "print one JSON object, numbers in SI units")
  private boolean json;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    LoadedFiles files = LoadedFiles.read(recipe, rig);
    PlanningSheet sheet = PlanningSheet.of(files.recipe(), files.rig());
    boolean invented = files.recipe().invented() || files.rig().invented();
    PlanText text = new PlanText(sheet, invented);
    spec.commandLine().getOut().print(json ? text.json() : text.words());
    spec.commandLine().getOut().flush();
    return Main.DONE;
  }
}
