package tarnish.controller.control;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.recipe.Step;

/**
 * What is still to come, from the recipe's own times and rough figures for the rest.
 *
 * @param course corner points of the setpoint still to come
 * @param endS when the last step ends, in s since the batch began
 * @param waitsForPerson whether a person is waited for on the way, so that the end may be later
 * @param visit the next time that a person is needed; null where none is
 * @param soaks when each soak to come or under way begins and ends, by its place in the program; of
 *     a repeated one the next pass
 */
public record Outlook(
    List<Point> course,
    double endS,
    boolean waitsForPerson,
    Visit visit,
    Map<Integer, Span> soaks) {
  /** When a person is needed at the bench, in s since the batch began, and for which step. */
  public record Visit(double atS, String title) {}

  /** From when to when, in s since the batch began. */
  public record Span(double fromS, double toS) {}

  /** A corner of the setpoint's course; a negative setpoint means heater off. */
  public record Point(double atS, double setpointK) {}

  /** Rough figures of a small bench, only for the forecast: common practice. */
  private static final double PUMP_DOWN_S = 120;

  private static final double FILL_CYCLE_S = 60;
  private static final double PULSE_S = 3;
  private static final double COOLING_TIME_CONSTANT_S = 2400;
  private static final double ROOM_K = 295;

  /** The outlook from a state. */
  public static Outlook from(Plan plan, ControlState state, Readings readings) {
    Walk walk = new Walk(state.program(), state, readings);
    Cursor cursor = state.cursor();
    int from = cursor.position();
    if (from < state.program().size() && state.program().at(from) instanceof Instruction.Do doing) {
      walk.step(doing.step(), state.run(), from);
      from++;
    }
    walk.from(from, cursor.passes());
    return new Outlook(
        List.copyOf(walk.points), walk.atS, walk.visit != null, walk.visit, Map.copyOf(walk.soaks));
  }

  /** Walks the steps to come and adds up their times. */
  private static final class Walk {
    private final Program program;
    private final List<Point> points = new ArrayList<>();
    private double atS;
    private double temperatureK;
    private double pressurePa;
    private Visit visit;
    private final Map<Integer, Span> soaks = new HashMap<>();

    Walk(Program program, ControlState state, Readings readings) {
      this.program = program;
      atS = StrictMath.max(0, state.lastMillis()) / 1000.0;
      temperatureK = readings.valueOr(Channel.SAMPLE_TEMPERATURE, ROOM_K);
      pressurePa = readings.valueOr(Channel.VESSEL_PRESSURE, 0);
      if (state.setpointK() != ControlState.HEATER_OFF) {
        temperatureK = state.setpointK();
      }
      points.add(new Point(atS, state.setpointK()));
    }

    /** To the end of the program, out of the repeats that are under way. */
    void from(int position, int[] passes) {
      int at = position;
      while (at < program.size()) {
        int next = program.at(at) instanceof Instruction.LoopStart start ? start.end() + 1 : at + 1;
        between(at, next);
        if (program.at(at) instanceof Instruction.LoopEnd end) {
          repeat(end.start() + 1, at, end.repeat().timesMax() - passes[end.start()]);
        }
        at = next;
      }
    }

    /** Everything in a part of the program, repeats in full. */
    private void between(int first, int end) {
      int at = first;
      while (at < end) {
        if (program.at(at) instanceof Instruction.LoopStart start) {
          repeat(at + 1, start.end(), start.repeat().timesMax());
          at = start.end();
        } else if (program.at(at) instanceof Instruction.Do doing) {
          step(doing.step(), null, at);
        }
        at++;
      }
    }

    private void repeat(int first, int end, int passes) {
      for (int pass = 0; pass < passes; pass++) {
        between(first, end);
      }
    }

    void step(Step step, StepRun run, int at) {
      if (Presences.needsPerson(step)) {
        visited(step);
      }
      if (step instanceof Step.Ramp ramp) {
        toTemperature(ramp.toK(), ramp.rateKPerS());
      } else if (step instanceof Step.Soak soak) {
        soak(soak, run instanceof SoakRun soaking ? soaking : null, at);
      } else if (step instanceof Step.Cool cool) {
        cool(cool.toK());
      } else if (step instanceof Step.Open open) {
        cool(open.belowK());
        visited(step);
        atS += open.purgeCycles() * FILL_CYCLE_S;
      } else if (step instanceof Step.Ask) {
        visited(step);
      } else {
        atS += gasStepS(step);
      }
    }

    private void visited(Step step) {
      if (visit == null) {
        visit = new Visit(atS, step.common().title());
      }
    }

    private double gasStepS(Step step) {
      if (step instanceof Step.Evacuate) {
        pressurePa = 0;
        return PUMP_DOWN_S;
      }
      if (step instanceof Step.LeakTest test) {
        return test.settleS() + test.durationS();
      }
      if (step instanceof Step.Backfill fill) {
        pressurePa = fill.toPa();
        return fill.cycles() * FILL_CYCLE_S;
      }
      if (step instanceof Step.Dose dose) {
        double missingPa = StrictMath.max(0, dose.toPa() - pressurePa);
        double pulses = StrictMath.ceil(missingPa / dose.pulsePa());
        pressurePa = dose.toPa();
        return StrictMath.min(pulses, dose.pulsesMax()) * (dose.waitMinS() + PULSE_S);
      }
      return 0;
    }

    private void soak(Step.Soak soak, SoakRun soaking, int at) {
      double rate = soaking == null ? 0 : soaking.rateKPerS();
      if (rate > 0) {
        toTemperature(soak.atK(), rate);
      }
      double fromS = atS;
      atS += soak.durationS() - (soaking == null ? 0 : soaking.inBandS());
      soaks.putIfAbsent(at, new Span(fromS, atS));
      temperatureK = soak.atK();
      points.add(new Point(atS, temperatureK));
    }

    private void toTemperature(double toK, double rateKPerS) {
      points.add(new Point(atS, temperatureK));
      atS += StrictMath.abs(toK - temperatureK) / rateKPerS;
      temperatureK = toK;
      points.add(new Point(atS, temperatureK));
    }

    private void cool(double toK) {
      if (temperatureK > toK && toK > ROOM_K) {
        double ratio = (temperatureK - ROOM_K) / (toK - ROOM_K);
        points.add(new Point(atS, ControlState.HEATER_OFF));
        atS += COOLING_TIME_CONSTANT_S * StrictMath.log(ratio);
        temperatureK = toK;
        points.add(new Point(atS, ControlState.HEATER_OFF));
      }
    }
  }
}
