package tarnish.controller.service;

import java.util.Arrays;
import java.util.List;
import java.util.function.ToDoubleFunction;
import tarnish.controller.control.BatchState;
import tarnish.controller.service.OpenMetricsText.Family;
import tarnish.controller.service.OpenMetricsText.Type;
import tarnish.shared.quantity.Unit;
import tarnish.shared.reading.Channel;

/** The bench in numbers for a time-series store that comes to fetch them; changes nothing. */
final class Metrics {
  private static final String SENSOR = "sensor";
  private static final List<String> PRIORITIES = List.of("high", "medium", "low");

  private final Status status;
  private final OpenMetricsText text = new OpenMetricsText();

  private Metrics(Status status) {
    this.status = status;
  }

  static String of(Bench bench) {
    Metrics metrics = new Metrics(bench.status());
    metrics.loop();
    metrics.readings();
    metrics.outputs();
    metrics.batch();
    metrics.wanted();
    long bytes = bench.journalBytes();
    if (bytes >= 0) {
      metrics
          .text
          .family("tarnish_journal_size_bytes", Type.GAUGE, "bytes", "Size of the record on disk.")
          .value(bytes);
    }
    return metrics.text.end();
  }

  private void loop() {
    text.family("tarnish_build", Type.INFO, "", "Version of the program.")
        .value("version", status.version(), 1);
    text.family("tarnish_loop_ticks", Type.COUNTER, "", "Ticks of the control loop.")
        .value(status.loop().ticks());
    text.family("tarnish_loop_overruns", Type.COUNTER, "", "Ticks that took longer than a period.")
        .value(status.loop().overruns());
    text.family("tarnish_loop_worst_tick_seconds", Type.GAUGE, "seconds", "Longest tick so far.")
        .value(status.loop().worstMillis() / 1e3);
    text.family("tarnish_loop_period_seconds", Type.GAUGE, "seconds", "Period of a tick.")
        .value(status.loop().periodMillis() / 1e3);
  }

  private void readings() {
    readings(
        text.family("tarnish_temperature_celsius", Type.GAUGE, "celsius", "Good readings only."),
        Channel.Kind.TEMPERATURE,
        Unit.CELSIUS::of);
    readings(
        text.family(
            "tarnish_pressure_pascals", Type.GAUGE, "pascals", "Absolute; good readings only."),
        Channel.Kind.PRESSURE,
        value -> value);
    readings(
        text.family("tarnish_fraction_ratio", Type.GAUGE, "ratio", "Good readings only."),
        Channel.Kind.FRACTION,
        value -> value);
    readings(
        text.family("tarnish_contact_closed", Type.GAUGE, "", "1 closed, 0 open."),
        Channel.Kind.CONTACT,
        value -> value);
    Family good =
        text.family("tarnish_reading_good", Type.GAUGE, "", "1 where the reading can be believed.");
    status.readings().forEach(r -> good.value(SENSOR, r.channel(), r.value() == null ? 0 : 1));
  }

  /** A reading that is not good has no value here: absence is honest, a number is not. */
  private void readings(Family family, Channel.Kind kind, ToDoubleFunction<Double> shown) {
    status.readings().stream()
        .filter(reading -> reading.value() != null && kind(reading.channel()) == kind)
        .forEach(r -> family.value(SENSOR, r.channel(), shown.applyAsDouble(r.value())));
  }

  private static Channel.Kind kind(String words) {
    return Arrays.stream(Channel.values())
        .filter(channel -> channel.words().equals(words))
        .map(Channel::kind)
        .findFirst()
        .orElse(null);
  }

  private void outputs() {
    Family on = text.family("tarnish_output_on", Type.GAUGE, "", "1 energised, 0 off.");
    status.outputs().forEach(output -> on.value("output", output.name(), output.on() ? 1 : 0));
  }

  private void batch() {
    Family state =
        text.family("tarnish_batch_state", Type.STATESET, "", "State of the batch, IEC 61512.");
    for (BatchState each : BatchState.values()) {
      boolean is = each.words().equals(status.state());
      state.value("tarnish_batch_state", each.words(), is ? 1 : 0);
    }
    if (status.batch() == null) {
      return;
    }
    text.family("tarnish_batch_number", Type.GAUGE, "", "Number of the batch in the record.")
        .value(status.batch());
    text.family("tarnish_batch_age_seconds", Type.GAUGE, "seconds", "Time since it began.")
        .value(status.batchMillis() / 1e3);
    if (status.oxygen() != null) {
      oxygen(status.oxygen());
    }
  }

  private void oxygen(Status.OxygenLine oxygen) {
    text.family("tarnish_uptake_moles", Type.GAUGE, "moles", "Oxygen taken up, by the gas.")
        .value(oxygen.takenMol());
    text.family(
            "tarnish_uptake_uncertainty_moles", Type.GAUGE, "moles", "Its standard uncertainty.")
        .value(oxygen.takenStandardUncertaintyMol());
    text.family("tarnish_conversion_ratio", Type.GAUGE, "ratio", "To the target, all witnesses.")
        .value(oxygen.conversionFraction());
    text.family(
            "tarnish_conversion_uncertainty_ratio",
            Type.GAUGE,
            "ratio",
            "Its standard uncertainty.")
        .value(oxygen.conversionStandardUncertainty());
  }

  private void wanted() {
    text.family("tarnish_question_open", Type.GAUGE, "", "1 while a person is asked for something.")
        .value(status.ask() == null ? 0 : 1);
    Family alarms =
        text.family("tarnish_alarms", Type.GAUGE, "", "Alarms that are not normal, by priority.");
    for (String priority : PRIORITIES) {
      alarms.value(
          "priority",
          priority,
          status.alarms().stream().filter(alarm -> alarm.priority().equals(priority)).count());
    }
  }
}
