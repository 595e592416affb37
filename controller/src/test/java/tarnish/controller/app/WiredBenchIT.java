package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.control.Request;
import tarnish.controller.files.RecipeReader;
import tarnish.controller.files.RigFile;
import tarnish.controller.instruments.PretendedBench;
import tarnish.controller.instruments.SerialPair;
import tarnish.controller.instruments.Wire;
import tarnish.controller.instruments.Wire.Trouble;
import tarnish.controller.journal.SqliteJournal;
import tarnish.controller.service.BenchAsk;
import tarnish.controller.service.BenchView;
import tarnish.controller.service.Status;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.Switch;
import tarnish.sim.SimulatedRig;

/**
 * The service on the bench in equations through real drivers: a board with a line protocol and a
 * Modbus unit, each on a pseudo-terminal. Runs in real time.
 */
class WiredBenchIT {
  private static final String ME = "test";
  private static final String GAUGE = "vessel pressure";
  private static final long PATIENCE_MILLIS = 180_000;

  /**
   * Each takes half a minute; the build tries one of each kind, {@code -Dlines=all} all of them.
   */
  private static final boolean ALL = "all".equals(System.getProperty("lines"));

  private static final List<Trouble> BOARD_TROUBLES =
      ALL
          ? List.of(Trouble.SILENT, Trouble.GARBAGE, Trouble.HALF, Trouble.SLOW)
          : List.of(Trouble.GARBAGE);
  private static final List<Trouble> UNIT_TROUBLES =
      ALL
          ? List.of(Trouble.SILENT, Trouble.WRONG_END, Trouble.GARBAGE, Trouble.HALF, Trouble.SLOW)
          : List.of(Trouble.SILENT, Trouble.SLOW);

  @TempDir Path folder;

  private String rigText;
  private RigFile file;
  private SerialPair boardLine;
  private SerialPair unitLine;
  private PretendedBench plant;
  private Wire board;
  private Wire unit;
  private SqliteJournal journal;
  private LiveBench bench;

  @BeforeEach
  void wireUp() throws IOException, InterruptedException {
    boardLine = SerialPair.open(folder, "board");
    unitLine = SerialPair.open(folder, "unit");
    rigText =
        Demo.text("instruments.rig.yaml")
            .replace("/tmp/tarnish-board", boardLine.near().toString())
            .replace("/tmp/tarnish-unit", unitLine.near().toString());
    file = LoadedFiles.rigFile("instruments.rig.yaml", rigText);
    Recipe recipe =
        LoadedFiles.value(RecipeReader.read("short", recipe(), Optional.of(file.rig())));
    SimulatedRig simulated = new SimulatedRig(file.rig(), recipe, 1);
    simulated.watchHeartbeat(2);
    plant = new PretendedBench(file.rig(), simulated, System::nanoTime);
    plugIn();
    open();
    reset();
  }

  private void open() throws InterruptedException {
    journal = SqliteJournal.open(folder.resolve("data"));
    bench =
        LiveBench.start(
            new LiveBench.Settings(
                file.rig(),
                rigText,
                Map.of(),
                1,
                1,
                false,
                ServeCommand.maker(file, 1, folder.resolve("data"))),
            journal,
            "test");
    await("every reading good", this::allGood);
  }

  private void plugIn() throws IOException {
    board = Wire.toBoard(boardLine.far(), plant);
    unit = Wire.toUnit(unitLine.far(), plant);
  }

  private static String recipe() {
    return Demo.text("instruments-short.recipe.yaml");
  }

  @AfterEach
  void unplug() {
    if (bench != null) {
      bench.close();
      assertEquals(0, plant.outputs().switches(), "something is still on after the end");
      journal.close();
    }
    if (boardLine != null) {
      boardLine.close();
    }
    if (unitLine != null) {
      unitLine.close();
    }
  }

  @Test
  void aShortBatchRunsThroughTheRealDriversToItsEndAndReplays() throws Exception {
    start(recipe());
    await("complete", () -> is("complete"));

    assertEquals("", Replay.of(journal, 1).firstDifference());
    System.out.println("Ticks of the whole batch:\n" + jitter(1));
  }

  @Test
  void everyTroubleOfALineIsAnAlarmAndASafeHoldAndIsOverWhenItIsOver() throws Exception {
    start(recipe().replace("for: 10 s", "for: 2 h"));
    awaitHeating();

    int[] from = {ticks(1)};
    List<String> table = new ArrayList<>();
    for (Trouble trouble : BOARD_TROUBLES) {
      hold(
          "board " + trouble, () -> board.set(trouble), () -> board.set(Trouble.NONE), table, from);
    }
    for (Trouble trouble : UNIT_TROUBLES) {
      hold("unit " + trouble, () -> unit.set(trouble), () -> unit.set(Trouble.NONE), table, from);
    }
    hold("unit cable pulled", () -> unitLine.pull(), () -> putBack(unitLine, false), table, from);
    hold("board cable pulled", () -> boardLine.pull(), () -> putBack(boardLine, true), table, from);

    bench.submit(new Request.Abort(ME));
    await("aborted", () -> is("aborted"));
    assertEquals("", Replay.of(journal, 1).firstDifference());
    System.out.println(
        "trouble                  | held after | back after | tick interval ms: mean  worst\n"
            + String.join("\n", table));
    System.out.println("All ticks:\n" + jitter(1));
    long late =
        journal.events(1, 0, 100_000).stream()
            .filter(e -> e.kind().contains("alarm") && e.sentence().contains("came too late"))
            .count();
    System.out.println(
        "Longest work of one tick: %.1f ms; ticks over the period: %d; alarms of a late loop: %d"
            .formatted(
                bench.status().loop().worstMillis(), bench.status().loop().overruns(), late));
  }

  /** The two points are 20 mbar apart, by a pulse of inert gas; the gauge is told 5 mbar more. */
  @Test
  void theBenchIsCheckedAndAGaugeCalibratedThroughTheRealDrivers() throws Exception {
    bench.submit(new Request.CheckIn(ME, 4));
    await("checked in", () -> bench.status().presence().attended());
    awaitWindow();
    BenchView view = bench.benchView();
    for (BenchView.ChannelLine line : view.channels()) {
      assertFalse(line.raw().isEmpty(), line.name() + " without its raw value");
      assertTrue(line.latency().endsWith(" ms"), line.toString());
      assertTrue(line.quality().startsWith("100 % good"), line.toString());
    }
    assertEquals(2, view.devices().size(), view.devices().toString());
    assertTrue(view.devices().get(0).contains(": answering, answers in "), view.devices().get(0));
    double low = pressurePa();
    askBench(new BenchAsk.Mark(ME, GAUGE, false, words(low + 500)));
    pulse("pulse inert gas valve");
    awaitWindow();
    double high = pressurePa();
    askBench(new BenchAsk.Mark(ME, GAUGE, true, words(high + 500)));
    assertEquals("", bench.benchView().draft().problem());
    askBench(new BenchAsk.Accept(ME));
    await("the reading corrected", () -> Math.abs(pressurePa() - high - 500) < 100);
    bench.close();
    journal.close();
    open();
    await("the reading still corrected", () -> Math.abs(pressurePa() - high - 500) < 100);
    assertTrue(
        journal.benchNotes(100).stream()
            .anyMatch(note -> note.sentence().startsWith("Calibrated the vessel pressure")));
  }

  private void pulse(String trial) throws InterruptedException {
    askBench(new BenchAsk.Begin(ME, trial));
    assertEquals(0, plant.outputs().with(Switch.HEARTBEAT, false).switches());
    askBench(new BenchAsk.Confirm(ME, bench.benchView().trial().question()));
    await("the trial's end", () -> bench.benchView().trial().ended());
    String found = bench.benchView().trial().findings().toString();
    assertTrue(found.contains("The vessel pressure rose by"), found);
  }

  private void askBench(BenchAsk ask) throws InterruptedException {
    long before = bench.benchView().asks();
    assertTrue(bench.askBench(ask));
    await("an answer to " + ask, () -> bench.benchView().asks() > before);
  }

  /** A look of ten seconds. */
  private void awaitWindow() throws InterruptedException {
    long until = bench.status().loop().ticks() + 48;
    await("ten seconds of readings", () -> bench.status().loop().ticks() > until);
  }

  private static String words(double pressurePa) {
    return String.format(java.util.Locale.ROOT, "%.1f mbar ± 0.5 mbar", pressurePa / 100);
  }

  private double pressurePa() {
    return bench.status().readings().stream()
        .filter(line -> line.channel().equals(GAUGE) && line.value() != null)
        .mapToDouble(Status.ReadingLine::value)
        .findFirst()
        .orElse(Double.NaN);
  }

  /** A machine busy with other things may spoil an answer; a person would restart then, too. */
  private void awaitHeating() throws InterruptedException {
    await(
        "heating",
        () -> {
          if (is("held")) {
            resetOnce();
            bench.submit(new Request.Restart(ME));
          }
          return is("running") && (plant.outputs().isOn(Switch.HEATER) || stepIsSoak());
        });
  }

  private void resetOnce() {
    bench.submit(new Request.CheckIn(ME, 8));
    for (Status.AlarmLine alarm : bench.status().alarms()) {
      bench.submit(new Request.Acknowledge(ME, alarm.id()));
      bench.submit(new Request.Reset(ME, alarm.id(), "test"));
    }
  }

  private interface Act {
    void run() throws Exception;
  }

  private void putBack(SerialPair line, boolean itIsTheBoard) throws Exception {
    line.plugIn();
    if (itIsTheBoard) {
      board = Wire.toBoard(line.far(), plant);
    } else {
      unit = Wire.toUnit(line.far(), plant);
    }
  }

  private void hold(String name, Act spoil, Act mend, List<String> table, int[] from)
      throws Exception {
    long began = System.nanoTime();
    spoil.run();
    await(name + ": held", () -> is("held"));
    double heldS = (System.nanoTime() - began) / 1e9;
    assertFalse(bench.status().alarms().isEmpty(), name + ": no alarm");
    await(
        name + ": heater and oxygen off",
        () -> !plant.outputs().isOn(Switch.HEATER) && !plant.outputs().isOn(Switch.OXYGEN));
    began = System.nanoTime();
    mend.run();
    await(name + ": every reading good again", this::allGood);
    reset();
    bench.submit(new Request.Restart(ME));
    await(name + ": running again", () -> is("running"));
    double backS = (System.nanoTime() - began) / 1e9;
    Jitter jitter = Jitter.of(journal, 1, from[0]);
    from[0] += jitter.count();
    table.add(
        "%-24s | %7.1f s  | %7.1f s  | %20.1f %6d"
            .formatted(name, heldS, backS, jitter.mean(), jitter.worst()));
  }

  private String jitter(int batch) {
    return Jitter.of(journal, batch, 0).toString();
  }

  private int ticks(int batch) {
    return Jitter.of(journal, batch, 0).count();
  }

  private void start(String text) throws InterruptedException {
    assertEquals(Optional.empty(), bench.startBatch(text, ME));
    await("running", () -> is("running"));
    bench.submit(new Request.CheckIn(ME, 8));
  }

  private void reset() throws InterruptedException {
    await(
        "alarms reset",
        () -> {
          resetOnce();
          return bench.status().alarms().isEmpty();
        });
  }

  private boolean stepIsSoak() {
    return bench.status().sentence().toLowerCase(java.util.Locale.ROOT).contains("soak");
  }

  /** The last events of the batch, if there is one. */
  private String told() {
    return journal.batches().isEmpty()
        ? ""
        : journal.events(1, -1, 20).stream()
            .map(line -> "\n" + line.sentence())
            .toList()
            .toString();
  }

  private boolean is(String state) {
    return bench.status().state().equals(state);
  }

  private boolean allGood() {
    return bench.status().readings().stream().allMatch(line -> line.problem().isEmpty());
  }

  private void await(String what, BooleanSupplier condition) throws InterruptedException {
    long end = System.nanoTime() + PATIENCE_MILLIS * 1_000_000;
    while (!condition.getAsBoolean()) {
      assertTrue(
          System.nanoTime() < end,
          () ->
              "waited in vain for: "
                  + what
                  + "; "
                  + bench.status().state()
                  + ", "
                  + bench.status().sentence()
                  + " "
                  + bench.status().alarms()
                  + " "
                  + bench.status().readings()
                  + told());
      Thread.sleep(100);
    }
  }
}
