package tarnish.controller.app;

import java.util.List;
import java.util.function.Consumer;
import java.util.function.UnaryOperator;
import tarnish.controller.control.InterlockTable;
import tarnish.controller.control.Request;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Vessel;
import tarnish.sim.Fault;
import tarnish.sim.SimulatedRig;

/**
 * How one row of the interlock table is provoked on the simulated bench.
 *
 * @param row its name
 * @param course which course of a batch it is tried in
 * @param step kind of step in which it is provoked
 * @param afterS how long that step has run by then, in s
 * @param provoke what is done to the bench
 * @param requests what is asked of control at that moment
 * @param gapS how long the loop then stands still, in s
 * @param rig the rig with a limit lowered for the test
 * @param alone whether nobody comes to the bench from then on
 */
record ProofTrial(
    String row,
    Course course,
    String step,
    double afterS,
    Consumer<SimulatedRig> provoke,
    List<Request> requests,
    double gapS,
    UnaryOperator<RigDescription> rig,
    boolean alone) {

  /** Courses of a batch, see {@link ProofRecipe}. */
  enum Course {
    HEATED,
    STAGED,
    OVERPRESSURE,
    UNFILLED,
    ALONE
  }

  /** A source with less oxygen than air. */
  private static final double LEAN = 0.2;

  private static final double TEST_HEATER_K_PER_S = 2;

  private static final String BY = StandInOperator.NAME;

  private static ProofTrial fault(String row, String step, double afterS, Fault fault, double bad) {
    return new ProofTrial(
        row,
        Course.HEATED,
        step,
        afterS,
        bench -> bench.inject(fault, bad),
        List.of(),
        0,
        UnaryOperator.identity(),
        false);
  }

  /** A hundredfold reaction; on a lean gas, where there is little to react, a test heater. */
  private static ProofTrial runaway() {
    ProofTrial plain = fault("runaway", "soak", 120, Fault.RUNAWAY, 1);
    Consumer<SimulatedRig> provoke =
        bench -> {
          bench.inject(Fault.RUNAWAY, 1);
          if (bench.spec().gas().oxygenFraction() < LEAN) {
            bench.heatSample(TEST_HEATER_K_PER_S * bench.spec().thermal().sampleJPerK());
          }
        };
    return new ProofTrial(
        plain.row,
        plain.course,
        plain.step,
        plain.afterS,
        provoke,
        plain.requests,
        plain.gapS,
        plain.rig,
        plain.alone);
  }

  private static ProofTrial asked(String row, Request... requests) {
    return new ProofTrial(
        row,
        Course.HEATED,
        "ramp",
        60,
        bench -> {},
        List.of(requests),
        0,
        UnaryOperator.identity(),
        true);
  }

  private static ProofTrial trouble(String row) {
    return asked(row, new Request.ShellTrouble("proof test", row, "Proof test."));
  }

  private ProofTrial in(Course other) {
    return new ProofTrial(row, other, step, afterS, provoke, requests, gapS, rig, alone);
  }

  private ProofTrial on(UnaryOperator<RigDescription> other) {
    return new ProofTrial(row, course, step, afterS, provoke, requests, gapS, other, alone);
  }

  private static ProofTrial limit(String row, UnaryOperator<Limits> lowered) {
    return fault(row, "evacuate", 0, Fault.HEATER_DEAD, 0)
        .on(rig -> rig.withLimits(lowered.apply(rig.attended()), lowered.apply(rig.unattended())));
  }

  private static RigDescription thin(RigDescription rig) {
    Vessel v = rig.vessel();
    Vessel thin =
        new Vessel(
            v.name(),
            v.glass(),
            v.boreM(),
            1e-8,
            v.volume(),
            v.hotStandardUncertaintyM3(),
            v.coldStandardUncertaintyM3(),
            v.sealMaterial(),
            v.sealMaxK());
    return rig.withVessel(thin);
  }

  /** One trial for each row that a simulated bench can provoke. */
  static List<ProofTrial> all() {
    return List.of(
        fault("emergency stop", "ramp", 60, Fault.EMERGENCY_STOP_PRESSED, 1),
        fault("door open", "ramp", 60, Fault.DOOR_OPEN, 1),
        asked("operator overdue", new Request.CheckIn(BY, 0.01)),
        fault("person needed", "evacuate", 0, Fault.HEATER_DEAD, 0).in(Course.ALONE),
        asked(
            "interlock defeated",
            new Request.CheckIn(BY, 1),
            new Request.Defeat(BY, "door open", 5, "proof test")),
        fault("room oxygen high", "ramp", 60, Fault.ROOM_OXYGEN_HIGH, 1),
        fault("room oxygen low", "ramp", 60, Fault.ROOM_OXYGEN_LOW, 1),
        fault("room oxygen lost", "ramp", 60, Fault.ROOM_OXYGEN_SENSOR_OPEN, 1),
        limit("sample too hot", l -> ProofBench.limits(l, 330, l.ovenMaxK(), l.sealMaxK(), 1e5)),
        limit("oven too hot", l -> ProofBench.limits(l, l.sampleMaxK(), 350, l.sealMaxK(), 1e5)),
        limit(
            "second oven sensor too hot",
            l -> ProofBench.limits(l, l.sampleMaxK(), 350, l.sealMaxK(), 1e5)),
        limit("seal too hot", l -> ProofBench.limits(l, l.sampleMaxK(), l.ovenMaxK(), 297, 1e5)),
        limit(
            "pressure too high",
            l -> ProofBench.limits(l, l.sampleMaxK(), l.ovenMaxK(), l.sealMaxK(), 2e4)),
        limit(
            "second gauge pressure too high",
            l -> ProofBench.limits(l, l.sampleMaxK(), l.ovenMaxK(), l.sealMaxK(), 2e4)),
        fault("glass over its rating", "backfill", 0, Fault.HEATER_DEAD, 0)
            .in(Course.OVERPRESSURE)
            .on(rig -> thin(ProofRecipe.roomy(rig))),
        fault("sample temperature lost", "ramp", 60, Fault.SAMPLE_THERMOCOUPLE_OPEN, 1),
        fault("oven temperature lost", "ramp", 60, Fault.OVEN_THERMOCOUPLE_OPEN, 1),
        fault("second oven temperature lost", "ramp", 60, Fault.SECOND_OVEN_THERMOCOUPLE_OPEN, 1),
        fault("seal temperature lost", "ramp", 60, Fault.SEAL_SENSOR_OPEN, 1),
        fault("vessel pressure lost", "ramp", 60, Fault.PRESSURE_GAUGE_OPEN, 1),
        fault("second vessel pressure lost", "ramp", 60, Fault.SECOND_GAUGE_OPEN, 1),
        runaway(),
        fault("heater stuck on", "soak", 120, Fault.HEATER_RELAY_WELDED, 1),
        fault("heater dead", "ramp", 120, Fault.HEATER_DEAD, 1),
        // Slipped in a ramp it would leap to the oven's temperature and pass for a runaway.
        fault("sample sensor loose", "soak", 1500, Fault.SAMPLE_THERMOCOUPLE_DETACHED, 1)
            .in(Course.STAGED),
        fault("gas comes in", "soak", 120, Fault.OXYGEN_VALVE_STUCK_OPEN, 1),
        fault("supply valve passes", "soak", 120, Fault.OXYGEN_VALVE_STUCK_OPEN, 1),
        fault("vessel leaks", "leak test", 30, Fault.VESSEL_CRACKED, 1),
        fault("pump fails", "backfill", 0, Fault.PUMP_FAILED, 1),
        fault("no filling", "backfill", 0, Fault.INERT_SUPPLY_EMPTY, 1),
        fault("vent blocked", "open", 0, Fault.VENT_BLOCKED, 1)
            .in(Course.OVERPRESSURE)
            .on(ProofRecipe::roomy),
        fault("pressure low", "ramp", 0, Fault.HEATER_DEAD, 0).in(Course.UNFILLED),
        fault("oven sensors disagree", "soak", 60, Fault.OVEN_THERMOCOUPLE_DRIFT, 1),
        fault("gauges disagree", "ramp", 60, Fault.SECOND_GAUGE_OFF, 1),
        fault("oxygen supply empty", "ramp", 60, Fault.OXYGEN_SUPPLY_EMPTY, 1),
        new ProofTrial(
            InterlockTable.LOOP_OVERRUN,
            Course.HEATED,
            "ramp",
            60,
            bench -> {},
            List.of(),
            5,
            UnaryOperator.identity(),
            true),
        asked("power returned", new Request.PowerReturned("proof test", 10)),
        trouble(InterlockTable.JOURNAL_NOT_WRITABLE),
        trouble(InterlockTable.CLOCK_LOST),
        trouble(InterlockTable.CLOCK_STEPPED),
        fault("step overdue", "backfill", 0, Fault.PUMP_FAILED, 0.97),
        fault("leak test failed", "leak test", 1, Fault.VESSEL_CRACKED, 0.001),
        fault("no pressure step", "dose", 0, Fault.OXYGEN_VALVE_BLOCKED, 1));
  }
}
