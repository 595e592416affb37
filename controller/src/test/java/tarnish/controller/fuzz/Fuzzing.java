package tarnish.controller.fuzz;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Coverage-guided fuzzing of every parser, one process after another, and a table of it: run by
 * {@code .ci/fuzz}. A find ends its target and leaves its input in {@code target/fuzz}.
 */
public final class Fuzzing {
  private static final Path FOLDER = Path.of("target/fuzz");
  private static final Pattern DONE = Pattern.compile("Done (\\d+) runs? in \\d+ second");
  private static final Pattern AT =
      Pattern.compile("^#(\\d+)\\s.*cov: (\\d+) ft: (\\d+) corp: (\\d+)");

  /** A key with its colon, a quantity, or a word. */
  private static final Pattern WORD =
      Pattern.compile("[a-z][a-z ]*: ?|[0-9][0-9.]* [a-zA-Z]+(/[a-z]+)?|[A-Za-z0-9]{2,}");

  private Fuzzing() {}

  /**
   * Executions in all; optionally the only target, or {@code all}; optionally the minutes after
   * which a target ends even if it has not had its share.
   */
  public static void main(String[] arguments) throws IOException, InterruptedException {
    long all = Long.parseLong(arguments[0]);
    System.out.printf(
        "%-9s %12s %8s %9s %8s %8s %7s%n",
        "parser", "executions", "time, s", "per s", "edges", "corpus", "finds");
    String only = arguments.length > 1 ? arguments[1] : "all";
    long minutes = arguments.length > 2 ? Long.parseLong(arguments[2]) : 0;
    long executions = 0;
    int finds = 0;
    for (Target target : Target.values()) {
      if (!only.equals("all") && !only.equals(target.words())) {
        continue;
      }
      Row row = run(target, all * target.share / 1000, minutes);
      executions += row.executions;
      finds += row.finds;
    }
    System.out.printf("%-9s %12d %44d%n", "in all", executions, finds);
    System.exit(finds == 0 ? 0 : 1);
  }

  private static final class Row {
    long executions;
    long seconds;
    long edges;
    long corpus;
    int finds;
  }

  private static Row run(Target target, long executions, long minutes)
      throws IOException, InterruptedException {
    Path corpus = Files.createDirectories(FOLDER.resolve(target.words()));
    int number = 0;
    for (byte[] seed : target.seeds()) {
      Files.write(corpus.resolve("seed-" + number++), seed);
    }
    List<String> command = command(target, executions, minutes);
    if (target.readsFiles()) {
      command.addAll(forFiles(target));
    }
    command.add(corpus.toString());
    long started = System.nanoTime();
    Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
    Row row = new Row();
    Path log = FOLDER.resolve(target.words() + ".log");
    try (BufferedReader lines = process.inputReader();
        var to = Files.newBufferedWriter(log)) {
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        to.write(line + "\n");
        read(line, row);
      }
    }
    process.waitFor();
    row.seconds = (System.nanoTime() - started) / 1_000_000_000;
    System.out.printf(
        Locale.ROOT,
        "%-9s %12d %8d %9.0f %8d %8d %7d%n",
        target.words(),
        row.executions,
        row.seconds,
        row.executions / (double) StrictMath.max(1, row.seconds),
        row.edges,
        row.corpus,
        row.finds);
    return row;
  }

  private static List<String> command(Target target, long executions, long minutes) {
    String java = Path.of(System.getProperty("java.home"), "bin", "java").toString();
    return new ArrayList<>(
        List.of(
            java,
            "-Xmx1g",
            "-Xss1m",
            "-cp",
            System.getProperty("java.class.path"),
            "com.code_intelligence.jazzer.Jazzer",
            "--target_class=" + target.type.getName(),
            "--instrumentation_includes=tarnish.**:org.snakeyaml.**:com.digitalpetri.**",
            "--reproducer_path=" + FOLDER,
            "-artifact_prefix=" + FOLDER + "/" + target.words() + "-",
            "-runs=" + executions,
            "-max_len=8192",
            "-seed=20261125",
            "-timeout=30",
            // Slower than that is a find; less is the machine's load or a class being instrumented.
            "-report_slow_units=30",
            "-rss_limit_mb=4096",
            "-max_total_time=" + minutes * 60));
  }

  /**
   * Telling the fuzzer of every comparison of two texts makes a reader of files ten times slower
   * (most of the time goes into the telling); a list of the words that such files are made of does
   * as well.
   */
  private static List<String> forFiles(Target target) throws IOException {
    Path words = FOLDER.resolve(target.words() + ".words");
    SortedSet<String> known = new TreeSet<>();
    for (byte[] seed : target.seeds()) {
      Matcher word = WORD.matcher(new String(seed, StandardCharsets.UTF_8));
      while (word.find()) {
        known.add("\"" + word.group() + "\"");
      }
    }
    Files.write(words, known);
    return List.of("--trace=cov:div", "--custom_hook_includes=tarnish.**", "-dict=" + words);
  }

  private static void read(String line, Row row) {
    Matcher at = AT.matcher(line);
    if (at.find()) {
      row.executions = Long.parseLong(at.group(1));
      row.edges = Long.parseLong(at.group(2));
      row.corpus = Long.parseLong(at.group(4));
    }
    Matcher done = DONE.matcher(line);
    if (done.find()) {
      row.executions = Long.parseLong(done.group(1));
    }
    if (line.contains("Test unit written to")) {
      row.finds++;
    }
  }
}
