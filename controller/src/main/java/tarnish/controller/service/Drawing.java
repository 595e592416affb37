package tarnish.controller.service;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import tarnish.controller.journal.Journal.History;
import tarnish.controller.journal.Journal.Series;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Switch;

/**
 * A {@link History} as the page draws it: times in s since the batch began, values in SI units,
 * null where there is no good value.
 *
 * @param heater mean duty per column, 0 to 1
 * @param setpoints corners of the setpoint that was followed
 * @param switches per switch that was ever on, 1 for each column in which it was on
 */
record Drawing(
    double fromS,
    double toS,
    List<Double> seconds,
    List<Line> lines,
    List<Double> heater,
    List<Marks> switches,
    List<Status.CourseLine> setpoints) {

  record Line(String channel, List<Double> least, List<Double> greatest, List<Double> last) {}

  record Marks(String name, int[] on) {}

  static Drawing of(History history, List<Status.CourseLine> setpoints) {
    List<Double> seconds = new ArrayList<>();
    List<Double> heater = new ArrayList<>();
    for (int i = 0; i < history.startMillis().length; i++) {
      seconds.add(history.startMillis()[i] / 1e3);
      heater.add(isRecorded(history, i) ? history.heaterPerMille()[i] / 1e3 : null);
    }
    return new Drawing(
        history.fromMillis() / 1e3,
        history.toMillis() / 1e3,
        seconds,
        history.series().stream().map(Drawing::line).toList(),
        heater,
        marks(history.switchesOn()),
        setpoints);
  }

  /** A column in which no channel has a value was not recorded: the heater has a gap there, too. */
  private static boolean isRecorded(History history, int column) {
    return history.series().stream().anyMatch(series -> series.count()[column] > 0);
  }

  private static Line line(Series series) {
    return new Line(
        series.channel(),
        where(series.count(), series.least()),
        where(series.count(), series.greatest()),
        where(series.count(), series.last()));
  }

  private static List<Double> where(int[] count, double[] values) {
    List<Double> drawn = new ArrayList<>(values.length);
    for (int i = 0; i < values.length; i++) {
      drawn.add(count[i] > 0 ? Json.drawn(values[i]) : null);
    }
    return drawn;
  }

  private static List<Marks> marks(int[] bits) {
    return Arrays.stream(Switch.values())
        .map(
            each ->
                new Marks(
                    each.words(),
                    Arrays.stream(bits).map(b -> new Outputs(b, 0).isOn(each) ? 1 : 0).toArray()))
        .filter(marks -> Arrays.stream(marks.on()).anyMatch(on -> on == 1))
        .toList();
  }
}
