package tarnish.controller.service;

import java.util.List;

/**
 * The picture of the bench for a person who checks it; all in words.
 *
 * @param free whether no batch runs, so that the bench may be checked
 * @param devices how each does, in a sentence
 * @param trial under way or ended last; null where there was none
 * @param draft points of a calibration taken so far; null where there are none
 * @param asks how many asks have been dealt with since the start
 * @param answer to the last of them; may be empty
 * @param notes what was done last, oldest first
 */
public record BenchView(
    boolean free,
    List<ChannelLine> channels,
    List<String> devices,
    List<TrialLine> trials,
    NowLine trial,
    DraftLine draft,
    List<CalibrationLine> calibrations,
    long asks,
    String answer,
    List<NoteLine> notes) {

  /**
   * One channel over the last seconds.
   *
   * @param references points that a person can bring it to, as words and as text to type
   */
  public record ChannelLine(
      String name,
      String device,
      String value,
      String raw,
      String uncorrected,
      String quality,
      String noise,
      String rate,
      String answers,
      String latency,
      String remark,
      List<ReferenceLine> references) {}

  public record ReferenceLine(String words, boolean upper, String text) {}

  /**
   * @param group pulse, guided or other
   */
  public record TrialLine(String name, String title, String group) {}

  public record NowLine(
      String name,
      String title,
      String doing,
      String question,
      boolean ended,
      List<FindingLine> findings) {}

  public record FindingLine(String sentence, boolean fault) {}

  /**
   * @param result what the two points would do; empty until both are taken
   * @param problem why they make no calibration; empty where they do
   */
  public record DraftLine(String channel, String low, String high, String result, String problem) {}

  public record CalibrationLine(
      String channel, String date, String gain, String low, String high, String uncertainty) {}

  public record NoteLine(String wallTime, String person, String sentence) {}

  /** What is shown where there is no bench to check. */
  static final BenchView NONE =
      new BenchView(
          false, List.of(), List.of(), List.of(), null, null, List.of(), 0, "", List.of());
}
