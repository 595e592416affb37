package tarnish.controller.record;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import tarnish.controller.journal.Journal.Series;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.quantity.Unit;
import tarnish.shared.reading.Channel;

/** The thermal and gas history of a batch, and what it became on the way. */
final class Pictures {
  private static final int TIME_STEPS = 12;
  private static final int VALUE_STEPS = 6;
  private static final String SAMPLE = "#0b5c96";
  private static final String OVEN = "#c08040";
  private static final String SETPOINT = "#222222";
  private static final String PRESSURE = "#00604a";
  private static final String PULSE = "#8a3a66";

  private static final String NOBODY = "#e4e4e4";
  private static final int OUTAGE_POINTS = 40;

  /** Paused, held, open. */
  private static final String[] STRETCHES = {"#8e959a", "#9c0d0d", "#1b1e20"};

  private final BatchStory story;
  private final Axis time;
  private final double[] hours;

  Pictures(BatchStory story) {
    this.story = story;
    double endHours = StrictMath.max(1e-3, story.line().lastMillis() / 3.6e6);
    time = Axis.hours(endHours, TIME_STEPS);
    hours = Arrays.stream(story.history().startMillis()).mapToDouble(ms -> ms / 3.6e6).toArray();
  }

  Chart temperatures() {
    Optional<Band> sample = band(Channel.SAMPLE_TEMPERATURE, Unit.CELSIUS);
    Optional<Band> oven = band(Channel.OVEN_TEMPERATURE, Unit.CELSIUS);
    double[] setpoint =
        Arrays.stream(story.course().setpointK())
            .map(k -> Double.isNaN(k) ? k : Unit.CELSIUS.of(k))
            .toArray();
    double top =
        StrictMath.max(
            greatest(setpoint),
            StrictMath.max(sample.map(Band::top).orElse(30.0), oven.map(Band::top).orElse(30.0)));
    double least =
        StrictMath.min(
            20,
            StrictMath.min(sample.map(Band::foot).orElse(20.0), oven.map(Band::foot).orElse(20.0)));
    Chart chart =
        Chart.withStrip(
            "Sample and oven temperature and setpoint over time",
            "temperature in °C",
            211,
            time,
            Axis.covering(least, top, VALUE_STEPS));
    oven.ifPresent(band -> chart.band(hours, band.least(), band.greatest(), OVEN));
    chart.line(courseHours(), setpoint, SETPOINT, 1.1, 5, 3);
    sample.ifPresent(band -> chart.band(hours, band.least(), band.greatest(), SAMPLE));
    for (BatchStory.Stretch each : story.stretches()) {
      int row = each.what().ordinal();
      chart.stretch(each.fromMillis() / 3.6e6, each.toMillis() / 3.6e6, row, STRETCHES[row]);
    }
    story.outages().forEach(each -> addOutage(chart, each));
    return chart;
  }

  /** Shaded where nobody was in control, with the estimate of how the sample cooled. */
  private static void addOutage(Chart chart, BatchStory.Outage outage) {
    double fromHours = outage.fromMillis() / 3.6e6;
    double toHours = outage.toMillis() / 3.6e6;
    chart.shade(fromHours, toHours, NOBODY);
    if (!outage.told().isEstimated()) {
      return;
    }
    double[] at = new double[OUTAGE_POINTS];
    double[] celsius = new double[OUTAGE_POINTS];
    for (int i = 0; i < OUTAGE_POINTS; i++) {
      double share = i / (OUTAGE_POINTS - 1.0);
      at[i] = fromHours + share * (toHours - fromHours);
      celsius[i] = Unit.CELSIUS.of(outage.told().estimateK(share * outage.told().outageS()));
    }
    chart.line(at, celsius, SAMPLE, 1.4, 1, 4);
  }

  Chart pressure() {
    Optional<Band> vessel = band(Channel.VESSEL_PRESSURE, Unit.MILLIBAR);
    Chart chart =
        new Chart(
            "Vessel pressure over time with a mark for each oxygen pulse",
            "pressure in mbar",
            160,
            time,
            Axis.covering(0, vessel.map(Band::top).orElse(1000.0), VALUE_STEPS));
    vessel.ifPresent(band -> chart.band(hours, band.least(), band.greatest(), PRESSURE));
    double[] pulses =
        story.events("PulseGiven").stream().mapToDouble(line -> line.millis() / 3.6e6).toArray();
    return chart.marks(pulses, PULSE);
  }

  /** Oxygen per formula unit by all witnesses, one standard uncertainty to either side. */
  Chart composition() {
    Estimate[] known = story.course().oxygenPerUnit();
    double[] least = new double[known.length];
    double[] greatest = new double[known.length];
    for (int i = 0; i < known.length; i++) {
      boolean gap = known[i] == null;
      least[i] = gap ? Double.NaN : known[i].value() - known[i].standardUncertainty();
      greatest[i] = gap ? Double.NaN : known[i].value() + known[i].standardUncertainty();
    }
    double target = story.plan().recipe().target().oxygenPerUnit();
    Chart chart =
        new Chart(
            "Oxygen per formula unit over time with its standard uncertainty",
            "O per formula unit",
            140,
            time,
            Axis.covering(
                StrictMath.min(0, smallest(least)),
                StrictMath.max(target, greatest(greatest)),
                VALUE_STEPS));
    chart.line(
        new double[] {0, time.greatest()}, new double[] {target, target}, SETPOINT, 1.1, 5, 3);
    chart.band(courseHours(), least, greatest, SAMPLE);
    for (BatchStory.Weighing each : story.weighings()) {
      Estimate perUnit = each.oxygenPerUnit();
      chart.point(each.millis() / 3.6e6, perUnit.value(), perUnit.standardUncertainty(), PULSE);
    }
    return chart;
  }

  private double[] courseHours() {
    double[] at = new double[story.course().setpointK().length];
    for (int i = 0; i < at.length; i++) {
      at[i] = (i + 0.5) * story.course().columnMillis() / 3.6e6;
    }
    return at;
  }

  private record Band(double[] least, double[] greatest) {
    double top() {
      return Pictures.greatest(greatest);
    }

    double foot() {
      return smallest(least);
    }
  }

  private Optional<Band> band(Channel channel, Unit unit) {
    List<Series> all = story.history().series();
    return all.stream()
        .filter(each -> each.channel().equals(channel.words()) && Extremes.of(each).count() > 0)
        .findFirst()
        .map(each -> new Band(shown(each.least(), each, unit), shown(each.greatest(), each, unit)));
  }

  private static double[] shown(double[] values, Series series, Unit unit) {
    double[] shown = new double[values.length];
    for (int i = 0; i < values.length; i++) {
      shown[i] = series.count()[i] > 0 ? unit.of(values[i]) : Double.NaN;
    }
    return shown;
  }

  private static double greatest(double[] values) {
    return Arrays.stream(values).filter(v -> !Double.isNaN(v)).max().orElse(0);
  }

  private static double smallest(double[] values) {
    return Arrays.stream(values).filter(v -> !Double.isNaN(v)).min().orElse(0);
  }
}
