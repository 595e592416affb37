package tarnish.sim;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Heater;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;
import tarnish.shared.rig.Switch;

class SimulatedRigTest {
  private static final RigDescription RIG = TestBench.rig();

  @Test
  void oneSeedOneOutcome() {
    assertEquals(fingerprint(42), fingerprint(42));
    assertNotEquals(fingerprint(42), fingerprint(43));
  }

  /** Changes only when equations or constants are changed on purpose; the machine must not. */
  @Test
  void theOutcomeIsTheSameOnAnyMachine() {
    assertEquals(8458129963151433231L, fingerprint(42));
  }

  @Test
  void aTickAllocatesNothing() {
    SimulatedRig bench = new SimulatedRig(RIG, TestBench.copper(), 42);
    Readings readings = new Readings(RIG.resolutions());
    Outputs[] outputs = {Outputs.of(400, Switch.HEATER, Switch.OXYGEN), Outputs.OFF};
    ThreadMXBean thread = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    runTicks(bench, readings, outputs, 1000);
    long before = thread.getCurrentThreadAllocatedBytes();
    runTicks(bench, readings, outputs, 20_000);
    long allocated = thread.getCurrentThreadAllocatedBytes() - before;
    assertTrue(allocated < 20_000, allocated + " bytes in 20000 ticks");
  }

  @Test
  void timeWithoutControlPassesInLongStepsAsItDoesInShortOnes() {
    SimulatedRig bench = new SimulatedRig(RIG, TestBench.copper(), 42);
    Readings readings = new Readings(RIG.resolutions());
    Outputs[] heating = {Outputs.of(400, Switch.HEATER), Outputs.of(400, Switch.HEATER)};
    runTicks(bench, readings, heating, 4000);
    bench.write(Outputs.OFF);
    SimulatedRig ticked = bench.fork();
    bench.advance(6 * 3600);
    for (int i = 0; i < 6 * 3600 * 4; i++) {
      ticked.advance(SimulatedRig.TICK_S);
    }
    assertEquals(ticked.truth().sampleK(), bench.truth().sampleK(), 0.01);
    assertEquals(ticked.truth().wallK(), bench.truth().wallK(), 0.01);
    assertEquals(ticked.truth().pressurePa(), bench.truth().pressurePa(), 1);
    assertEquals(ticked.truth().uptakeMol(), bench.truth().uptakeMol(), 1e-9);
  }

  @Test
  void aForkGoesOnAsTheBenchItCameFromAndLeavesItAlone() {
    SimulatedRig bench = new SimulatedRig(RIG, TestBench.copper(), 42);
    Readings readings = new Readings(RIG.resolutions());
    Outputs[] outputs = {Outputs.of(400, Switch.HEATER, Switch.OXYGEN), Outputs.OFF};
    runTicks(bench, readings, outputs, 3000);
    SimulatedRig fork = bench.fork();
    SimulatedRig spoilt = bench.fork();
    spoilt.inject(Fault.HEATER_RELAY_WELDED, 1);
    runTicks(spoilt, new Readings(RIG.resolutions()), outputs, 2000);
    Readings forked = new Readings(RIG.resolutions());
    for (int i = 0; i < 2000; i++) {
      runTicks(bench, readings, outputs, 1);
      runTicks(fork, forked, outputs, 1);
      assertEquals(bench.truth(), fork.truth());
      for (SensorDescription sensor : RIG.sensors()) {
        assertEquals(readings.at(sensor.channel()), forked.at(sensor.channel()));
      }
    }
    assertNotEquals(bench.truth(), spoilt.truth());
  }

  private static void runTicks(
      SimulatedRig bench, Readings readings, Outputs[] outputs, int ticks) {
    for (int i = 0; i < ticks; i++) {
      bench.write(outputs[i % 50 == 0 ? 0 : 1]);
      bench.advance(0.25);
      bench.read(readings);
    }
  }

  private static long fingerprint(long seed) {
    SimulatedRig bench = new SimulatedRig(RIG, TestBench.copper(), seed);
    Readings readings = new Readings(RIG.resolutions());
    long hash = 17;
    for (int i = 0; i < 8000; i++) {
      Switch gas = i % 100 < 3 ? Switch.OXYGEN : Switch.HEARTBEAT;
      bench.write(Outputs.of(400, Switch.HEATER, gas));
      bench.advance(0.25);
      bench.read(readings);
      for (SensorDescription sensor : RIG.sensors()) {
        hash = 31 * hash + readings.steps(sensor.channel());
      }
    }
    return 31 * hash + Double.doubleToLongBits(bench.truth().uptakeMol());
  }

  @Test
  void nothingBreaksUnderRandomSwitching() {
    for (long seed = 1; seed <= 6; seed++) {
      System.out.println("random switching, seed " + seed);
      switchAtRandom(seed);
    }
  }

  private static void switchAtRandom(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    SimulatedRig bench =
        new SimulatedRig(RIG, seed % 2 == 0 ? TestBench.copper() : TestBench.bariumOxide(), seed);
    Readings readings = new Readings(RIG.resolutions());
    for (int i = 0; i < 20_000; i++) {
      if (random.nextInt(8) == 0) {
        bench.write(new Outputs(random.nextInt(128), random.nextInt(1001)));
      }
      if (random.nextInt(50) == 0) {
        actAtRandom(bench, random);
      }
      bench.advance(0.25);
      bench.read(readings);
      for (double value : bench.state()) {
        assertTrue(Double.isFinite(value), () -> bench.truth().toString());
      }
      double[] y = bench.state();
      double lost = y[Plant.OXYGEN] + y[Plant.UPTAKE] - y[Plant.OXYGEN_GAINED];
      assertEquals(0, lost, 1e-8, () -> "oxygen came or went: " + bench.truth());
      Truth truth = bench.truth();
      assertTrue(truth.oxygenMol() >= 0 && truth.inertMol() >= 0 && truth.sampleK() > 200);
      assertTrue(truth.pressurePa() >= 0 && truth.pressurePa() < 1e7, truth::toString);
      assertTrue(truth.oxygenPerUnit() > -1e-6 && truth.oxygenPerUnit() < 1 + 1e-6);
    }
  }

  private static void actAtRandom(SimulatedRig bench, SplittableRandom random) {
    Fault fault = Fault.values()[random.nextInt(Fault.COUNT)];
    switch (random.nextInt(6)) {
      case 0 -> bench.setVesselOpen(random.nextBoolean());
      case 1 -> bench.grind();
      case 2 -> bench.spill(random.nextDouble() * 0.01);
      case 3 -> bench.inject(fault, random.nextDouble());
      default -> bench.clear(fault);
    }
  }

  @Test
  void readingsAgreeWithTheTruthWithinWhatTheRigFileSays() {
    SimulatedRig bench = new SimulatedRig(RIG, TestBench.copper(), 3);
    Readings readings = new Readings(RIG.resolutions());
    bench.advance(10);
    bench.read(readings);
    assertEquals(bench.truth().sampleK(), readings.value(Channel.SAMPLE_TEMPERATURE), 4.5);
    assertEquals(bench.truth().pressurePa(), readings.value(Channel.VESSEL_PRESSURE), 900);
    assertEquals(1, readings.value(Channel.EMERGENCY_STOP));
    assertEquals(1, readings.value(Channel.DOOR));
    bench.openDoor(true);
    bench.pressEmergencyStop(true);
    bench.advance(0.25);
    bench.read(readings);
    assertEquals(0, readings.value(Channel.EMERGENCY_STOP));
    assertEquals(0, readings.value(Channel.DOOR));
  }

  @Test
  void hiddenErrorsSpreadAsStated() {
    double squares = 0;
    double volumes = 0;
    double gains = 0;
    double purities = 0;
    int benches = 400;
    for (int seed = 0; seed < benches; seed++) {
      BenchSpec spec = BenchSpec.drawn(RIG, TestBench.copper(), seed);
      double offset = spec.sensorErrors().get(0).offset();
      squares += offset * offset;
      double off = (spec.gas().volume().hotM3() - 2.5e-4) / 2e-6;
      volumes += off * off;
      double gain = spec.sensorErrors().get(0).gain() / 0.001;
      gains += gain * gain;
      double purity = (spec.gas().oxygenFraction() - 0.995) / 0.001;
      purities += purity * purity;
    }
    assertEquals(1.0, StrictMath.sqrt(squares / benches), 0.12);
    assertEquals(1.0, StrictMath.sqrt(volumes / benches), 0.12);
    assertEquals(1.0, StrictMath.sqrt(gains / benches), 0.12);
    assertEquals(1.0, StrictMath.sqrt(purities / benches), 0.12);
  }

  @Test
  void relayFollowsItsSwitchAndAnalogueItsDuty() {
    assertEquals(elementAfter(Heater.Actuator.RELAY, 0), elementAfter(Heater.Actuator.RELAY, 900));
    assertTrue(
        elementAfter(Heater.Actuator.ANALOGUE, 900) > elementAfter(Heater.Actuator.ANALOGUE, 100));
    assertEquals(
        elementAfter(Heater.Actuator.RELAY, 0), elementAfter(Heater.Actuator.ANALOGUE, 1000), 1e-9);
  }

  private static double elementAfter(Heater.Actuator actuator, int perMille) {
    SimulatedRig bench = new SimulatedRig(TestBench.rig(actuator), TestBench.copper(), 1);
    bench.write(Outputs.of(perMille, Switch.HEATER));
    bench.advance(10);
    return bench.truth().elementK();
  }

  @Test
  void anOpenVesselFillsWithAirUnlessItIsSwept() {
    double still = oxygenShareWhenOpen(Outputs.OFF);
    double swept = oxygenShareWhenOpen(Outputs.of(0, Switch.INERT));
    System.out.printf("oxygen in the open vessel: still %.4f, swept %.2e%n", still, swept);
    assertEquals(0.209, still, 0.005);
    assertTrue(swept < 0.01, "swept " + swept);
  }

  private static double oxygenShareWhenOpen(Outputs outputs) {
    SimulatedRig bench = new SimulatedRig(RIG, TestBench.copper(), 2);
    bench.setVesselOpen(true);
    bench.write(outputs);
    bench.advance(1200);
    Truth truth = bench.truth();
    return truth.oxygenMol() / (truth.oxygenMol() + truth.inertMol());
  }

  @Test
  void theVentLetsAirIntoAnEvacuatedVessel() {
    SimulatedRig bench = new SimulatedRig(RIG, TestBench.copper(), 2);
    bench.write(Outputs.of(0, Switch.PUMP, Switch.VACUUM));
    bench.advance(30);
    bench.write(Outputs.of(0, Switch.VENT));
    bench.advance(120);
    assertTrue(bench.truth().oxygenMol() > 0.2 * bench.truth().inertMol());
  }

  @Test
  void anotherOxygenSourceBringsItsOwnInertGas() {
    SimulatedRig bench = new SimulatedRig(RIG, TestBench.bariumOxide(), 2);
    bench.write(Outputs.of(0, Switch.PUMP, Switch.VACUUM));
    bench.advance(30);
    bench.changeOxygenSource(0.93, 1.5e5);
    bench.write(Outputs.of(0, Switch.OXYGEN));
    bench.advance(60);
    Truth truth = bench.truth();
    assertEquals(0.93, truth.oxygenMol() / (truth.oxygenMol() + truth.inertMol()), 0.001);
    assertEquals(1.5e5, truth.pressurePa(), 2000);
    assertThrows(IllegalArgumentException.class, () -> bench.changeOxygenSource(Double.NaN, 1e5));
  }

  @Test
  void theBalanceShowsTheMassWithinItsNoise() {
    SimulatedRig bench = new SimulatedRig(RIG, TestBench.copper(), 2);
    double sum = 0;
    for (int i = 0; i < 100; i++) {
      sum += bench.weigh();
    }
    // Copper is nearly as dense as the weights: 0.06 mg of 4 g of it are buoyancy.
    assertEquals(bench.truth().solidMassKg(), sum / 100, 0.5e-6);
    assertNotEquals(bench.weigh(), bench.weigh());
  }

  @Test
  void timeThatDoesNotPassIsRefused() {
    SimulatedRig bench = new SimulatedRig(RIG, TestBench.copper(), 2);
    assertThrows(IllegalArgumentException.class, () -> bench.advance(Double.NaN));
    assertThrows(IllegalArgumentException.class, () -> bench.advance(0));
    assertThrows(IllegalArgumentException.class, () -> bench.spill(Double.NaN));
  }
}
