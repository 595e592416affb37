package tarnish.controller.app;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.OffsetDateTime;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import tarnish.controller.devices.Calibration;
import tarnish.controller.devices.Calibration.Mark;
import tarnish.controller.devices.Calibrations;
import tarnish.shared.reading.Channel;

/**
 * The calibrations of a bench in its data folder, one a line, oldest first; a line is only ever
 * added. Numbers are in SI units.
 */
final class CalibrationFile {
  private static final String NAME = "calibrations.csv";
  private static final String HEAD =
      "channel,date,low shown,low shown u,low reference,low reference u,"
          + "high shown,high shown u,high reference,high reference u\n";
  private static final int COLUMNS = 10;

  private final Path file;

  private CalibrationFile(Path file) {
    this.file = file;
  }

  static CalibrationFile in(Path folder) {
    return new CalibrationFile(folder.resolve(NAME));
  }

  Calibrations read() {
    return new Calibrations(all());
  }

  /** Every line, oldest first. */
  List<Calibration> all() {
    if (!Files.exists(file)) {
      return List.of();
    }
    List<Calibration> all = new ArrayList<>();
    try {
      List<String> lines = Files.readAllLines(file, StandardCharsets.UTF_8);
      for (int i = 1; i < lines.size(); i++) {
        if (!lines.get(i).isBlank()) {
          all.add(calibration(lines.get(i), i + 1));
        }
      }
    } catch (IOException e) {
      throw new CommandFailure("Cannot read " + file + ": " + e.getMessage() + ".");
    }
    return all;
  }

  private Calibration calibration(String line, int number) {
    String[] parts = line.split(",", -1);
    try {
      if (parts.length != COLUMNS) {
        throw new IllegalArgumentException(parts.length + " columns instead of " + COLUMNS);
      }
      double[] numbers =
          Arrays.stream(parts).skip(2).mapToDouble(CalibrationFile::finite).toArray();
      return new Calibration(
          channel(parts[0]),
          OffsetDateTime.parse(parts[1]).toString(),
          new Mark(numbers[0], numbers[1], numbers[2], numbers[3]),
          new Mark(numbers[4], numbers[5], numbers[6], numbers[7]));
    } catch (IllegalArgumentException | DateTimeParseException e) {
      throw new CommandFailure(
          file
              + ":"
              + number
              + ": "
              + e.getMessage()
              + ". Mend or take out this line: a bench is not run on a calibration in doubt.");
    }
  }

  private static double finite(String text) {
    double number = Double.parseDouble(text);
    if (!Double.isFinite(number)) {
      throw new IllegalArgumentException("'" + text + "' is no number");
    }
    return number;
  }

  private static Channel channel(String words) {
    return Arrays.stream(Channel.values())
        .filter(each -> each.words().equals(words) && each.kind() != Channel.Kind.CONTACT)
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("no channel '" + words + "'"));
  }

  void add(Calibration calibration) {
    String line =
        String.join(
            ",",
            calibration.channel().words(),
            calibration.date(),
            mark(calibration.low()),
            mark(calibration.high()));
    try {
      Files.createDirectories(file.toAbsolutePath().getParent());
      String text = (Files.exists(file) ? "" : HEAD) + line + "\n";
      Files.writeString(file, text, StandardOpenOption.CREATE, StandardOpenOption.APPEND);
    } catch (IOException e) {
      throw new CommandFailure("Cannot write " + file + ": " + e.getMessage() + ".");
    }
  }

  private static String mark(Mark mark) {
    return mark.shown()
        + ","
        + mark.shownStandardUncertainty()
        + ","
        + mark.reference()
        + ","
        + mark.referenceStandardUncertainty();
  }
}
