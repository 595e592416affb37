package tarnish.controller.app;

import java.util.List;
import java.util.Map;
import tarnish.controller.app.CalibrationDraft.Unfit;
import tarnish.controller.devices.Calibration;
import tarnish.controller.devices.Calibrations;
import tarnish.controller.service.BenchAsk;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;

/** Two-point calibrations at the bench page: taken, kept, and in use from then on. One thread. */
final class BenchCalibration {
  private static final String KIND = "calibration";

  private final RigDescription rig;
  private final CalibrationFile file;
  private final BenchNotes notes;
  private Calibrations inForce;
  private CalibrationDraft draft;

  BenchCalibration(RigDescription rig, CalibrationFile file, BenchNotes notes) {
    this.rig = rig;
    this.file = file;
    this.notes = notes;
    this.inForce = file.read();
  }

  void handOver(BatchBench bench) {
    bench.use(inForce, rig);
  }

  /** Null where no point has been taken. */
  CalibrationDraft draft() {
    return draft;
  }

  List<Calibration> inForce() {
    return inForce.all();
  }

  /** Does what is asked; the answer is for the person. */
  String done(BenchAsk ask, Map<Channel, ChannelWatch> watches, BatchBench bench) {
    try {
      if (ask instanceof BenchAsk.Mark mark) {
        return mark(mark, watches);
      }
      if (ask instanceof BenchAsk.Accept accept) {
        return accept(accept, bench);
      }
      draft = null;
      return "The points are forgotten.";
    } catch (Unfit | CommandFailure e) {
      return e.getMessage() + " Nothing was kept.";
    }
  }

  private String mark(BenchAsk.Mark mark, Map<Channel, ChannelWatch> watches) throws Unfit {
    SensorDescription sensor = sensor(mark.channel());
    boolean same = draft != null && draft.channel() == sensor.channel();
    CalibrationDraft before = same ? draft : CalibrationDraft.of(sensor);
    draft =
        before.with(watches.get(sensor.channel()).uncorrected(), mark.reference(), mark.upper());
    return "The " + (mark.upper() ? "upper" : "lower") + " point is taken.";
  }

  private SensorDescription sensor(String words) throws Unfit {
    return rig.sensors().stream()
        .filter(each -> each.channel().kind() != Channel.Kind.CONTACT)
        .filter(each -> each.channel().words().equals(words))
        .findFirst()
        .orElseThrow(() -> new Unfit("There is no sensor '" + words + "' to calibrate."));
  }

  private String accept(BenchAsk.Accept accept, BatchBench bench) throws Unfit {
    if (draft == null) {
      throw new Unfit("Take both points first.");
    }
    Calibration finished = draft.finished(BenchSession.now());
    file.add(finished);
    inForce = file.read();
    bench.use(inForce, rig);
    draft = null;
    notes.add(
        accept.by(),
        KIND,
        "Calibrated the "
            + finished.channel().words()
            + ": low "
            + CalibrationDraft.words(finished.channel(), finished.low())
            + "; high "
            + CalibrationDraft.words(finished.channel(), finished.high())
            + "; "
            + CalibrationDraft.effect(finished)
            + ".");
    return "Kept, and in use from now on.";
  }
}
