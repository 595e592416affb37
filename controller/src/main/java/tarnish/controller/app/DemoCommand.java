package tarnish.controller.app;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import tarnish.controller.service.WebSettings;

/** {@code demo}: the invented copper oxide batch on the simulated bench, page included. */
@Command(
    name = "demo",
    mixinStandardHelpOptions = true,
    description =
        "Starts the invented copper oxide batch on a simulated bench and serves its page."
            + " The questions on the way are yours to answer.")
final class DemoCommand implements Callable<Integer> {
  static final String RIG = "bench.rig.yaml";
  static final String RECIPE = "copper-oxide.recipe.yaml";
  private static final String[] RECIPES = {
    RECIPE, "copper-oxide-two-weeks.recipe.yaml", "barium-peroxide.recipe.yaml"
  };

  @Option(
      names = "--port",
      defaultValue = "8471",
      paramLabel = "N",
      description = "port of the page, 0 for any free one (default: ${DEFAULT-VALUE})")
  private int port;

  @Option(
      names = "--speed",
      defaultValue = "120",
      paramLabel = "X",
      description = "times real time (default: ${DEFAULT-VALUE})")
  private double speed;

  @Option(
      names = "--seed",
      defaultValue = "1",
      paramLabel = "N",
      description = "draws the simulated bench (default: ${DEFAULT-VALUE})")
  private long seed;

  @Option(
      names = "--data",
      paramLabel = "DIR",
      description = "folder of the record (default: a new temporary one)")
  private Path data;

  @Option(names = "--no-browser", description = "do not open a browser")
  private boolean noBrowser;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws IOException {
    String rigText = resource(RIG);
    Map<String, String> recipes = new TreeMap<>();
    for (String name : RECIPES) {
      recipes.put(name, resource(name));
    }
    LiveBench.Settings settings =
        new LiveBench.Settings(
            LoadedFiles.rig(RIG, rigText),
            rigText,
            recipes,
            seed,
            speed,
            true,
            SimulatedBench::make);
    Path folder = data != null ? data : Files.createTempDirectory("tarnish-demo-");
    Service.run(
        settings, folder, WebSettings.local(port), spec.commandLine().getOut(), this::begin);
    return Main.DONE;
  }

  private void begin(LiveBench bench, int servedPort) {
    if (!bench.isTakenUp()) {
      Optional<String> whyNot = bench.startBatch(bench.recipes().get(RECIPE), "demo");
      if (whyNot.isPresent()) {
        throw new CommandFailure(whyNot.get());
      }
    }
    if (!noBrowser) {
      Browsing.open("http://127.0.0.1:" + servedPort + "/");
    }
  }

  static String resource(String name) {
    try (InputStream in = DemoCommand.class.getResourceAsStream("/demo/" + name)) {
      if (in == null) {
        throw new CommandFailure("The jar lacks /demo/" + name + ": build it anew.");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new CommandFailure("Cannot read /demo/" + name + " in the jar: " + e.getMessage());
    }
  }
}
