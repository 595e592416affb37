package tarnish.controller.record;

import java.util.List;
import tarnish.controller.control.Event;
import tarnish.controller.control.Plan;
import tarnish.controller.control.SoakRecord;
import tarnish.controller.control.Tally;
import tarnish.controller.journal.Journal.Act;
import tarnish.controller.journal.Journal.BatchHead;
import tarnish.controller.journal.Journal.BatchLine;
import tarnish.controller.journal.Journal.EventLine;
import tarnish.controller.journal.Journal.History;
import tarnish.shared.estimate.Estimate;

/**
 * What the journal tells of one batch, in SI units.
 *
 * @param line as in the list of batches
 * @param head what it was started with
 * @param plan recipe and rig as read from the recorded texts
 * @param end where the accounts stood after the last tick
 * @param soaks with the time that each took
 * @param weighings in order
 * @param alarms in order of being raised
 * @param people who asked for anything
 * @param events all events and requests, oldest first
 * @param history readings in columns, least and greatest kept
 * @param stretches when it was paused, held or open
 * @param outages when nobody was in control, in order
 * @param course what control held in each of as many evenly spaced columns
 * @param check of the record against the control law
 * @param acts done or tried at the page during the batch, oldest first
 */
public record BatchStory(
    BatchLine line,
    BatchHead head,
    Plan plan,
    Books end,
    List<Soak> soaks,
    List<Weighing> weighings,
    List<Alarm> alarms,
    List<Person> people,
    List<EventLine> events,
    History history,
    List<Stretch> stretches,
    List<Outage> outages,
    Course course,
    Check check,
    List<Act> acts) {

  /** The accounts at one moment. */
  public record Books(
      String state,
      Tally tally,
      int pulses,
      Estimate uptakeMol,
      Estimate oxygenPerUnit,
      Estimate conversion) {}

  /** One soak; {@code endMillis} is negative where it never ended. */
  public record Soak(SoakRecord earned, long startMillis, long endMillis) {}

  /** A weighing with the composition by all witnesses and the uptake by the gas until then. */
  public record Weighing(
      long millis,
      String wallTime,
      Estimate massKg,
      Estimate oxygenPerUnit,
      Estimate uptakeMol,
      Estimate conversion) {}

  /** One alarm, what the program did by itself, and what came of it. */
  public record Alarm(
      String id,
      long millis,
      String wallTime,
      boolean firstOut,
      String text,
      String done,
      List<String> later) {}

  /** Who asked for something: how often, and from when to when. */
  public record Person(String name, int requests, String firstWallTime, String lastWallTime) {}

  /** What a stretch of time was other than running. */
  public enum Interruption {
    PAUSED,
    HELD,
    OPEN
  }

  /** A stretch of time in which the batch was paused, held, or its vessel may have been open. */
  public record Stretch(Interruption what, long fromMillis, long toMillis) {}

  /**
   * Time in which nobody was in control; {@code endWallTime} is that of the first tick after it.
   */
  public record Outage(long fromMillis, long toMillis, String endWallTime, Event.Outage told) {}

  /**
   * Setpoint and composition at the end of each column.
   *
   * @param columnMillis width of a column
   * @param setpointK NaN where the heater was off
   * @param oxygenPerUnit null where no tick fell into the column
   * @param inBandS time within the band of all soaks so far; NaN where no tick fell into the column
   * @param equivalentS Arrhenius-equivalent time so far; NaN as before
   */
  public record Course(
      double columnMillis,
      double[] setpointK,
      Estimate[] oxygenPerUnit,
      double[] inBandS,
      double[] equivalentS) {}

  /** Outcome of running control again; {@code firstDifference} is empty where there is none. */
  public record Check(long ticks, String firstDifference) {}

  /** Whether anything about it is not of a real bench. */
  public boolean isInvented() {
    return plan.recipe().invented() || plan.rig().invented();
  }

  /** Events of one kind. */
  List<EventLine> events(String kind) {
    return events.stream().filter(line -> line.kind().equals(kind)).toList();
  }
}
