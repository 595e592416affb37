package tarnish.controller.app;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import tarnish.shared.reading.Readings;
import tarnish.sim.SimulatedRig;

/**
 * Prints how fast a rehearsal of two weeks runs beside the plant alone, and how soon and how small
 * the service starts. Run by {@code .ci/figures}; no test, because timing decides none.
 */
public final class SpeedFigures {
  private static final Path TWO_WEEKS = Path.of("../sim/demo/copper-oxide-two-weeks.recipe.yaml");
  private static final int ROUNDS = 3;

  private SpeedFigures() {}

  public static void main(String[] arguments) throws Exception {
    LoadedFiles files = LoadedFiles.read(TWO_WEEKS, Demo.RIG);
    System.out.println("processors " + Runtime.getRuntime().availableProcessors());
    for (int round = 1; round <= ROUNDS; round++) {
      double startedS = processorS();
      RehearsalResult rehearsal = new Rehearsal(files, 1, Optional.empty()).run();
      double rehearsalS = processorS() - startedS;
      double plantS = plantAlone(files, rehearsal.simulatedSeconds());
      System.out.printf(
          Locale.ROOT,
          "round %d: rehearsal of %.1f days %.2f s = %,.0f times real time;"
              + " plant alone %.2f s = %,.0f times; ratio %.2f%n",
          round,
          rehearsal.simulatedSeconds() / 86400,
          rehearsalS,
          rehearsal.simulatedSeconds() / rehearsalS,
          plantS,
          rehearsal.simulatedSeconds() / plantS,
          rehearsalS / plantS);
    }
    startAndMemory();
  }

  /** Seconds that the same bench takes for the same time, read each tick but not controlled. */
  private static double plantAlone(LoadedFiles files, double seconds) {
    SimulatedRig bench = new SimulatedRig(files.rig(), files.recipe(), 1);
    Readings readings = new Readings(files.rig().resolutions());
    double startedS = processorS();
    for (double at = 0; at < seconds; at += SimulatedRig.TICK_S) {
      bench.advance(SimulatedRig.TICK_S);
      bench.read(readings);
    }
    return processorS() - startedS;
  }

  /** Processor time of this thread, in s: what others do on the machine is not in it. */
  private static double processorS() {
    return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() / 1e9;
  }

  private static void startAndMemory() throws Exception {
    for (int round = 1; round <= ROUNDS; round++) {
      Path data = Files.createTempDirectory("tarnish-figures");
      long started = System.nanoTime();
      try (ServedProcess service =
          ServedProcess.start(
              "serve", "--rig", Demo.RIG.toString(), "--data", data.toString(), "--port", "0")) {
        service.waitFor("the first tick", s -> s.get("loop").get("ticks").asLong() >= 1);
        double seconds = (System.nanoTime() - started) / 1e9;
        System.out.printf(
            Locale.ROOT,
            "service with -Xmx64m: first tick after %.2f s, resident %d MB%n",
            seconds,
            residentKb(service.pid()) / 1024);
      }
    }
  }

  private static long residentKb(long pid) throws IOException {
    for (String line : Files.readAllLines(Path.of("/proc/" + pid + "/status"))) {
      if (line.startsWith("VmRSS:")) {
        return Long.parseLong(line.replaceAll("\\D", ""));
      }
    }
    throw new IllegalStateException("no resident size of process " + pid);
  }
}
