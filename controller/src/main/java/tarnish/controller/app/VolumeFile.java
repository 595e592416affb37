package tarnish.controller.app;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.OffsetDateTime;
import java.time.format.DateTimeParseException;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;

/**
 * Measured hot volumes in a bench's calibration record, one a line, oldest first; a line is only
 * ever added. The last one of a vessel holds instead of the rig file's.
 */
final class VolumeFile {
  private static final String NAME = "volumes.csv";
  private static final String HEAD = "vessel,date,hot volume m3,standard uncertainty m3\n";
  private static final int COLUMNS = 4;

  private final Path file;

  private VolumeFile(Path file) {
    this.file = file;
  }

  static VolumeFile in(Path folder) {
    return new VolumeFile(folder.resolve(NAME));
  }

  void add(String vessel, String date, Estimate hotM3) {
    String line =
        vessel.replace(',', ' ')
            + ","
            + date
            + ","
            + hotM3.value()
            + ","
            + hotM3.standardUncertainty()
            + "\n";
    try {
      Files.createDirectories(file.toAbsolutePath().getParent());
      Files.writeString(
          file,
          (Files.exists(file) ? "" : HEAD) + line,
          StandardOpenOption.CREATE,
          StandardOpenOption.APPEND);
    } catch (IOException e) {
      throw new CommandFailure("Cannot write " + file + ": " + e.getMessage() + ".");
    }
  }

  /** The newest measured hot volume of a vessel; empty where none was kept. */
  Optional<Estimate> hotM3(String vessel) {
    if (!Files.exists(file)) {
      return Optional.empty();
    }
    Optional<Estimate> last = Optional.empty();
    try {
      List<String> lines = Files.readAllLines(file, StandardCharsets.UTF_8);
      for (int i = 1; i < lines.size(); i++) {
        if (!lines.get(i).isBlank()) {
          String[] parts = lines.get(i).split(",", -1);
          Estimate read = estimate(parts, i + 1);
          last = parts[0].equals(vessel.replace(',', ' ')) ? Optional.of(read) : last;
        }
      }
    } catch (IOException e) {
      throw new CommandFailure("Cannot read " + file + ": " + e.getMessage() + ".");
    }
    return last;
  }

  private Estimate estimate(String[] parts, int number) {
    try {
      if (parts.length != COLUMNS) {
        throw new IllegalArgumentException(parts.length + " columns instead of " + COLUMNS);
      }
      OffsetDateTime.parse(parts[1]);
      double value = Double.parseDouble(parts[2]);
      double uncertainty = Double.parseDouble(parts[3]);
      if (!(value > 0 && value < 0.1) || !(uncertainty >= 0 && uncertainty <= value)) {
        throw new IllegalArgumentException("a volume of " + value + " m³ ± " + uncertainty);
      }
      return new Estimate(value, uncertainty);
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

  /**
   * The text of a rig file with its vessel's measured hot volume in the place of the stated one, so
   * that the record of a batch holds what was reckoned with.
   */
  String applied(String rigText, String vessel) {
    return hotM3(vessel)
        .map(
            hot ->
                STATED
                    .matcher(rigText)
                    .replaceFirst(
                        "$1"
                            + Quantities.print(hot.value(), Unit.MILLILITRE, 3)
                            + " ± "
                            + Quantities.print(hot.standardUncertainty(), Unit.MILLILITRE, 3)))
        .orElse(rigText);
  }

  private static final Pattern STATED =
      Pattern.compile("(?m)(hot volume:[ \\t]*)[^,}#\\n]*[^,}#\\s]");
}
