package tarnish.controller.record;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.stream.Collectors;
import java.util.stream.StreamSupport;
import tarnish.controller.control.Words;
import tarnish.controller.files.ReadResult;
import tarnish.controller.files.RecipeReader;
import tarnish.controller.journal.Journal;
import tarnish.controller.journal.Journal.BatchHead;
import tarnish.controller.journal.Journal.BatchLine;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;
import tarnish.shared.recipe.Recipe;

/**
 * Batches side by side, from what the journal keeps of each at its end: one row a figure, one
 * column a batch. Quick, because no batch is run again.
 *
 * @param batches numbers in the order asked for
 * @param rows name and a value for each batch, in words
 */
public record Comparison(List<Integer> batches, List<Row> rows) {
  /** Enough for a sheet of paper. */
  public static final int BATCHES_MAX = 8;

  private static final String NOTHING = "–";
  private static final ObjectMapper JSON = new ObjectMapper();

  /** {@code differs} says whether the values are not all the same. */
  public record Row(String name, boolean differs, List<String> values) {}

  /** What is known of one batch. */
  private record Side(BatchLine line, BatchHead head, Optional<Recipe> recipe, JsonNode summary) {}

  /**
   * @throws IllegalArgumentException in words for the person, if a batch is not there or there are
   *     too few or too many
   */
  public static Comparison of(Journal journal, List<Integer> batches) {
    if (batches.size() < 2 || batches.size() > BATCHES_MAX) {
      throw new IllegalArgumentException(
          "Between 2 and " + BATCHES_MAX + " batches can be compared, not " + batches.size() + ".");
    }
    List<BatchLine> lines = journal.batches();
    List<Side> sides =
        batches.stream()
            .map(
                number ->
                    lines.stream()
                        .filter(line -> line.batch() == number)
                        .findFirst()
                        .map(line -> side(journal, line))
                        .orElseThrow(
                            () ->
                                new IllegalArgumentException(
                                    "There is no batch " + number + " here.")))
            .toList();
    return new Comparison(List.copyOf(batches), rows(sides));
  }

  private static Side side(Journal journal, BatchLine line) {
    BatchHead head = journal.head(line.batch());
    ReadResult<Recipe> recipe =
        RecipeReader.read("recipe of batch " + line.batch(), head.recipeText(), Optional.empty());
    try {
      JsonNode summary =
          line.summaryJson().isEmpty() ? JSON.nullNode() : JSON.readTree(line.summaryJson());
      return new Side(
          line, head, recipe.isGood() ? Optional.of(recipe.value()) : Optional.empty(), summary);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("the summary of a batch cannot be read", e);
    }
  }

  private static List<Row> rows(List<Side> sides) {
    List<Row> rows = new ArrayList<>();
    add(rows, sides, "Title", side -> side.head().title());
    add(
        rows,
        sides,
        "Recipe, SHA-256",
        side -> Sha256.of(side.head().recipeText()).substring(0, 12));
    add(rows, sides, "Rig, SHA-256", side -> Sha256.of(side.head().rigText()).substring(0, 12));
    add(rows, sides, "Note", side -> side.head().note());
    add(rows, sides, "Started", side -> Clock.minuteAndZone(side.head().startedAt()));
    add(rows, sides, "Ended", side -> orNothing(side.line().endState()));
    add(rows, sides, "Charge", Comparison::charge);
    add(
        rows,
        sides,
        "Calendar time",
        side -> Words.duration(StrictMath.max(0, side.line().lastMillis()) / 1e3));
    add(rows, sides, "Oven time", said("ovenSeconds", Comparison::duration));
    add(rows, sides, "Time in band", Comparison::inBand);
    add(rows, sides, "Soaks", Comparison::soaks);
    add(
        rows,
        sides,
        "Equivalent time at top soak",
        said(
            "equivalentSecondsAtTop",
            (side, node) -> node.asDouble() > 0 ? duration(side, node) : NOTHING));
    add(
        rows,
        sides,
        "Peak sample temperature",
        said("peakTemperatureK", (side, node) -> Words.temperature(node.asDouble())));
    add(
        rows,
        sides,
        "Peak pressure",
        said("peakPressurePa", (side, node) -> Words.pressure(node.asDouble())));
    add(rows, sides, "Oxygen pulses", said("doses", (side, node) -> node.asText()));
    add(
        rows,
        sides,
        "Oxygen taken up by the gas",
        said("oxygenUptakeMol", (side, node) -> Words.amount(estimate(node))));
    add(
        rows,
        sides,
        "O per formula unit",
        said("oxygenPerFormulaUnit", (side, node) -> Words.estimate(estimate(node))));
    add(
        rows,
        sides,
        "Conversion",
        said("conversion", (side, node) -> Words.estimate(estimate(node).times(100)) + " %"));
    add(rows, sides, "Mixture", said("mixture", (side, node) -> node.asText()));
    add(rows, sides, "Alarms", said("alarms", (side, node) -> node.asText()));
    add(rows, sides, "Trips", said("trips", (side, node) -> node.asText()));
    return rows;
  }

  private static void add(
      List<Row> rows, List<Side> sides, String name, java.util.function.Function<Side, String> of) {
    List<String> values = sides.stream().map(of).toList();
    rows.add(new Row(name, values.stream().distinct().count() > 1, values));
  }

  /** A figure of the summary; a batch without an end has none. */
  private static java.util.function.Function<Side, String> said(
      String key, BiFunction<Side, JsonNode, String> words) {
    return side ->
        side.summary().hasNonNull(key) ? words.apply(side, side.summary().get(key)) : NOTHING;
  }

  private static String duration(Side side, JsonNode seconds) {
    return Words.duration(StrictMath.rint(seconds.asDouble()));
  }

  private static Estimate estimate(JsonNode node) {
    return new Estimate(node.get("value").asDouble(), node.get("standardUncertainty").asDouble());
  }

  private static String charge(Side side) {
    return side.recipe()
        .map(
            recipe ->
                recipe.charge().formula()
                    + ", "
                    + Quantities.printEstimate(
                        new Estimate(
                            recipe.charge().massKg(), recipe.charge().massStandardUncertaintyKg()),
                        Unit.GRAM))
        .orElse(NOTHING);
  }

  private static String inBand(Side side) {
    if (!side.summary().has("soaks")) {
      return NOTHING;
    }
    double sum = 0;
    for (JsonNode soak : side.summary().get("soaks")) {
      sum += soak.get("inBandSeconds").asDouble();
    }
    return Words.duration(StrictMath.rint(sum));
  }

  private static String soaks(Side side) {
    if (!side.summary().has("soaks")) {
      return NOTHING;
    }
    return StreamSupport.stream(side.summary().get("soaks").spliterator(), false)
        .map(
            soak ->
                Words.temperature(soak.get("setpointK").asDouble())
                    + " for "
                    + Words.duration(StrictMath.rint(soak.get("inBandSeconds").asDouble())))
        .collect(Collectors.joining("; "));
  }

  private static String orNothing(String words) {
    return words.isEmpty() ? NOTHING : words;
  }

  /** The table as plain text for a terminal; what differs is marked. */
  public String words() {
    int name = rows.stream().mapToInt(row -> row.name().length()).max().orElse(0) + 3;
    int width =
        StrictMath.min(
            40,
            rows.stream()
                .flatMap(row -> row.values().stream())
                .mapToInt(String::length)
                .max()
                .orElse(0));
    StringBuilder text = new StringBuilder(" ".repeat(name));
    batches.forEach(batch -> text.append(cell("batch " + batch, width)));
    text.append('\n');
    for (Row row : rows) {
      line(text, (row.differs() ? "≠ " : "  ") + row.name(), row.values(), name, width);
    }
    return text.toString();
  }

  /** One row; a value that is longer than its column goes on below. */
  private static void line(
      StringBuilder text, String head, List<String> values, int name, int width) {
    List<String> rest = new ArrayList<>(values);
    String first = head;
    boolean more = true;
    while (more) {
      text.append(first).append(" ".repeat(name - first.length()));
      for (int i = 0; i < rest.size(); i++) {
        int cut = cut(rest.get(i), width);
        text.append(cell(rest.get(i).substring(0, cut), width));
        rest.set(i, rest.get(i).substring(cut).strip());
      }
      text.append('\n');
      first = "";
      more = rest.stream().anyMatch(value -> !value.isEmpty());
    }
  }

  /** As much as fits, up to a space if there is one. */
  private static int cut(String words, int width) {
    if (words.length() <= width) {
      return words.length();
    }
    int space = words.lastIndexOf(' ', width);
    return space > 0 ? space : width;
  }

  private static String cell(String words, int width) {
    return words + " ".repeat(StrictMath.max(0, width - words.length()) + 2);
  }
}
