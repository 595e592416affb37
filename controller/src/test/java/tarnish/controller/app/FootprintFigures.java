package tarnish.controller.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * Prints start, resident memory and processor time of the service over a minute at 4 ticks a
 * second, as it is started by hand and as the Debian package starts it, beside a bare
 * Javalin-plus-SQLite process, all in one run, and how evenly it ticks under page load. Run by
 * {@code .ci/figures}; the machine's load is printed, because every figure but memory hangs on it.
 */
public final class FootprintFigures {
  private static final String JAR = "target/tarnish.jar";
  private static final List<String> BY_HAND = List.of("-Xmx64m");

  private static final double TICKS_PER_S = 100;

  private FootprintFigures() {}

  /** The arguments: for how long to watch each process, and the ticks under page load, in s. */
  public static void main(String[] arguments) throws Exception {
    int watchS = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 60;
    int ticksS = arguments.length > 1 ? Integer.parseInt(arguments[1]) : watchS;
    Path folder = Files.createTempDirectory("tarnish-footprint");
    List<String> bare = List.of("-cp", "target/test-classes:" + JAR, BareService.class.getName());
    List<String> service = List.of("-jar", JAR);
    System.out.println("load before: " + Files.readString(Path.of("/proc/loadavg")).strip());
    System.out.printf(
        "%-46s %10s %10s %10s %9s %9s%n",
        "process", "tick, s", "CPU to it", "answer, s", "MB", "CPU, %");
    row("bare Javalin and SQLite, -Xmx64m", BY_HAND, bare, List.of(), watchS);
    row("the service, -Xmx64m", BY_HAND, service, serve(folder.resolve("a")), watchS);
    List<String> bareArchive = Packaged.archive(folder.resolve("bare.jsa"), bare, "8");
    row("bare, with archive, C1 and serial GC", bareArchive, bare, List.of(), watchS);
    List<String> serviceArchive = Packaged.options(folder);
    String packaged = "the service as packaged (archive, C1, serial)";
    row(packaged, serviceArchive, service, serve(folder.resolve("b")), watchS);
    row(packaged, serviceArchive, service, serve(folder.resolve("c")), watchS);
    System.out.println("as the machine is:");
    System.out.println(LoadedTicks.measure(folder.resolve("as-is"), serviceArchive, ticksS));
    try (AwakeProcessors awake = AwakeProcessors.forSeconds(ticksS + 120)) {
      System.out.println(awake + " kept from resting:");
      System.out.println(LoadedTicks.measure(folder.resolve("awake"), serviceArchive, ticksS));
    }
    System.out.println("load after: " + Files.readString(Path.of("/proc/loadavg")).strip());
  }

  private static List<String> serve(Path data) {
    return List.of("serve", "--rig", Demo.RIG.toString(), "--data", data.toString(), "--port", "0");
  }

  private static void row(
      String name, List<String> options, List<String> program, List<String> arguments, int watchS)
      throws Exception {
    List<String> command = new ArrayList<>(Packaged.javaFirst());
    command.addAll(options);
    command.addAll(program);
    command.addAll(arguments);
    long started = System.nanoTime();
    try (ServedProcess process = ServedProcess.launch(command)) {
      process.waitFor("the first tick", s -> s.get("loop").get("ticks").asLong() >= 1);
      double answerS = (System.nanoTime() - started) / 1e9;
      double startProcessorS = processorS(process.pid());
      // The start itself is not the steady load.
      Thread.sleep(5_000);
      double before = processorS(process.pid());
      long from = System.nanoTime();
      Thread.sleep(watchS * 1000L);
      double share = (processorS(process.pid()) - before) / ((System.nanoTime() - from) / 1e9);
      System.out.printf(
          Locale.ROOT,
          "%-46s %10.2f %10.2f %10.2f %9d %9.2f%n",
          name,
          process.firstTickMillis() / 1e3,
          startProcessorS,
          answerS,
          residentKb(process.pid()) / 1024,
          100 * share);
    }
  }

  /** User and system time: fields 14 and 15 of /proc/PID/stat, in ticks of 10 ms. */
  private static double processorS(long pid) throws IOException {
    ProcStat stat = ProcStat.read(Path.of("/proc/" + pid + "/stat"));
    return (stat.number(14) + stat.number(15)) / TICKS_PER_S;
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
