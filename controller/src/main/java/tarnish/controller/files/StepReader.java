package tarnish.controller.files;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Quantities.Range;
import tarnish.shared.quantity.Unit;
import tarnish.shared.recipe.Question;
import tarnish.shared.recipe.RepeatUntil;
import tarnish.shared.recipe.Step;
import tarnish.shared.recipe.StepCommon;
import tarnish.shared.recipe.StepCommon.Presence;

/** Reads the list of steps of a recipe: words and units only, no sense of the whole. */
final class StepReader {
  private static final int DEEPEST_REPEAT = 3;
  private static final double HOUR_S = 3600;

  /** Keys that any step may have. */
  private static final List<String> COMMON = List.of("title", "hold", "who", "time limit");

  private interface KindReader {
    StepDraft read(Node settings, int depth);
  }

  private final Faults faults;
  private final Map<String, KindReader> kinds = new LinkedHashMap<>();
  private boolean complete = true;

  StepReader(Faults faults) {
    this.faults = faults;
    kinds.put("evacuate", (node, depth) -> evacuate(node));
    kinds.put("leak test", (node, depth) -> leakTest(node));
    kinds.put("backfill", (node, depth) -> backfill(node));
    kinds.put("dose", (node, depth) -> dose(node));
    kinds.put("ramp", (node, depth) -> ramp(node));
    kinds.put("soak", (node, depth) -> soak(node));
    kinds.put("cool", (node, depth) -> cool(node));
    kinds.put("open", (node, depth) -> open(node));
    kinds.put("ask", (node, depth) -> ask(node));
    kinds.put("repeat", this::repeat);
  }

  List<StepDraft> read(Node list, int depth) {
    List<StepDraft> drafts = new ArrayList<>();
    if (!(list instanceof Node.Sequence sequence) || sequence.items().isEmpty()) {
      faults.add(
          list.place(),
          list instanceof Node.Sequence ? "an empty list" : list.words(),
          "a list of steps, e.g. '- ramp: {to: 150 °C, rate: 5 K/min}'");
      return drafts;
    }
    for (Node item : sequence.items()) {
      Optional<StepDraft> draft = step(item, depth);
      draft.ifPresent(drafts::add);
      complete &= draft.isPresent();
    }
    return drafts;
  }

  /** Whether every step was of a known kind, so that the order of steps means something. */
  boolean isComplete() {
    return complete;
  }

  private Optional<StepDraft> step(Node item, int depth) {
    if (!(item instanceof Node.Mapping mapping) || mapping.entries().isEmpty()) {
      faults.add(item.place(), item.words(), "a step, e.g. 'ramp: {to: 150 °C, rate: 5 K/min}'");
      return Optional.empty();
    }
    if (mapping.entries().size() > 1) {
      Node.Entry second = mapping.entries().get(1);
      faults.add(
          second.keyPlace(),
          "'"
              + Faults.shortened(second.key())
              + "' beside '"
              + Faults.shortened(mapping.entries().get(0).key())
              + "' in one step",
          "one kind of step after each dash, its settings inside it");
    }
    Node.Entry entry = mapping.entries().get(0);
    KindReader reader = kinds.get(entry.key());
    if (reader == null) {
      faults.addUnknown(entry.keyPlace(), "the unknown step", entry.key(), kinds.keySet());
      return Optional.empty();
    }
    return Optional.of(reader.read(entry.value(), depth));
  }

  private Fields fields(Node node, String kind, String... keys) {
    List<String> known = new ArrayList<>(Arrays.asList(keys));
    known.addAll(COMMON);
    return new Fields(node, kind, faults, known);
  }

  private StepCommon common(Fields fields, String title, OptionalDouble timeLimitS) {
    OptionalDouble limitS =
        fields.has("time limit")
            ? fields.optionalQuantity("time limit", Bound.SOME_TIME)
            : timeLimitS;
    return new StepCommon(
        fields.optionalText("title").orElse(title),
        fields.optionalQuantity("hold", Bound.PRESSURE),
        who(fields).orElse(Presence.UNATTENDED),
        limitS);
  }

  private Optional<Presence> who(Fields fields) {
    return fields.has("who")
        ? Optional.of(fields.word("who", Presence.values(), Presence::words))
        : Optional.empty();
  }

  private StepDraft draft(
      Fields fields, String title, double timeLimitS, Function<StepCommon, Step> build) {
    StepCommon common = common(fields, title, OptionalDouble.of(timeLimitS));
    return StepDraft.of(fields, who(fields), common, build);
  }

  private StepDraft evacuate(Node node) {
    Fields fields = fields(node, "evacuate", "to");
    double toPa = fields.quantity("to", Bound.PRESSURE, "1 mbar");
    return draft(
        fields,
        "Evacuate to " + pressure(toPa),
        0.5 * HOUR_S,
        common -> new Step.Evacuate(common, toPa));
  }

  private StepDraft leakTest(Node node) {
    Fields fields = fields(node, "leak test", "settle", "watch", "rise at most");
    double settleS = fields.quantity("settle", Bound.TIME, "2 min");
    double watchS = fields.quantity("watch", Bound.SOME_TIME, "10 min");
    double riseMax = fields.quantity("rise at most", Bound.PRESSURE_RATE);
    return draft(
        fields,
        "Leak test",
        settleS + watchS + 600,
        common -> new Step.LeakTest(common, settleS, watchS, riseMax));
  }

  private StepDraft backfill(Node node) {
    Fields fields = fields(node, "backfill", "with", "to", "cycles", "evacuate to");
    Step.Gas gas = fields.word("with", Step.Gas.values(), Step.Gas::words);
    double toPa = fields.quantity("to", Bound.PRESSURE);
    int cycles = fields.has("cycles") ? fields.count("cycles", 1, 50) : 1;
    double evacuateToPa = fields.quantity("evacuate to", Bound.PRESSURE, "5 mbar");
    return draft(
        fields,
        "Backfill with " + gas.words() + " to " + pressure(toPa),
        cycles * HOUR_S,
        common -> new Step.Backfill(common, gas, toPa, cycles, evacuateToPa));
  }

  private StepDraft dose(Node node) {
    Fields fields =
        fields(
            node,
            "dose",
            "pulse",
            "to",
            "at most",
            "heat settled",
            "uptake slowed",
            "wait",
            "rise at most");
    double pulsePa = fields.quantity("pulse", Bound.PRESSURE, "15 mbar");
    double toPa = fields.quantity("to", Bound.PRESSURE);
    int pulses = fields.counted("at most", "pulse", 10_000, "200 pulses");
    double heatK = fields.quantity("heat settled", Bound.DIFFERENCE, "0.5 K");
    double slowed = fields.quantity("uptake slowed", Bound.PRESSURE_RATE, "0.3 mbar/min");
    Range waitS = fields.range("wait", Bound.TIME, "60 s to 30 min");
    OptionalDouble riseK = fields.optionalQuantity("rise at most", Bound.PLANNED_RISE);
    return draft(
        fields,
        "Dose oxygen to " + pressure(toPa),
        pulses * waitS.to() + 600,
        common ->
            new Step.Dose(
                common, pulsePa, toPa, pulses, heatK, slowed, waitS.from(), waitS.to(), riseK));
  }

  private StepDraft ramp(Node node) {
    Fields fields = fields(node, "ramp", "to", "rate");
    double toK = fields.quantity("to", Bound.TEMPERATURE);
    double rate = fields.quantity("rate", Bound.RATE);
    // From room temperature, the farthest a ramp usually starts; twice that for a slow oven.
    double plannedS = StrictMath.max(0, toK - 293.15) / rate;
    return draft(
        fields,
        "Ramp to " + temperature(toK),
        2 * plannedS + 2 * HOUR_S,
        common -> new Step.Ramp(common, toK, rate));
  }

  private StepDraft soak(Node node) {
    Fields fields = fields(node, "soak", "at", "for", "band");
    double atK = fields.quantity("at", Bound.TEMPERATURE);
    double durationS = fields.quantity("for", Bound.SOME_TIME, "2 h");
    double bandK = fields.quantity("band", Bound.DIFFERENCE);
    return draft(
        fields,
        "Soak at " + temperature(atK) + " for " + duration(durationS),
        2 * durationS + 4 * HOUR_S,
        common -> new Step.Soak(common, atK, durationS, bandK));
  }

  private StepDraft cool(Node node) {
    Fields fields = fields(node, "cool", "to", "rate");
    double toK = fields.quantity("to", Bound.TEMPERATURE, "40 °C");
    OptionalDouble rate = fields.optionalQuantity("rate", Bound.RATE);
    return draft(
        fields,
        "Cool to " + temperature(toK),
        24 * HOUR_S,
        common -> new Step.Cool(common, toK, rate));
  }

  private StepDraft open(Node node) {
    Fields fields =
        fields(node, "open", "below", "purge cycles", "purge to", "evacuate to", "ask for");
    double belowK = fields.quantity("below", Bound.TEMPERATURE, "40 °C");
    int cycles = fields.count("purge cycles", 1, 50);
    double purgeToPa = fields.quantity("purge to", Bound.PRESSURE);
    double evacuateToPa = fields.quantity("evacuate to", Bound.PRESSURE, "5 mbar");
    List<Question> questions = new QuestionReader(faults).read(fields.optionalNode("ask for"));
    return draft(
        fields,
        "Open, break up the solid, close",
        72 * HOUR_S,
        common -> new Step.Open(common, belowK, cycles, purgeToPa, evacuateToPa, questions));
  }

  private StepDraft ask(Node node) {
    Fields fields = fields(node, "ask", "say", "ask for");
    String say = fields.text("say", "Weigh the closed vessel");
    List<Question> questions = new QuestionReader(faults).read(fields.optionalNode("ask for"));
    return draft(fields, say, 72 * HOUR_S, common -> new Step.Ask(common, say, questions));
  }

  private StepDraft repeat(Node node, int depth) {
    Fields fields = fields(node, "repeat", "at most", "until", "steps");
    if (depth >= DEEPEST_REPEAT) {
      faults.add(
          node.place(),
          "a repeat inside " + DEEPEST_REPEAT + " others",
          "at most " + DEEPEST_REPEAT + " inside each other");
    }
    int times = fields.counted("at most", "time", 1_000, "3 times");
    RepeatUntil until = until(fields);
    List<StepDraft> inner =
        fields
            .node("steps", "a list of steps")
            .map(list -> read(list, depth + 1))
            .orElse(List.of());
    StepCommon common = common(fields, "Repeat " + times + " times", OptionalDouble.empty());
    return new StepDraft(
        fields,
        who(fields),
        common,
        inner,
        (settled, steps) -> new Step.Repeat(settled, times, until, steps));
  }

  private RepeatUntil until(Fields fields) {
    return fields.has("until") ? UntilReader.read(fields) : new RepeatUntil.CountOnly();
  }

  private static String pressure(double pa) {
    return Double.isNaN(pa) ? "?" : Quantities.printShort(pa, Unit.MILLIBAR);
  }

  private static String temperature(double k) {
    return Double.isNaN(k) ? "?" : Quantities.printShort(k, Unit.CELSIUS);
  }

  private static String duration(double s) {
    return Double.isNaN(s) ? "?" : Quantities.printDuration(s);
  }
}
