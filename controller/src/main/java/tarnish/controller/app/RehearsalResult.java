package tarnish.controller.app;

import com.fasterxml.jackson.annotation.JsonIgnore;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Report;
import tarnish.controller.control.Words;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;

/** How a rehearsal went, in SI units. */
record RehearsalResult(
    String recipe,
    long seed,
    String endState,
    double simulatedSeconds,
    double wallSeconds,
    double realTimeRatio,
    double peakTemperatureK,
    double peakPressurePa,
    int doses,
    List<SoakLine> soaks,
    double ovenSeconds,
    double equivalentSecondsAtTop,
    Estimate oxygenUptakeMol,
    Estimate oxygenPerFormulaUnit,
    Estimate conversion,
    Double plantOxygenPerFormulaUnit,
    Estimate gasOxygenFraction,
    String mixture,
    int alarms,
    int trips,
    String lastAlarm,
    List<RehearsalMeter.Margin> margins,
    double heaterEnergyJ,
    double oxygenGasAdmittedMol,
    Spread spread) {

  /**
   * How rehearsals on differently drawn benches vary.
   *
   * @param benches how many
   * @param complete how many of them ended complete
   * @param shortestSeconds shortest batch
   * @param longestSeconds longest batch
   * @param leastMargins the nearest that any of them came to each limit
   */
  record Spread(
      int benches,
      int complete,
      double shortestSeconds,
      double longestSeconds,
      List<RehearsalMeter.Margin> leastMargins) {}

  record SoakLine(double setpointK, double requiredSeconds, double inBandSeconds) {}

  private static final ObjectMapper MAPPER = new ObjectMapper();

  /** Of a batch whose energy and margins nobody followed. */
  static RehearsalResult of(BenchRun run, long seed, double wallS, String lastAlarm) {
    return of(run, seed, wallS, lastAlarm, new RehearsalMeter(run.plan().rig()));
  }

  static RehearsalResult of(
      BenchRun run, long seed, double wallS, String lastAlarm, RehearsalMeter meter) {
    ControlState state = run.state();
    Report report = new Report(run.plan(), state);
    double simulatedS = run.millis() / 1000.0;
    return new RehearsalResult(
        run.plan().recipe().title(),
        seed,
        state.phase().words(),
        simulatedS,
        wallS,
        simulatedS / wallS,
        state.tally().peaks().sampleK(),
        state.tally().peaks().pressurePa(),
        state.gas().pulses(),
        report.soaks().stream()
            .map(s -> new SoakLine(s.setpointK(), s.requiredS(), s.inBandS()))
            .toList(),
        state.tally().ovenS(),
        state.tally().equivalentS(),
        report.uptakeMol(),
        report.oxygenPerUnit(),
        report.conversion(),
        known(run.bench().trueOxygenPerUnit()),
        report.gasOxygenFraction(),
        report.mixture(),
        state.tally().alarms(),
        state.tally().trips(),
        lastAlarm,
        meter.margins(),
        meter.heaterJ(),
        meter.oxygenGasMol(),
        null);
  }

  /** The same with how it varies among {@code all} rehearsals of this recipe. */
  RehearsalResult among(List<RehearsalResult> all) {
    List<RehearsalMeter.Margin> least = new ArrayList<>();
    for (int i = 0; i < margins.size(); i++) {
      int at = i;
      least.add(
          all.stream()
              .map(result -> result.margins().get(at))
              .min(Comparator.comparingDouble(RehearsalMeter.Margin::margin))
              .orElseThrow());
    }
    Spread varies =
        new Spread(
            all.size(),
            (int) all.stream().filter(RehearsalResult::isComplete).count(),
            all.stream().mapToDouble(RehearsalResult::simulatedSeconds).min().orElseThrow(),
            all.stream().mapToDouble(RehearsalResult::simulatedSeconds).max().orElseThrow(),
            least);
    return new RehearsalResult(
        recipe,
        seed,
        endState,
        simulatedSeconds,
        wallSeconds,
        realTimeRatio,
        peakTemperatureK,
        peakPressurePa,
        doses,
        soaks,
        ovenSeconds,
        equivalentSecondsAtTop,
        oxygenUptakeMol,
        oxygenPerFormulaUnit,
        conversion,
        plantOxygenPerFormulaUnit,
        gasOxygenFraction,
        mixture,
        alarms,
        trips,
        lastAlarm,
        margins,
        heaterEnergyJ,
        oxygenGasAdmittedMol,
        varies);
  }

  private static Double known(OptionalDouble value) {
    return value.isPresent() ? value.getAsDouble() : null;
  }

  @JsonIgnore
  boolean isComplete() {
    return endState.equals(BatchState.COMPLETE.words());
  }

  String json() {
    return json(MAPPER.convertValue(this, LinkedHashMap.class));
  }

  /** With what single faults would do. */
  String json(List<FaultRehearsal.Outcome> faults) {
    Map<String, Object> all = new LinkedHashMap<>();
    Map<?, ?> own = MAPPER.convertValue(this, LinkedHashMap.class);
    own.forEach((key, value) -> all.put(String.valueOf(key), value));
    if (!faults.isEmpty()) {
      all.put("faults", faults);
    }
    return json(all);
  }

  /** The same without what differs from run to run, for the record. */
  String recordJson() {
    Map<?, ?> all = MAPPER.convertValue(this, LinkedHashMap.class);
    all.remove("wallSeconds");
    all.remove("realTimeRatio");
    return json(all);
  }

  private static String json(Map<?, ?> value) {
    try {
      return MAPPER.writeValueAsString(value);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException(e);
    }
  }

  /** The summary that a person reads. */
  String words() {
    StringBuilder words = new StringBuilder();
    line(words, "recipe", recipe);
    line(words, "seed", Long.toString(seed));
    line(words, "end state", endState);
    if (!lastAlarm.isEmpty()) {
      line(words, "last alarm", lastAlarm);
    }
    line(words, "batch time", Words.duration(simulatedSeconds));
    line(words, "oven time", Words.duration(ovenSeconds));
    for (SoakLine soak : soaks) {
      String time =
          Words.duration(soak.inBandSeconds())
              + " in band of "
              + Words.duration(soak.requiredSeconds());
      line(words, "soak at " + Words.temperature(soak.setpointK()), time);
    }
    if (equivalentSecondsAtTop > 0) {
      line(words, "equivalent time at top soak", Words.duration(equivalentSecondsAtTop));
    }
    line(words, "peak sample temperature", Words.temperature(peakTemperatureK));
    line(words, "peak pressure", Words.pressure(peakPressurePa));
    for (RehearsalMeter.Margin margin : margins) {
      line(words, margin.channel(), RehearsalMeter.words(margin));
    }
    line(words, "heater energy", String.format("%.2f kWh", heaterEnergyJ / 3.6e6));
    line(
        words, "gas from oxygen source", Quantities.print(oxygenGasAdmittedMol, Unit.MILLIMOLE, 1));
    line(words, "oxygen pulses", Integer.toString(doses));
    line(words, "oxygen taken up", Words.amount(oxygenUptakeMol) + " by the gas");
    line(words, "O per formula unit", Words.estimate(oxygenPerFormulaUnit) + " by all witnesses");
    line(words, "  what the plant holds", String.format("%.4f", plantOxygenPerFormulaUnit));
    line(words, "conversion to target", Words.estimate(conversion));
    line(words, "mixture", mixture);
    line(words, "oxygen in the gas", Words.percent(gasOxygenFraction));
    if (spread != null) {
      line(
          words,
          "on " + spread.benches() + " benches",
          spread.complete()
              + " complete, "
              + Words.duration(spread.shortestSeconds())
              + " to "
              + Words.duration(spread.longestSeconds()));
      for (RehearsalMeter.Margin margin : spread.leastMargins()) {
        line(words, "  " + margin.channel(), RehearsalMeter.words(margin));
      }
    }
    line(words, "alarms / trips", alarms + " / " + trips);
    line(
        words, "speed", String.format("%.0f times real time (%.2f s)", realTimeRatio, wallSeconds));
    return words.toString();
  }

  private static void line(StringBuilder to, String name, String value) {
    to.append(String.format("%-28s%s%n", name, value));
  }
}
