package tarnish.controller.app;

import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.time.format.DateTimeParseException;
import java.util.List;
import java.util.Optional;
import tarnish.controller.devices.Calibration;
import tarnish.controller.devices.Calibrations;
import tarnish.controller.record.InForce;

/** Finds in the folder of a record which calibrations and proof tests held when a batch began. */
final class InForceReader {
  private InForceReader() {}

  /**
   * @param startedAt ISO 8601; where it is none, nothing is known
   */
  static InForce of(Path folder, String startedAt) {
    Optional<OffsetDateTime> start = time(startedAt);
    if (start.isEmpty()) {
      return InForce.UNKNOWN;
    }
    List<Calibration> until =
        CalibrationFile.in(folder).all().stream()
            .filter(each -> !OffsetDateTime.parse(each.date()).isAfter(start.get()))
            .toList();
    return new InForce(
        true,
        new Calibrations(until).all().stream().map(InForceReader::calibrated).toList(),
        new ProofRecord(folder)
            .newest(start.get().toLocalDate()).values().stream()
                .map(InForceReader::proved)
                .toList());
  }

  private static Optional<OffsetDateTime> time(String iso) {
    try {
      return Optional.of(OffsetDateTime.parse(iso));
    } catch (DateTimeParseException e) {
      return Optional.empty();
    }
  }

  private static InForce.Calibrated calibrated(Calibration each) {
    return new InForce.Calibrated(
        each.channel(),
        each.date(),
        each.low().reference(),
        each.high().reference(),
        each.gain(),
        each.standardUncertainty(each.low().shown()),
        each.standardUncertainty(each.high().shown()));
  }

  private static InForce.Proved proved(ProofRecord.Entry each) {
    return new InForce.Proved(
        each.row(),
        each.passed(),
        each.date().toString(),
        each.due().toString(),
        each.by(),
        each.how());
  }
}
