package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TimeZone;
import java.util.function.Predicate;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tarnish.controller.control.Control;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Report;
import tarnish.controller.control.Request;
import tarnish.controller.control.Turn;
import tarnish.controller.files.RecipeReader;
import tarnish.controller.journal.Journal.BatchHead;
import tarnish.controller.journal.Journal.EventLine;
import tarnish.controller.journal.Pace;
import tarnish.controller.journal.SqliteJournal;
import tarnish.controller.service.Status;
import tarnish.controller.service.WebService;

/** The time of day is changed under a batch that runs in the real service. */
@Timeout(600)
class ClockStepsTest {
  private static final String RECIPE =
      """
      recipe: Two short soaks under inert gas
      invented: yes
      charge: {formula: Cu, mass: 4.000 g ± 1 mg}
      series: [Cu, Cu2O, CuO]
      target: CuO
      activation energy: 80 kJ/mol
      vessel: quartz tube A
      oxygen source: bottle
      steps:
        - backfill: {with: inert, to: 900 mbar, cycles: 3, evacuate to: 5 mbar}
        - evacuate: {to: 1 mbar}
        - leak test: {settle: 2 min, watch: 10 min, rise at most: 0.05 mbar/min}
        - dose: {pulse: 15 mbar, to: 60 mbar, at most: 50 pulses, heat settled: 0.5 K,
                 uptake slowed: 0.3 mbar/min, wait: 60 s to 30 min}
        - ramp: {to: 100 °C, rate: 3 K/min}
        - soak: {at: 100 °C, for: 2 h, band: 3 K}
        - cool: {to: 60 °C}
      """;

  private final LoadedFiles files = Demo.copper();
  private final SteppedClock clock = new SteppedClock();
  private final TimeZone zone = TimeZone.getDefault();

  @TempDir Path data;

  /** Goes on by the machine's clock from wherever it is set to. */
  private static final class SteppedClock extends Clock {
    private volatile Duration ahead = Duration.ZERO;

    void step(Duration by) {
      ahead = ahead.plus(by);
    }

    void set(Instant to) {
      ahead = Duration.between(Instant.now(), to);
    }

    @Override
    public ZoneId getZone() {
      return ZoneOffset.UTC;
    }

    @Override
    public Clock withZone(ZoneId other) {
      return this;
    }

    @Override
    public Instant instant() {
      return Instant.now().plus(ahead);
    }
  }

  @AfterEach
  void putTheZoneBack() {
    TimeZone.setDefault(zone);
  }

  private LiveBench.Settings settings(double speed) {
    return new LiveBench.Settings(files.rig(), files.rigText(), Map.of(), 7, speed, false);
  }

  @Test
  void anHourForwardsAndAnHourBackTouchNoSoakNoLedgerAndNoOrderOfTheRecord() throws Exception {
    try (SqliteJournal journal = SqliteJournal.open(data, Pace.FAST);
        LiveBench bench = LiveBench.start(settings(5000), journal, "test", clock);
        WebService web = WebService.start(bench, "127.0.0.1", 0)) {
      assertEquals(Optional.empty(), bench.startBatch(RECIPE, BenchKeeper.NAME));
      BenchKeeper keeper = new BenchKeeper(bench);
      await(bench, keeper, status -> soaked(status) > 600);
      double before = soaked(bench.status());
      clock.step(Duration.ofHours(1));
      await(bench, keeper, status -> steps(journal).size() == 1);
      await(bench, keeper, status -> soaked(status) > before + 1200);
      clock.step(Duration.ofHours(-1));
      await(bench, keeper, status -> steps(journal).size() == 2);
      await(bench, keeper, status -> status.state().equals("complete"));
      JsonNode page = new ObjectMapper().readTree(get(web.port(), "/api/status"));
      assertEquals(
          wall(journal.head(1), page.get("batchMillis").asLong()),
          OffsetDateTime.parse(page.get("wallTime").asText()));
      String events = get(web.port(), "/api/batches/1/events");
      assertTrue(events.contains("set forwards by 3600 s; the times of this batch go on"), events);
      assertTrue(events.contains("set back by 3600 s; the times of this batch go on"), events);
    }
    try (SqliteJournal journal = SqliteJournal.open(data)) {
      assertEquals("", Replay.of(journal, 1).firstDifference());
      assertTimesGoOn(journal);
      assertAllElseIsAsWithoutTheSteps(journal);
      for (EventLine raised : steps(journal)) {
        assertTrue(raised.sentence().contains("no soak and no rate is touched"));
      }
      assertEquals(List.of(), heldStates(journal));
    }
    Ran record = Ran.run("record", 1, "--data", data, "--to", data);
    assertEquals(0, record.status(), record.errors());
    assertTrue(Files.readString(data.resolve("batch-1.html")).contains("set back by 3600 s"));
  }

  /** Both changes of the year 2026: an hour that comes twice, and one that is left out. */
  @ParameterizedTest
  @ValueSource(strings = {"2026-10-25T01:00:00Z", "2026-03-29T01:00:00Z"})
  void nothingHappensWhenSummerTimeBeginsOrEnds(String change) throws Exception {
    TimeZone.setDefault(TimeZone.getTimeZone("Europe/Berlin"));
    Instant moment = Instant.parse(change);
    clock.set(moment.minusMillis(1500));
    try (SqliteJournal journal = SqliteJournal.open(data, Pace.FAST);
        LiveBench bench = LiveBench.start(settings(5000), journal, "test", clock)) {
      assertEquals(Optional.empty(), bench.startBatch(RECIPE, BenchKeeper.NAME));
      BenchKeeper keeper = new BenchKeeper(bench);
      await(
          bench,
          keeper,
          status -> clock.instant().isAfter(moment) && status.state().equals("complete"));
      assertEquals("UTC", zoneOf(bench.status().wallTime()));
    }
    try (SqliteJournal journal = SqliteJournal.open(data)) {
      assertEquals("", Replay.of(journal, 1).firstDifference());
      assertTimesGoOn(journal);
      assertEquals(List.of(), steps(journal));
      assertEquals(List.of(), heldStates(journal));
      OffsetDateTime startedAt = OffsetDateTime.parse(journal.head(1).startedAt());
      assertTrue(startedAt.toInstant().isBefore(moment), startedAt::toString);
      double soakS = endOf(journal, false).soaks().get(0).inBandS();
      assertEquals(2 * 3600, soakS, 1);
    }
  }

  /** Taken for 30 min, an outage of 90 min might let a batch go on that must not. */
  @ParameterizedTest
  @ValueSource(ints = {-1, 1})
  void anOutageAfterAStepIsAsLongAsItWas(int hours) throws Exception {
    try (SqliteJournal journal = SqliteJournal.open(data);
        LiveBench bench = LiveBench.start(settings(1), journal, "test", clock)) {
      assertEquals(Optional.empty(), bench.startBatch(RECIPE, BenchKeeper.NAME));
      await(bench, null, status -> status.batchMillis() > 500);
      clock.step(Duration.ofHours(hours));
      await(bench, null, status -> steps(journal).size() == 1);
    }
    clock.step(Duration.ofMinutes(90));
    try (SqliteJournal journal = SqliteJournal.open(data);
        LiveBench bench = LiveBench.start(settings(1), journal, "test", clock)) {
      await(bench, null, status -> status.state().equals("held"));
      String words = journal.entries(1, List.of("Outage")).get(0).sentence();
      assertTrue(words.contains("Nobody was in control for 1 h 30 min"), words);
    }
  }

  /** Every event is named by the start and the time that is measured, in UTC. */
  private static void assertTimesGoOn(SqliteJournal journal) {
    BatchHead head = journal.head(1);
    OffsetDateTime[] last = {OffsetDateTime.MIN};
    for (EventLine line : journal.events(1, 0, Integer.MAX_VALUE)) {
      OffsetDateTime named = OffsetDateTime.parse(line.wallTime());
      assertEquals(wall(head, line.millis()), named);
      assertEquals(ZoneOffset.UTC, named.getOffset());
      assertTrue(!named.isBefore(last[0]), line::toString);
      last[0] = named;
    }
    long[] millis = {-1};
    journal.playBack(
        1,
        tick -> {
          assertTrue(tick.millis() > millis[0]);
          millis[0] = tick.millis();
        });
  }

  /** The same readings without a word of the clock give the same outputs, books and events. */
  private void assertAllElseIsAsWithoutTheSteps(SqliteJournal journal) {
    Report with = endOf(journal, true);
    Report without = endOf(journal, false);
    assertEquals(without.soaks(), with.soaks());
    assertEquals(2 * 3600, with.soaks().get(0).inBandS(), 1);
    assertEquals(without.uptakeMol(), with.uptakeMol());
    assertEquals(without.oxygenPerUnit(), with.oxygenPerUnit());
    assertEquals(without.conversion(), with.conversion());
  }

  /** Where the books stand in the end; every output on the way must be as recorded. */
  private Report endOf(SqliteJournal journal, boolean told) {
    Plan plan =
        Plan.of(
            LoadedFiles.value(RecipeReader.read("recipe", RECIPE, Optional.of(files.rig()))),
            files.rig());
    ControlState[] state = {ControlState.initial(plan)};
    journal.playBack(
        1,
        tick -> {
          List<Request> requests = new ArrayList<>(tick.requests());
          requests.removeIf(request -> !told && request instanceof Request.ShellTrouble);
          Turn turn = Control.tick(plan, state[0], tick.readings(), requests, tick.millis());
          assertEquals(tick.outputs(), turn.outputs(), () -> "at " + tick.millis() + " ms");
          state[0] = turn.state();
        });
    return new Report(plan, state[0]);
  }

  private static OffsetDateTime wall(BatchHead head, long millis) {
    return OffsetDateTime.parse(head.startedAt()).plus(millis, ChronoUnit.MILLIS);
  }

  private static String zoneOf(String wallTime) {
    return OffsetDateTime.parse(wallTime).getOffset().equals(ZoneOffset.UTC) ? "UTC" : wallTime;
  }

  private static List<EventLine> steps(SqliteJournal journal) {
    journal.flush();
    return journal.entries(1, List.of("AlarmRaised")).stream()
        .filter(line -> line.sentence().contains("time of day"))
        .toList();
  }

  private static List<String> heldStates(SqliteJournal journal) {
    return journal.entries(1, List.of("StateChanged")).stream()
        .map(EventLine::sentence)
        .filter(words -> words.contains("hold"))
        .toList();
  }

  private static double soaked(Status status) {
    return status.soaks().stream().mapToDouble(Status.SoakLine::inBandS).sum();
  }

  private static void await(LiveBench bench, BenchKeeper keeper, Predicate<Status> wanted)
      throws InterruptedException {
    while (!wanted.test(bench.status())) {
      if (keeper != null) {
        keeper.look();
      }
      Thread.sleep(5);
    }
  }

  private static String get(int port, String path) throws Exception {
    URI address = URI.create("http://127.0.0.1:" + port + path);
    return HttpClient.newHttpClient()
        .send(HttpRequest.newBuilder(address).build(), HttpResponse.BodyHandlers.ofString())
        .body();
  }
}
