package tarnish.controller.app;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import tarnish.controller.app.CalibrationDraft.Unfit;
import tarnish.controller.control.trial.Trial;
import tarnish.controller.control.trial.Trials;
import tarnish.controller.devices.Calibration;
import tarnish.controller.journal.BenchNote;
import tarnish.controller.service.BenchView;
import tarnish.controller.service.BenchView.CalibrationLine;
import tarnish.controller.service.BenchView.DraftLine;
import tarnish.controller.service.BenchView.FindingLine;
import tarnish.controller.service.BenchView.NoteLine;
import tarnish.controller.service.BenchView.NowLine;
import tarnish.controller.service.BenchView.TrialLine;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.RigDescription;

/** Puts how a bench check stands into words. Written by the loop thread, seen by any. */
final class BenchViewWriter {
  private static final int LOOKS_LAST = 100;

  /** While nobody looks and a batch runs, only every so many pictures are made. */
  private static final int SELDOM = 20;

  private final ChannelLines channels;
  private final List<TrialLine> trials;
  private volatile BenchView view;
  private volatile int looks;
  private int skipped;

  /** How a bench check stands; {@code trial} is null where there was none. */
  record Stand(
      boolean free,
      Map<Channel, ChannelWatch> watches,
      Readings readings,
      List<String> devices,
      String trialName,
      Trial trial,
      BenchCalibration calibration,
      long asks,
      String answer,
      List<BenchNote> notes) {}

  BenchViewWriter(RigDescription rig) {
    channels = new ChannelLines(rig);
    trials =
        Trials.of(rig).entrySet().stream()
            .map(
                each -> new TrialLine(each.getKey(), each.getValue().title(), group(each.getKey())))
            .toList();
  }

  private static String group(String name) {
    return name.startsWith("pulse ") ? "pulse" : name.equals("evacuate") ? "other" : "guided";
  }

  /** The newest picture; null before the first. */
  BenchView view() {
    looks = LOOKS_LAST;
    return view;
  }

  /** Whether somebody has looked lately. */
  boolean isLookedAt() {
    return looks > 0;
  }

  /** Whether a picture is worth its making: nobody may be looking. */
  boolean isWanted(boolean free) {
    skipped = (skipped + 1) % SELDOM;
    return free || isLookedAt() || skipped == 0 || view == null;
  }

  void write(Stand stand) {
    looks = Math.max(0, looks - 1);
    view =
        new BenchView(
            stand.free(),
            channels.of(stand.watches(), stand.readings()),
            stand.devices(),
            trials,
            stand.trial() == null ? null : now(stand),
            stand.calibration().draft() == null ? null : draft(stand.calibration().draft()),
            stand.calibration().inForce().stream().map(BenchViewWriter::line).toList(),
            stand.asks(),
            stand.answer(),
            stand.notes().stream()
                .map(note -> new NoteLine(note.wallTime(), note.person(), note.sentence()))
                .toList());
  }

  private static NowLine now(Stand stand) {
    Trial trial = stand.trial();
    return new NowLine(
        stand.trialName(),
        trial.title(),
        trial.doing(),
        trial.question(),
        trial.hasEnded(),
        trial.findings().stream()
            .map(finding -> new FindingLine(finding.sentence(), finding.fault()))
            .toList());
  }

  private static DraftLine draft(CalibrationDraft draft) {
    Channel channel = draft.channel();
    String low = draft.low() == null ? "" : CalibrationDraft.words(channel, draft.low());
    String high = draft.high() == null ? "" : CalibrationDraft.words(channel, draft.high());
    String result = "";
    String problem = "";
    if (draft.low() != null && draft.high() != null) {
      try {
        result = CalibrationDraft.effect(draft.finished(""));
      } catch (Unfit e) {
        problem = e.getMessage();
      }
    }
    return new DraftLine(channel.words(), low, high, result, problem);
  }

  private static CalibrationLine line(Calibration it) {
    Channel channel = it.channel();
    return new CalibrationLine(
        channel.words(),
        it.date(),
        String.format(Locale.ROOT, "%.6f", it.gain()),
        CalibrationDraft.printed(channel, it.low().reference()),
        CalibrationDraft.printed(channel, it.high().reference()),
        CalibrationDraft.difference(channel, it.standardUncertainty(it.low().shown()))
            + " to "
            + CalibrationDraft.difference(channel, it.standardUncertainty(it.high().shown())));
  }
}
