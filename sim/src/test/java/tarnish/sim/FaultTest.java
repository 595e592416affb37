package tarnish.sim;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Reading;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Switch;

/** Every fault shows what it would show on a bench. */
class FaultTest {
  private static final RigDescription RIG = TestBench.rig();
  private static final Outputs EVACUATE = Outputs.of(0, Switch.PUMP, Switch.VACUUM);
  private static final Outputs WARM = Outputs.of(300, Switch.HEATER);
  private static final Outputs DOSE = Outputs.of(0, Switch.OXYGEN);
  private final SimulatedRig bench = new SimulatedRig(RIG, TestBench.copper(), 5);
  private final Readings readings = new Readings(RIG.resolutions());

  @Test
  void weldedRelayHeatsWithTheHeaterOff() {
    bench.inject(Fault.HEATER_RELAY_WELDED, 1);
    double before = bench.truth().wallK();
    run(Outputs.OFF, 120);
    assertTrue(bench.truth().wallK() > before + 30);
  }

  @Test
  void deadHeaterStaysColdAtFullOutput() {
    bench.inject(Fault.HEATER_DEAD, 1);
    double before = bench.truth().wallK();
    run(Outputs.of(1000, Switch.HEATER), 600);
    assertEquals(before, bench.truth().wallK(), 0.5);
  }

  @Test
  void openAndShortedThermocouplesAreReported() {
    bench.inject(Fault.SAMPLE_THERMOCOUPLE_OPEN, 1);
    bench.inject(Fault.OVEN_THERMOCOUPLE_OPEN, 1);
    assertBad(BadReason.OPEN_CIRCUIT, Channel.SAMPLE_TEMPERATURE);
    assertBad(BadReason.OPEN_CIRCUIT, Channel.OVEN_TEMPERATURE);
    bench.clear(Fault.SAMPLE_THERMOCOUPLE_OPEN);
    bench.inject(Fault.SAMPLE_THERMOCOUPLE_SHORT, 1);
    assertBad(BadReason.SHORT_CIRCUIT, Channel.SAMPLE_TEMPERATURE);
    bench.clear(Fault.SAMPLE_THERMOCOUPLE_SHORT);
    assertTrue(read().isGood(Channel.SAMPLE_TEMPERATURE));
  }

  @Test
  void halfShortedThermocoupleReadsTooColdAndSaysNothing() {
    run(WARM, 3600);
    bench.inject(Fault.SAMPLE_THERMOCOUPLE_SHORT, 0.5);
    double between = (bench.truth().sampleK() + 295) / 2;
    assertEquals(between, read().value(Channel.SAMPLE_TEMPERATURE), 4);
  }

  @Test
  void frozenThermocoupleRepeatsItsLastValueToTheLastDigit() {
    long last = read().steps(Channel.SAMPLE_TEMPERATURE);
    bench.inject(Fault.SAMPLE_THERMOCOUPLE_FROZEN, 1);
    run(WARM, 1800);
    assertEquals(last, read().steps(Channel.SAMPLE_TEMPERATURE));
    assertTrue(bench.truth().sampleK() > 320);
  }

  @Test
  void jumpingThermocoupleJumps() {
    bench.inject(Fault.SAMPLE_THERMOCOUPLE_JUMPING, 1);
    int jumps = 0;
    double last = bench.truth().sampleK();
    for (int i = 0; i < 200; i++) {
      run(Outputs.OFF, 0.25);
      double now = read().valueOr(Channel.SAMPLE_TEMPERATURE, last);
      jumps += StrictMath.abs(now - last) > 10 ? 1 : 0;
      last = now;
    }
    assertTrue(jumps > 20, jumps + " jumps");
  }

  @Test
  void detachedThermocoupleFollowsTheOvenInsteadOfTheSample() {
    run(WARM, 400);
    bench.inject(Fault.SAMPLE_THERMOCOUPLE_DETACHED, 1);
    run(WARM, 400);
    double seen = read().value(Channel.SAMPLE_TEMPERATURE);
    Truth truth = bench.truth();
    assertTrue(seen > truth.sampleK() + 10, seen + " against " + truth);
    assertTrue(seen < truth.wallK() + 5);
  }

  @Test
  void driftingThermocoupleLeavesItsPair() {
    bench.inject(Fault.OVEN_THERMOCOUPLE_DRIFT, 1);
    double apart = apart();
    run(Outputs.OFF, 3600);
    assertEquals(20, apart() - apart, 1);
  }

  private double apart() {
    read();
    return readings.value(Channel.OVEN_TEMPERATURE_PAIR) - readings.value(Channel.OVEN_TEMPERATURE);
  }

  @Test
  void pressureGaugeOpensAndFreezes() {
    long last = read().steps(Channel.VESSEL_PRESSURE);
    bench.inject(Fault.PRESSURE_GAUGE_FROZEN, 1);
    run(EVACUATE, 10);
    assertEquals(last, read().steps(Channel.VESSEL_PRESSURE));
    bench.inject(Fault.PRESSURE_GAUGE_OPEN, 1);
    assertBad(BadReason.OPEN_CIRCUIT, Channel.VESSEL_PRESSURE);
  }

  @Test
  void stuckAndLeakingOxygenValvesRaiseThePressureWithEverythingShut() {
    run(EVACUATE, 30);
    double tight = riseOver(Outputs.OFF, 60);
    bench.inject(Fault.OXYGEN_VALVE_LEAKING, 1);
    double leaking = riseOver(Outputs.OFF, 60);
    bench.inject(Fault.OXYGEN_VALVE_STUCK_OPEN, 1);
    double stuck = riseOver(Outputs.OFF, 60);
    assertTrue(leaking > 20 * tight, leaking + " against " + tight);
    assertTrue(stuck > 100 * leaking, stuck + " against " + leaking);
  }

  @Test
  void blockedValveAndEmptySupplyGiveNoPressureStep() {
    run(EVACUATE, 30);
    bench.inject(Fault.OXYGEN_VALVE_BLOCKED, 1);
    assertTrue(riseOver(DOSE, 2) < 1);
    bench.clear(Fault.OXYGEN_VALVE_BLOCKED);
    bench.inject(Fault.OXYGEN_SUPPLY_EMPTY, 1);
    assertTrue(riseOver(DOSE, 2) < 1);
    assertTrue(read().value(Channel.SUPPLY_PRESSURE) < 1000);
    bench.clear(Fault.OXYGEN_SUPPLY_EMPTY);
    assertTrue(riseOver(DOSE, 2) > 2000);
  }

  @Test
  void crackedVesselFillsWithAir() {
    run(EVACUATE, 30);
    bench.inject(Fault.VESSEL_CRACKED, 1);
    run(Outputs.OFF, 1800);
    Truth truth = bench.truth();
    assertEquals(101_325, truth.pressurePa(), 2000);
    assertEquals(0.209, truth.oxygenMol() / (truth.oxygenMol() + truth.inertMol()), 0.003);
  }

  @Test
  void failedPumpLeavesThePressureUp() {
    bench.inject(Fault.PUMP_FAILED, 1);
    run(EVACUATE, 60);
    assertTrue(bench.truth().pressurePa() > 90_000);
  }

  @Test
  void blockedVentKeepsThePressure() {
    run(Outputs.of(0, Switch.INERT), 60);
    double before = bench.truth().pressurePa();
    bench.inject(Fault.VENT_BLOCKED, 1);
    run(Outputs.of(0, Switch.VENT), 60);
    assertEquals(before, bench.truth().pressurePa(), 20);
    bench.clear(Fault.VENT_BLOCKED);
    run(Outputs.of(0, Switch.VENT), 60);
    assertTrue(bench.truth().pressurePa() < before - 10_000);
  }

  @Test
  void runawayMakesFarMoreHeat() {
    run(EVACUATE, 30);
    run(WARM, 1200);
    run(WARM.with(Switch.OXYGEN, true), 5);
    double calm = bench.truth().heatRateW();
    bench.inject(Fault.RUNAWAY, 1);
    run(WARM, 0.5);
    assertTrue(bench.truth().heatRateW() > 20 * calm);
    run(WARM, 30);
    assertTrue(bench.truth().sampleK() > bench.truth().vesselK() + 30);
  }

  @Test
  void overheatedSealWarmsFarAboveItsUsualTemperature() {
    run(WARM, 7200);
    double usual = bench.truth().sealK();
    bench.inject(Fault.SEAL_OVERHEATED, 1);
    run(WARM, 7200);
    assertTrue(bench.truth().sealK() > usual + 60);
  }

  @Test
  void openDoorIsSeenAndCoolsTheOven() {
    run(WARM, 3600);
    double before = bench.truth().wallK();
    bench.inject(Fault.DOOR_OPEN, 1);
    run(WARM, 300);
    assertEquals(0, read().value(Channel.DOOR));
    assertTrue(bench.truth().wallK() < before - 20);
  }

  @Test
  void pressedEmergencyStopIsSeenAndCutsHeaterAndOxygenInHardware() {
    run(EVACUATE, 30);
    bench.inject(Fault.HEATER_RELAY_WELDED, 1);
    bench.inject(Fault.EMERGENCY_STOP_PRESSED, 1);
    double before = bench.truth().elementK();
    assertTrue(riseOver(Outputs.of(1000, Switch.HEATER, Switch.OXYGEN), 10) < 5);
    assertEquals(before, bench.truth().elementK(), 0.1);
    assertEquals(0, read().value(Channel.EMERGENCY_STOP));
    bench.clear(Fault.EMERGENCY_STOP_PRESSED);
    run(Outputs.OFF, 1);
    assertEquals(1, read().value(Channel.EMERGENCY_STOP));
  }

  @Test
  void roomOxygenRises() {
    bench.inject(Fault.ROOM_OXYGEN_HIGH, 1);
    run(Outputs.OFF, 120);
    assertTrue(read().value(Channel.ROOM_OXYGEN) > 0.25);
  }

  @Test
  void silentInputsAreStale() {
    bench.inject(Fault.INPUTS_SILENT, 1);
    for (Channel channel : Channel.values()) {
      if (readings.isFitted(channel)) {
        assertBad(BadReason.STALE, channel);
      }
    }
  }

  @Test
  void watchedHeartbeatDropsHeaterAndOxygenWhenItStops() {
    bench.watchHeartbeat(2);
    for (int i = 0; i < 40; i++) {
      run(Outputs.of(1000, Switch.HEATER).with(Switch.HEARTBEAT, i % 2 == 0), 0.25);
    }
    double beating = bench.truth().elementK();
    assertTrue(beating > 340);
    run(Outputs.of(1000, Switch.HEATER), 2.5);
    double stopped = bench.truth().elementK();
    run(Outputs.of(1000, Switch.HEATER), 30);
    assertTrue(bench.truth().elementK() < stopped - 20);
    run(Outputs.of(1000, Switch.HEATER, Switch.HEARTBEAT), 1);
    double back = bench.truth().elementK();
    run(Outputs.of(1000, Switch.HEATER), 1);
    assertTrue(bench.truth().elementK() > back);
  }

  @Test
  void aSeverityThatIsNotANumberIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> bench.inject(Fault.HEATER_DEAD, Double.NaN));
    assertThrows(IllegalArgumentException.class, () -> bench.inject(Fault.HEATER_DEAD, 1.5));
    assertThrows(IllegalArgumentException.class, () -> bench.inject(Fault.VESSEL_CRACKED, -0.5));
  }

  private double riseOver(Outputs outputs, double seconds) {
    double before = bench.truth().pressurePa();
    run(outputs, seconds);
    return bench.truth().pressurePa() - before;
  }

  private void assertBad(BadReason reason, Channel channel) {
    assertFalse(read().isGood(channel));
    assertEquals(new Reading.Bad(reason), readings.at(channel));
  }

  private Readings read() {
    bench.read(readings);
    return readings;
  }

  private void run(Outputs outputs, double seconds) {
    bench.write(outputs);
    bench.advance(seconds);
  }
}
