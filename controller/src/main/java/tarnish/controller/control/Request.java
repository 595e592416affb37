package tarnish.controller.control;

import java.util.Map;

/**
 * What a person, or the shell on restart, asks of the controller. A request is taken at the next
 * tick and then either done or refused with a reason; both are events.
 */
public sealed interface Request {
  /** Who asks, as named on the page. */
  String by();

  /** Begin the batch: idle to running. */
  record Start(String by) implements Request {}

  /** Heater off and oxygen shut in, keep what was earned. */
  record Pause(String by) implements Request {}

  /** Go on after a pause. */
  record Resume(String by) implements Request {}

  /** Go on after a hold; refused while a trip is latched. */
  record Restart(String by) implements Request {}

  /** End the batch in an orderly way: cool, then stopped. */
  record Stop(String by) implements Request {}

  /** End the batch at once in the safe state. */
  record Abort(String by) implements Request {}

  /** Take note of an alarm. */
  record Acknowledge(String by, String alarm) implements Request {}

  /** Clear a latched trip whose cause is gone; {@code reason} goes into the record. */
  record Reset(String by, String alarm, String reason) implements Request {}

  /**
   * Answer the question that is open.
   *
   * @param questionNumber number of the open question, so that an old page cannot answer a new one
   * @param values answers in SI units by the question's name, masses in kg
   * @param remark free words, may be empty
   */
  record Answer(String by, int questionNumber, Map<String, Double> values, String remark)
      implements Request {
    public Answer {
      values = Map.copyOf(values);
    }
  }

  /** Say that one is at the bench for so many hours. */
  record CheckIn(String by, double hours) implements Request {}

  /** Say that one leaves. */
  record CheckOut(String by) implements Request {}

  /** Give the bench into the hands of {@code to}, who stays for so many hours. */
  record HandOver(String by, String to, double hours) implements Request {}

  /** Silence an alarm for a while; what it withholds stays withheld. */
  record Shelve(String by, String alarm, double minutes, String reason) implements Request {}

  /** Let a shelved alarm be heard again. */
  record Unshelve(String by, String alarm) implements Request {}

  /** Take away the effect of an interlock for a while, where the rig file allows it. */
  record Defeat(String by, String alarm, double minutes, String reason) implements Request {}

  /** Enforce a defeated interlock again. */
  record Enforce(String by, String alarm) implements Request {}

  /**
   * Solid was lost. Composition stays; the amount follows from what is left, or from what was lost.
   *
   * @param leftKg mass of the solid left, weighed; 0 where not known
   * @param lostKg mass of the solid lost, weighed or estimated; 0 where {@code leftKg} is known
   * @param remark free words, may be empty
   */
  record Loss(String by, double leftKg, double lostKg, String remark) implements Request {}

  /**
   * The solid was moved to another boat or vessel of the same volume; what stayed behind is lost.
   *
   * @param arrivedKg mass of the solid that arrived
   */
  record Transfer(String by, double arrivedKg, String remark) implements Request {}

  /**
   * Another vessel holds the solid now; its gas spaces with their standard uncertainties.
   *
   * @param hotM3 gas space in the oven
   * @param hotUncertaintyM3 its standard uncertainty
   * @param coldM3 gas space outside the oven
   * @param coldUncertaintyM3 its standard uncertainty
   */
  record VesselChange(
      String by,
      double hotM3,
      double hotUncertaintyM3,
      double coldM3,
      double coldUncertaintyM3,
      String remark)
      implements Request {}

  /**
   * Another oxygen source is connected.
   *
   * @param oxygenFraction amount fraction of O2
   * @param uncertainty standard uncertainty of the fraction
   * @param supplyPa absolute pressure upstream of the oxygen valve
   */
  record SourceChange(
      String by, double oxygenFraction, double uncertainty, double supplyPa, String remark)
      implements Request {}

  /** Fresh charge of the same formula was added. */
  record Addition(String by, double addedKg, String remark) implements Request {}

  /** A sample of the solid was taken out. */
  record SampleTaken(String by, double takenKg, String remark) implements Request {}

  /** Words for the ledger that change no figure: a remark, a grinding. */
  record Note(String by, String remark) implements Request {}

  /**
   * A photo for the ledger; its bytes are kept beside the record.
   *
   * @param sha256 of its bytes, in hexadecimal digits
   * @param bytes its size
   */
  record Photo(String by, String sha256, long bytes, String remark) implements Request {}

  /**
   * A former entry was wrong. It stays as it is; this one says what is right.
   *
   * @param ofMillis when the former entry was made, in ms since the batch began
   * @param former its words
   */
  record Correction(String by, long ofMillis, String former, String remark) implements Request {}

  /**
   * What a person found on the list before the start.
   *
   * @param recipeSha256 of the text that is about to run
   * @param answers by the name of the item
   */
  record Preflight(String by, String recipeSha256, Map<String, String> answers) implements Request {
    public Preflight {
      answers = Map.copyOf(answers);
    }
  }

  /**
   * Change numbers of a step that has not begun, or lengthen the soak that runs.
   *
   * @param position place of the step in the program, from 0
   * @param values new values in SI units by the words of a recipe file: to, at, for, rate, hold,
   *     pulse
   * @param rehearsed how the batch so changed went on a simulated bench
   */
  record ChangeStep(
      String by, int position, Map<String, Double> values, String reason, String rehearsed)
      implements Request {
    public ChangeStep {
      values = Map.copyOf(values);
    }
  }

  /** End the soak that runs, keeping what was earned. */
  record SkipSoak(String by, int position, String reason, String rehearsed) implements Request {}

  /**
   * The rehearsal of this batch is ready: what is expected of it.
   *
   * @param course as {@link ExpectedCourse#text}
   */
  record Expect(String by, String course) implements Request {}

  /**
   * The shell was restarted in mid-batch: no person, no memory of the bench in between.
   *
   * @param outageS how long nobody was in control, in s, by the wall clock
   */
  record PowerReturned(String by, double outageS) implements Request {}

  /**
   * The shell has a trouble of its own, such as a journal that cannot be written.
   *
   * @param alarm the row of the interlock table to raise
   * @param detail what is wrong, for the person
   * @param clockStepS how far the time of day was set forwards, in s; negative for back, 0 for not
   */
  record ShellTrouble(String by, String alarm, String detail, long clockStepS) implements Request {
    public ShellTrouble(String by, String alarm, String detail) {
      this(by, alarm, detail, 0);
    }
  }

  /**
   * The shell has found the record damaged: a word for the batch that is in hand since then.
   *
   * @param noticedAt wall-clock name of the moment, ISO 8601
   * @param what happened, was done and is to be done now, for the person
   */
  record RecordDamaged(String by, String noticedAt, String what) implements Request {}

  /**
   * What a batch finds at the bench; taken in its first tick only ({@link AsFound}).
   *
   * @param presence who is checked in, with times of the batch that begins
   * @param alarms rows of the interlock table that are not normal, by name
   * @param firstOut the one that came first of those that hold; empty for none
   */
  record TakeOver(String by, Presence presence, Map<String, AlarmState> alarms, String firstOut)
      implements Request {}
}
