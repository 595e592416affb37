package tarnish.controller.service;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import tarnish.controller.journal.Journal;
import tarnish.controller.journal.Journal.BatchHead;
import tarnish.controller.journal.Journal.BatchLine;
import tarnish.controller.journal.Journal.EventLine;

/** What the page may look at. Nothing here changes anything. */
final class Reads {
  /** More than three years: longer than any batch. */
  private static final double SECONDS_MAX = 1e8;

  private static final int COLUMNS_MAX = 2000;
  private static final int COLUMNS_DEFAULT = 600;
  private static final int EVENTS_MAX = 500;
  private static final long NEWEST = -1;

  private final Bench bench;
  private final RecordRoutes records;

  Reads(Bench bench) {
    this.bench = bench;
    records = new RecordRoutes(bench, this::line);
  }

  void addTo(RoutesConfig routes) {
    routes.get("/api/status", this::status);
    routes.get("/api/acts", context -> answer(context, Map.of("acts", acts())));
    routes.get("/metrics", this::metrics);
    routes.get("/api/record", context -> answer(context, RecordView.of(bench.journal())));
    routes.get("/api/batches", context -> answer(context, Map.of("batches", batches())));
    routes.get("/api/batches/{number}", this::batch);
    routes.get("/api/batches/{number}/events", this::events);
    routes.get("/api/batches/{number}/ledger", this::ledger);
    routes.get("/api/batches/{number}/history", this::history);
    routes.get(
        "/api/batches/{number}/expected",
        c -> answer(c, Map.of("expected", bench.expected(line(c).batch()))));
    records.addTo(routes);
  }

  /** The count is read first: a picture that is newer than its count does no harm. */
  private void status(Context context) {
    context.header(Writes.STATE_HEADER, String.valueOf(bench.changes().version()));
    answer(context, bench.status());
  }

  private List<Journal.Act> acts() {
    return bench.journal().acts(0, EVENTS_MAX);
  }

  private void metrics(Context context) {
    context.contentType(OpenMetricsText.CONTENT_TYPE).result(Metrics.of(bench));
  }

  private List<BatchLine> batches() {
    return bench.journal().batches();
  }

  private void batch(Context context) {
    BatchLine line = line(context);
    BatchHead head = bench.journal().head(line.batch());
    answer(context, new BatchPage(line, head, events(line.batch(), NEWEST)));
  }

  private void events(Context context) {
    BatchLine line = line(context);
    String from = context.queryParam("from");
    long fromMillis = from == null ? NEWEST : StrictMath.round(seconds("from", from) * 1e3);
    answer(context, Map.of("events", events(line.batch(), fromMillis)));
  }

  private void ledger(Context context) {
    List<EventLine> entries =
        bench
            .journal()
            .entries(line(context).batch(), List.of("LedgerEntered", "Weighed", "Answered"));
    answer(context, Map.of("entries", entries.stream().map(EventView::of).toList()));
  }

  private List<EventView> events(int batch, long fromMillis) {
    return bench.journal().events(batch, fromMillis, EVENTS_MAX).stream()
        .map(EventView::of)
        .toList();
  }

  private void history(Context context) {
    BatchLine line = line(context);
    double from = seconds("from", orElse(context.queryParam("from"), "0"));
    String last = String.valueOf(line.lastMillis() / 1e3);
    double to = seconds("to", orElse(context.queryParam("to"), last));
    if (!(to > from)) {
      throw Refused.malformed("'to' must be greater than 'from' (both in seconds).");
    }
    int columns =
        wholeNumber(
            "columns",
            orElse(context.queryParam("columns"), String.valueOf(COLUMNS_DEFAULT)),
            COLUMNS_MAX);
    Journal.History history =
        bench
            .journal()
            .history(
                line.batch(), StrictMath.round(from * 1e3), StrictMath.round(to * 1e3), columns);
    String channels = orElse(context.queryParam("channels"), "");
    answer(context, Drawing.of(only(channels, history), bench.setpoints(line.batch())));
  }

  /** What nobody draws need not be sent; names that are not there are passed over. */
  private static Journal.History only(String channels, Journal.History all) {
    if (channels.isEmpty()) {
      return all;
    }
    List<String> wanted = List.of(channels.split(","));
    return new Journal.History(
        all.fromMillis(),
        all.toMillis(),
        all.startMillis(),
        all.series().stream().filter(each -> wanted.contains(words(each))).toList(),
        all.switchesOn(),
        all.heaterPerMille());
  }

  private static String words(Journal.Series series) {
    return series.channel().toLowerCase(Locale.ROOT).replace('_', ' ');
  }

  private BatchLine line(Context context) {
    int number = wholeNumber("the batch number", context.pathParam("number"), Integer.MAX_VALUE);
    return batches().stream()
        .filter(each -> each.batch() == number)
        .findFirst()
        .orElseThrow(() -> Refused.unknown("There is no batch " + number + " in the journal."));
  }

  static String orElse(String given, String otherwise) {
    return given == null ? otherwise : given;
  }

  static double seconds(String name, String text) {
    double value = text.matches("[0-9]{1,9}([.][0-9]{1,6})?") ? Double.parseDouble(text) : -1;
    if (!(value >= 0 && value <= SECONDS_MAX)) {
      throw Refused.malformed(
          "'" + name + "' must be a number of seconds between 0 and 100 000 000, such as 12.5.");
    }
    return value;
  }

  private static int wholeNumber(String name, String text, int greatest) {
    long value = text.matches("[0-9]{1,10}") ? Long.parseLong(text) : 0;
    if (value < 1 || value > greatest) {
      throw Refused.malformed(name + " must be a whole number between 1 and " + greatest + ".");
    }
    return (int) value;
  }

  static void answer(Context context, Object value) {
    context.contentType("application/json").result(Json.write(value));
  }

  /** One event with its time in s since the batch began. */
  record EventView(double seconds, String wallTime, String kind, String sentence) {
    static EventView of(EventLine line) {
      return new EventView(line.millis() / 1e3, line.wallTime(), line.kind(), line.sentence());
    }
  }

  /** Everything about one batch but its curves. */
  record BatchPage(BatchLine line, BatchHead head, List<EventView> events) {}
}
