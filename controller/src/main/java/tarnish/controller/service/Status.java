package tarnish.controller.service;

import java.util.List;

/**
 * The picture of the bench that the page shows; everything is already in words and in SI numbers
 * for drawing. {@code null} is used where there is nothing to say, so that JSON stays plain.
 *
 * @param speed simulated seconds per second, 1 for a real bench
 * @param batch number of the batch that is running or was last run; null if none
 * @param state words of a {@code BatchState}
 * @param sentence what the bench is doing
 * @param mayAsk what a person may ask for now: pause, resume, restart, stop, abort, start
 * @param course setpoint from now on
 * @param missingInterlocks rows that the rig cannot have, each in a sentence
 * @param needs what it needs from a person, the most urgent first
 */
public record Status(
    String version,
    String rig,
    boolean simulated,
    boolean invented,
    double speed,
    String wallTime,
    Integer batch,
    String recipe,
    long batchMillis,
    String state,
    String sentence,
    String why,
    String next,
    String ends,
    List<StepLine> steps,
    List<ReadingLine> readings,
    List<OutputLine> outputs,
    List<PermitLine> permits,
    List<SoakLine> soaks,
    OxygenLine oxygen,
    List<AlarmLine> alarms,
    AskLine ask,
    List<CourseLine> course,
    List<InterlockLine> interlocks,
    List<String> mayAsk,
    List<String> cautions,
    LoopLine loop,
    PresenceLine presence,
    List<String> missingInterlocks,
    List<NeedLine> needs) {

  /** A picture that knows nothing of people, and of a rig that lacks nothing. */
  public Status(
      String version,
      String rig,
      boolean simulated,
      boolean invented,
      double speed,
      String wallTime,
      Integer batch,
      String recipe,
      long batchMillis,
      String state,
      String sentence,
      String why,
      String next,
      String ends,
      List<StepLine> steps,
      List<ReadingLine> readings,
      List<OutputLine> outputs,
      List<PermitLine> permits,
      List<SoakLine> soaks,
      OxygenLine oxygen,
      List<AlarmLine> alarms,
      AskLine ask,
      List<CourseLine> course,
      List<InterlockLine> interlocks,
      List<String> mayAsk,
      List<String> cautions,
      LoopLine loop) {
    this(
        version,
        rig,
        simulated,
        invented,
        speed,
        wallTime,
        batch,
        recipe,
        batchMillis,
        state,
        sentence,
        why,
        next,
        ends,
        steps,
        readings,
        outputs,
        permits,
        soaks,
        oxygen,
        alarms,
        ask,
        course,
        interlocks,
        mayAsk,
        cautions,
        loop,
        new PresenceLine("", false, false, 0, "unattended", false),
        List.of(),
        List.of());
  }

  /**
   * Who answers for the bench.
   *
   * @param by empty where nobody is checked in
   * @param attended whether the check-in still runs
   * @param overdue whether it ran out without a check-out
   * @param leftS time until it runs out, in s
   * @param limits which limits hold: attended or unattended
   * @param waited whether the batch waits for somebody to check in
   */
  public record PresenceLine(
      String by, boolean attended, boolean overdue, double leftS, String limits, boolean waited) {}

  /** {@code state} is done, now or to come. */
  public record StepLine(int number, int depth, String title, String state, String detail) {}

  /** {@code text} is value and unit, or a dash; {@code problem} is empty for a good reading. */
  public record ReadingLine(String channel, String text, Double value, String problem) {}

  public record OutputLine(String name, boolean on, String detail) {}

  /** {@code withheldBy} is empty when granted. */
  public record PermitLine(String name, boolean granted, String withheldBy) {}

  /** {@code state} is done, now or to come; {@code when} is empty where it is not known. */
  public record SoakLine(
      String at, double setpointK, double requiredS, double inBandS, String state, String when) {
    public SoakLine(String at, double setpointK, double requiredS, double inBandS, String state) {
      this(at, setpointK, requiredS, inBandS, state, "");
    }
  }

  /**
   * Something that is needed from a person.
   *
   * @param kind alarm, question, presence, decision or visit
   * @param by until when, in words
   * @param leftS time until then, in s; null where it is wanted now
   */
  public record NeedLine(String kind, String what, String by, Double leftS) {}

  /** Uptake and composition in words with their uncertainty, and as numbers. */
  public record OxygenLine(
      String taken,
      String needed,
      String perUnit,
      String targetPerUnit,
      String conversion,
      double conversionFraction,
      double conversionStandardUncertainty,
      double takenMol,
      double takenStandardUncertaintyMol,
      List<PairLine> more,
      List<WhyLine> stalled) {}

  /** A name with its value in words. */
  public record PairLine(String name, String text) {}

  /** Why uptake may have stopped, likeliest first: how likely, the evidence, and what to do. */
  public record WhyLine(String cause, String likely, String evidence, String act) {}

  public record AlarmLine(
      String id,
      String state,
      String priority,
      boolean firstOut,
      String what,
      String done,
      String todo,
      boolean mayAcknowledge,
      boolean mayReset) {}

  /** An open question. {@code kind} of a field is mass (grams on the page) or remark. */
  public record AskLine(int number, String prompt, List<FieldLine> fields) {}

  public record FieldLine(String name, String kind) {}

  /** Setpoint still to come: time since the batch began and temperature. */
  public record CourseLine(double seconds, double setpointK) {}

  /** Between which values a batch is expected at a time; SI, lowest and highest of each. */
  public record BandLine(
      double seconds,
      double sampleLowK,
      double sampleHighK,
      double pressureLowPa,
      double pressureHighPa,
      double uptakeLowMol,
      double uptakeHighMol) {}

  public record InterlockLine(
      String id,
      String cause,
      String limit,
      String delay,
      String effect,
      String latching,
      String state) {}

  public record LoopLine(long ticks, long overruns, double worstMillis, long periodMillis) {}
}
