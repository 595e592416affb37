package tarnish.controller.app;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import tarnish.controller.files.RigFile;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.RigDescription;

/** {@code bench}: walks through every channel and output of a rig, or calibrates a sensor. */
@Command(
    name = "bench",
    mixinStandardHelpOptions = true,
    description =
        "Shows what every sensor says, then pulses every output, each after a typed yes. With"
            + " --calibrate compares one sensor with two references instead. No batch may run"
            + " meanwhile.")
final class BenchCommand implements Callable<Integer> {
  private static final double SETTLE_S = 4;

  @Option(names = "--rig", required = true, paramLabel = "FILE", description = "rig file")
  private Path rig;

  @Option(
      names = "--data",
      required = true,
      paramLabel = "DIR",
      description = "folder of the calibrations and of the report, made if missing")
  private Path data;

  @Option(
      names = "--seconds",
      defaultValue = "10",
      paramLabel = "N",
      description = "how long each look takes, 2 to 600 (default: ${DEFAULT-VALUE})")
  private double seconds;

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
    RigFile file = LoadedFiles.rigFile(rig.toString(), LoadedFiles.text(rig));
    boolean simulated = file.rig().connection() == RigDescription.Connection.SIMULATED;
    if (yes && !simulated) {
      throw new CommandFailure(
          "--yes is for a simulated bench. On a real one somebody stands beside it and types yes.");
    }
    if (!(seconds >= 2 && seconds <= 600)) {
      throw new CommandFailure("--seconds is " + seconds + "; it must be from 2 to 600.");
    }
    PrintWriter out = spec.commandLine().getOut();
    BufferedReader in =
        new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8));
    BenchTalk talk = new BenchTalk(in, out, yes);
    BatchBench bench =
        ServeCommand.maker(file, 1, data).make(file.rig(), LiveBench.noBatch(file.rig()), 1, null);
    try {
      BenchLook look = new BenchLook(file.rig(), bench, seconds);
      // Ports are opened and first answers come meanwhile; what is silent then has something.
      look.look(Outputs.OFF, SETTLE_S);
      if (volume) {
        new VolumeCalibration(file.rig(), look, talk).run(data);
      } else if (calibrate != null) {
        new SensorCalibration(file.rig(), look, talk).run(calibrate, data);
      } else {
        new BenchCheck(file.rig(), bench, look, talk).run();
      }
    } finally {
      bench.close();
    }
    talk.keep(data);
    return Main.DONE;
  }
}
