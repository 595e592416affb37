package tarnish.controller.app;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import tarnish.controller.files.RigFile;
import tarnish.controller.journal.SqliteJournal;
import tarnish.shared.rig.RigDescription;

/** {@code bench}: walks through every channel and output of a rig, or calibrates a sensor. */
@Command(
    name = "bench",
    mixinStandardHelpOptions = true,
    description =
        "Shows what every sensor says, then pulses every output, each after a typed yes. With"
            + " --guided looks for wiring mistakes, with --calibrate compares one sensor with two"
            + " references instead. No batch may run meanwhile. The same is on the bench page of"
            + " the service.")
final class BenchCommand implements Callable<Integer> {
  /** Ports are opened, first answers come, and the window of a look fills. */
  private static final double SETTLE_S = 14;

  private static final double SIMULATED_SPEED = 40;
  private static final long PATIENCE_MILLIS = 60_000;

  @Option(names = "--rig", required = true, paramLabel = "FILE", description = "rig file")
  private Path rig;

  @Option(
      names = "--data",
      required = true,
      paramLabel = "DIR",
      description = "folder of the record, the calibrations and the report, made if missing")
  private Path data;

  @Option(
      names = "--by",
      defaultValue = "somebody at the bench",
      paramLabel = "NAME",
      description = "who checks, for the record (default: ${DEFAULT-VALUE})")
  private String by;

  @Option(
      names = "--guided",
      arity = "0..1",
      fallbackValue = "all",
      paramLabel = "TRIAL",
      description = "the guided trials for wiring mistakes, or one of them by its name")
  private String guided;

  @Option(
      names = "--calibrate",
      paramLabel = "SENSOR",
      description = "sensor to be calibrated, as named in the rig file")
  private String calibrate;

  @Option(
      names = "--volume",
      description = "measures the hot volume with inert gas from a bulb of known volume instead")
  private boolean volume;

  @Option(
      names = "--yes",
      description = "answers every question with yes; on a simulated bench only")
  private boolean yes;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws IOException {
    String rigText = LoadedFiles.text(rig);
    RigFile file = LoadedFiles.rigFile(rig.toString(), rigText);
    boolean simulated = file.rig().connection() == RigDescription.Connection.SIMULATED;
    if (yes && !simulated) {
      throw new CommandFailure(
          "--yes is for a simulated bench. On a real one somebody stands beside it and types yes.");
    }
    double speed = simulated ? SIMULATED_SPEED : 1;
    LiveBench.Settings settings =
        new LiveBench.Settings(
            file.rig(), rigText, Map.of(), 1, speed, false, ServeCommand.maker(file, speed, data));
    BufferedReader in =
        new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8));
    BenchTalk talk = new BenchTalk(in, spec.commandLine().getOut(), yes);
    try (SqliteJournal journal = SqliteJournal.open(data);
        LiveBench bench = LiveBench.start(settings, journal, Version.text())) {
      Thread.sleep((long) (SETTLE_S * 1000 / speed));
      if (volume) {
        new VolumeCalibration(file.rig(), bench, talk).run(data);
      } else {
        check(new BenchTerminal(bench, talk, by, PATIENCE_MILLIS), talk, file.rig(), simulated);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    talk.say("Everything is off.");
    talk.keep(data);
    return Main.DONE;
  }

  private void check(
      BenchTerminal terminal, BenchTalk talk, RigDescription described, boolean simulated)
      throws IOException {
    talk.say("Bench check of " + described.name() + (simulated ? " (simulated)" : ""));
    terminal.arrive();
    if (calibrate != null) {
      terminal.calibrate(calibrate);
    } else {
      terminal.showChannels();
      talk.say("Stand where you can see the bench and reach the stop.");
      if (guided == null) {
        terminal.runGroup("pulse", !yes);
      } else if (guided.equals("all")) {
        terminal.runGroup("guided", !yes);
      } else {
        terminal.run(guided);
      }
    }
    terminal.leave();
  }
}
