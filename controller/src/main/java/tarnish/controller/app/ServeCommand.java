package tarnish.controller.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import tarnish.controller.files.NoticeSettings;
import tarnish.controller.files.RigFile;
import tarnish.controller.notify.Outside;
import tarnish.shared.rig.RigDescription;

/** {@code serve}: the service for one rig. */
@Command(
    name = "serve",
    mixinStandardHelpOptions = true,
    description =
        "Runs the bench of a rig file and serves its page, on this machine only unless --listen and"
            + " --people say otherwise.")
final class ServeCommand implements Callable<Integer> {
  private static final String RECIPE_ENDING = ".recipe.yaml";
  private static final String NOTIFY = "notify.yaml";

  @Option(names = "--rig", required = true, paramLabel = "FILE", description = "rig file")
  private Path rig;

  @Option(
      names = "--data",
      required = true,
      paramLabel = "DIR",
      description = "folder of the record, made if missing")
  private Path data;

  @Option(
      names = "--port",
      defaultValue = "8471",
      paramLabel = "N",
      description = "port of the page, 0 for any free one (default: ${DEFAULT-VALUE})")
  private int port;

  @Option(
      names = "--recipes",
      paramLabel = "DIR",
      description =
          "folder of recipe files, *" + RECIPE_ENDING + " (default: the folder of the rig file)")
  private Path recipes;

  @Option(
      names = "--seed",
      defaultValue = "1",
      paramLabel = "N",
      description = "draws the simulated bench (default: ${DEFAULT-VALUE})")
  private long seed;

  @Option(
      names = "--speed",
      defaultValue = "1",
      paramLabel = "X",
      description = "times real time, simulated bench only (default: ${DEFAULT-VALUE})")
  private double speed;

  @Option(
      names = "--notify",
      paramLabel = "FILE",
      description =
          "whom to tell when something needs a person (default: "
              + NOTIFY
              + " in the folder of the record, if there is one; without it nothing leaves this"
              + " machine)")
  private Path notify;

  @CommandLine.Mixin private Serving serving;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    String stated = LoadedFiles.text(rig);
    String vessel = LoadedFiles.rigFile(rig.toString(), stated).rig().vessel().name();
    String rigText = VolumeFile.in(data).applied(stated, vessel);
    RigFile file = LoadedFiles.rigFile(rig.toString(), rigText);
    LiveBench.Settings settings =
        new LiveBench.Settings(
            file.rig(), rigText, recipes(), seed, speed, false, maker(file, speed, data));
    Path notices = notify != null ? notify : data.resolve(NOTIFY);
    boolean tells = notify != null || Files.exists(notices);
    Optional<NoticeSettings> whomToTell =
        tells ? Optional.of(NotifyCommand.read(notices)) : Optional.empty();
    Service.run(
        settings,
        data,
        serving.settings(port),
        spec.commandLine().getOut(),
        (bench, served) -> {
          Watchdog.startIfAsked(() -> bench.status().loop().ticks());
          whomToTell.ifPresent(it -> tell(it, bench));
        });
    return Main.DONE;
  }

  /** A simulated bench for each batch, or the one real bench for all. */
  static BatchBench.Maker maker(RigFile file, double speed, Path data) {
    if (file.rig().connection() == RigDescription.Connection.SIMULATED) {
      return SimulatedBench::make;
    }
    if (speed != 1) {
      throw new CommandFailure(
          "--speed is " + speed + "; a real bench runs at 1. Only a simulated one can be hurried.");
    }
    return (rig, recipe, seed, before) -> before != null ? before : DeviceBench.open(file, data);
  }

  /** Its threads are daemons, and what waits is on the disk: the process just ends. */
  private void tell(NoticeSettings whomToTell, LiveBench bench) {
    try {
      Outside.start(whomToTell, bench, data);
    } catch (IllegalArgumentException e) {
      throw new CommandFailure(e.getMessage());
    }
  }

  private Map<String, String> recipes() {
    Path folder = recipes != null ? recipes : rig.toAbsolutePath().getParent();
    Map<String, String> texts = new TreeMap<>();
    try (Stream<Path> files = Files.list(folder)) {
      files
          .filter(file -> file.toString().endsWith(RECIPE_ENDING))
          .forEach(file -> texts.put(file.getFileName().toString(), LoadedFiles.text(file)));
    } catch (IOException e) {
      throw new CommandFailure("Cannot list recipes in " + folder + ": " + e.getMessage() + ".");
    }
    return texts;
  }
}
