package tarnish.controller.journal;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.util.ArrayList;
import java.util.List;
import tarnish.controller.journal.Journal.RecordedTick;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Reading;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Switch;

/** One row of comma-separated values for each tick. Formats by hand, because rows are millions. */
final class CsvSampleRows {
  private static final Switch[] SWITCHES = Switch.values();
  private static final double ICE_POINT_K = 273.15;
  private static final int MOST_DECIMALS = 9;

  /** How a channel is shown: (value - offset) * factor, rounded to so many decimals. */
  private record Column(Channel channel, double offset, double factor, int decimals) {
    static Column of(Channel channel, double resolution) {
      return switch (channel.kind()) {
        // The ice point has two decimals, so fewer would make neighbouring steps look alike.
        case TEMPERATURE ->
            new Column(channel, ICE_POINT_K, 1, StrictMath.max(2, decimals(resolution)));
        case PRESSURE -> new Column(channel, 0, 0.01, decimals(resolution * 0.01));
        case FRACTION -> new Column(channel, 0, 100, decimals(resolution * 100));
        case CONTACT -> new Column(channel, 0, 1, 0);
      };
    }

    /** The fewest decimals that tell two neighbouring steps apart. */
    private static int decimals(double step) {
      int decimals = 0;
      double smallest = 1;
      while (smallest > step * (1 + 1e-9) && decimals < MOST_DECIMALS) {
        decimals++;
        smallest /= 10;
      }
      return decimals;
    }

    String heading() {
      String unit =
          switch (channel.kind()) {
            case TEMPERATURE -> " [°C]";
            case PRESSURE -> " [mbar]";
            case FRACTION -> " [%]";
            case CONTACT -> "";
          };
      return channel.words() + unit;
    }

    void append(StringBuilder line, double value, double tenToDecimals) {
      double shown = (value - offset) * factor;
      CsvExport.appendFixed(line, StrictMath.round(shown * tenToDecimals), decimals);
    }
  }

  private final Writer to;
  private final StringBuilder line = new StringBuilder(256);
  private final StringBuilder remarks = new StringBuilder();
  private List<Column> columns;
  private double[] tenToDecimals;

  CsvSampleRows(Writer to) {
    this.to = to;
  }

  void tick(RecordedTick tick) {
    if (columns == null) {
      begin(tick.readings());
    }
    line.setLength(0);
    remarks.setLength(0);
    CsvExport.appendFixed(line, tick.millis(), 3);
    for (int i = 0; i < columns.size(); i++) {
      line.append(',');
      cell(columns.get(i), tenToDecimals[i], tick.readings());
    }
    outputs(tick.outputs());
    line.append(',').append(CsvExport.quoted(remarks.toString())).append('\n');
    write();
  }

  /** A batch without a tick still gets its line of headings. */
  void end() {
    if (columns == null) {
      begin(new Readings(new double[Channel.COUNT]));
    }
  }

  private void begin(Readings readings) {
    columns = new ArrayList<>();
    line.setLength(0);
    line.append("time since start [s]");
    for (Channel channel : Channel.values()) {
      if (readings.isFitted(channel)) {
        Column column = Column.of(channel, readings.resolution(channel));
        columns.add(column);
        line.append(',').append(column.heading());
      }
    }
    tenToDecimals =
        columns.stream().mapToDouble(each -> StrictMath.pow(10, each.decimals())).toArray();
    for (Switch each : SWITCHES) {
      line.append(',').append(each.words());
    }
    line.append(",heater duty [%],remarks\n");
    write();
  }

  private void cell(Column column, double factor, Readings readings) {
    if (readings.isGood(column.channel())) {
      column.append(line, readings.value(column.channel()), factor);
    } else if (readings.at(column.channel()) instanceof Reading.Bad bad) {
      remarks.append(remarks.isEmpty() ? "" : "; ");
      remarks.append(column.channel().words()).append(": ").append(bad.reason().words());
    }
  }

  private void outputs(Outputs outputs) {
    for (Switch each : SWITCHES) {
      line.append(outputs.isOn(each) ? ",1" : ",0");
    }
    line.append(',');
    CsvExport.appendFixed(line, outputs.heaterPerMille(), 1);
  }

  private void write() {
    try {
      to.append(line);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
