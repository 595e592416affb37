package tarnish.controller.app;

import java.io.IOException;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import tarnish.controller.instruments.PretendedBench;
import tarnish.controller.instruments.Wire;
import tarnish.sim.SimulatedRig;

/** {@code instruments}: the bench in equations at the end of two serial lines. */
@Command(
    name = "instruments",
    mixinStandardHelpOptions = true,
    description = {
      "Pretends to be the two instruments of demo/instruments.rig.yaml, so that drivers and wires"
          + " can be tried without a bench. Make the lines first, each in a terminal of its own:",
      "  socat PTY,link=/tmp/tarnish-board,raw,echo=0 PTY,link=/tmp/tarnish-board-far,raw,echo=0",
      "  socat PTY,link=/tmp/tarnish-unit,raw,echo=0 PTY,link=/tmp/tarnish-unit-far,raw,echo=0"
    })
final class InstrumentsCommand implements Callable<Integer> {
  @Option(names = "--rig", required = true, paramLabel = "FILE", description = "rig file")
  private Path rig;

  @Option(
      names = "--recipe",
      required = true,
      paramLabel = "FILE",
      description = "recipe whose solid is in the vessel")
  private Path recipe;

  @Option(
      names = "--board",
      defaultValue = "/tmp/tarnish-board-far",
      paramLabel = "PORT",
      description = "far end of the board's line (default: ${DEFAULT-VALUE})")
  private Path board;

  @Option(
      names = "--unit",
      defaultValue = "/tmp/tarnish-unit-far",
      paramLabel = "PORT",
      description = "far end of the Modbus unit's line (default: ${DEFAULT-VALUE})")
  private Path unit;

  @Option(
      names = "--seed",
      defaultValue = "1",
      paramLabel = "N",
      description = "draws the bench (default: ${DEFAULT-VALUE})")
  private long seed;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() throws InterruptedException {
    LoadedFiles files = LoadedFiles.read(recipe, rig);
    SimulatedRig plant = new SimulatedRig(files.rig(), files.recipe(), seed);
    PretendedBench bench = new PretendedBench(files.rig(), plant, System::nanoTime);
    try {
      Wire.toBoard(board, bench);
      Wire.toUnit(unit, bench);
    } catch (IOException e) {
      throw new CommandFailure(
          "Cannot open a line: " + e.getMessage() + ". Make both with socat first; see --help.");
    }
    spec.commandLine().getOut().println("Both instruments answer. End with Ctrl-C.");
    spec.commandLine().getOut().flush();
    new CountDownLatch(1).await();
    return Main.DONE;
  }
}
