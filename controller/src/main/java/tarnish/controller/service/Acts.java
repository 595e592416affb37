package tarnish.controller.service;

import io.javalin.http.Context;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.Set;
import tarnish.controller.access.RateLimit;
import tarnish.controller.journal.Journal.Act;

/** Writes down every act at the page: who, when, what, from where, and what became of it. */
final class Acts {
  private static final String WHAT = "tarnish.what";
  private static final String BY = "tarnish.by";
  private static final String OUTCOME = "tarnish.outcome";
  private static final Set<String> ENDED = Set.of("stopped", "aborted", "complete");
  private static final int LENGTH_MAX = 500;

  private final Bench bench;

  /** What strangers try is written down, but cannot fill the disk. */
  private final RateLimit refusals;

  Acts(Bench bench, WebSettings settings) {
    this.bench = bench;
    refusals = new RateLimit(settings.clockMillis(), 0.2, 30);
  }

  /** What the request in hand is about, in words. */
  static void say(Context context, String what) {
    context.attribute(WHAT, what);
  }

  /** Whose name it carries where nobody signs in. */
  static void by(Context context, String name) {
    context.attribute(BY, name);
  }

  /** Why it was refused. */
  static void refused(Context context, String sentence) {
    context.attribute(OUTCOME, sentence);
  }

  /** After every request that is not a mere look. */
  void record(Context context) {
    String path = context.path();
    boolean told = context.attribute(WHAT) != null;
    if (!Access.isWrite(context) || (!told && isQuiet(path))) {
      return;
    }
    Visitor visitor = Access.visitor(context);
    int answered = context.statusCode();
    boolean stranger = answered >= 400 && visitor.session().isEmpty();
    if (stranger && !refusals.take("")) {
      return;
    }
    String named = context.attribute(BY);
    String what = told ? context.attribute(WHAT) : "POST " + path;
    String why = context.attribute(OUTCOME);
    Status status = bench.status();
    boolean under = status.batch() != null && !ENDED.contains(status.state());
    bench
        .audit()
        .add(
            new Act(
                under ? status.batch() : 0,
                OffsetDateTime.now(ZoneOffset.UTC).truncatedTo(ChronoUnit.SECONDS).toString(),
                visitor.session().isPresent() || named == null ? visitor.name() : named,
                visitor.whence(),
                shortened(what),
                answered < 400
                    ? "taken"
                    : shortened("refused: " + (why == null ? answered : why))));
  }

  /** Asked again and again while somebody types, and nothing comes of it. */
  private static boolean isQuiet(String path) {
    return path.equals("/api/recipes/check") || path.equals("/api/changes/preview");
  }

  private static String shortened(String text) {
    return text.length() <= LENGTH_MAX ? text : text.substring(0, LENGTH_MAX - 1) + "…";
  }
}
