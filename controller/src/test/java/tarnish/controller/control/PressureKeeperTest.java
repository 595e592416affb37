package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Step;

class PressureKeeperTest {
  private static final double HOLD_PA = 20_000;

  private static Step.Soak coldSoak() {
    return new Step.Soak(TestSteps.holding("Soak", HOLD_PA), 295, 1e6, 5);
  }

  @Test
  void aSmallLackIsLeftAlone() {
    DosedVessel vessel = new DosedVessel(coldSoak());
    vessel.pressurePa = HOLD_PA * 0.986;
    vessel.forSeconds(60);
    assertEquals(0, vessel.bench.state.gas().pulses());
    vessel.pressurePa = HOLD_PA * 0.984;
    vessel.tick();
    assertTrue(vessel.open());
    vessel.untilOpen(false, 10);
    assertEquals(HOLD_PA, vessel.pressurePa, 251);
    assertTrue(vessel.pressurePa >= HOLD_PA);
  }

  @Test
  void aLargeLackIsFilledInPulsesOfTheLimitWithTimeBetween() {
    DosedVessel vessel = new DosedVessel(coldSoak());
    vessel.pressurePa = 10_000;
    vessel.tick();
    for (int i = 0; i < 3; i++) {
      assertTrue(vessel.open());
      double beforePa = vessel.pressurePa;
      vessel.untilOpen(false, 10);
      assertEquals(2000, vessel.pressurePa - beforePa, 251);
      assertEquals(30, vessel.untilOpen(true, 100), 0.6);
    }
  }

  @Test
  void aSampleThatRunsAheadOfTheOvenGetsNoOxygen() {
    DosedVessel vessel = new DosedVessel(coldSoak());
    vessel.excessK = 6;
    vessel.forSeconds(120);
    vessel.pressurePa = 10_000;
    vessel.forSeconds(60);
    assertEquals(0, vessel.bench.state.gas().pulses());
    vessel.excessK = 4;
    vessel.forSeconds(60);
    assertTrue(vessel.bench.state.gas().pulses() > 0);
  }

  @Test
  void aSampleBelowTheSetpointIsNotAhead() {
    Step.Soak hot = new Step.Soak(TestSteps.holding("Soak", HOLD_PA), 500, 1e6, 5);
    DosedVessel vessel = new DosedVessel(hot);
    vessel.forSeconds(3000);
    assertEquals(500, vessel.bench.state.setpointK());
    vessel.excessK = 100;
    vessel.pressurePa = 5000;
    vessel.forSeconds(120);
    assertTrue(vessel.bench.state.gas().pulses() > 0, "the setpoint is above the sample");
  }

  /** Filled to the full pressure when cold, the vessel would go through its limit on the way up. */
  @Test
  void aColdVesselIsNotOverfilled() {
    Step.Ramp ramp = new Step.Ramp(TestSteps.holding("Ramp", HOLD_PA), 600, 0.001);
    DosedVessel vessel = new DosedVessel(ramp);
    vessel.pressurePa = 5000;
    vessel.forSeconds(1200);
    TwoZoneVolume volume = new TwoZoneVolume(TestRig.HOT_M3, TestRig.COLD_M3);
    double mol = volume.amountMol(vessel.pressurePa, 295, 295);
    double whenHotPa = volume.pressurePa(mol, 600, 295);
    assertEquals(HOLD_PA, whenHotPa, 0.02 * HOLD_PA + 400);
    assertTrue(vessel.pressurePa < 0.7 * HOLD_PA, "cold at " + vessel.pressurePa);
  }

  @Test
  void aVesselHotterThanItsGoalIsFilledToTheFullPressure() {
    Step.Ramp down = new Step.Ramp(TestSteps.holding("Ramp", HOLD_PA), 296, 1e-6);
    DosedVessel vessel = new DosedVessel(down);
    vessel.bench.allAtK(400);
    vessel.excessK = 105;
    vessel.bench.set(Channel.OVEN_TEMPERATURE, 400);
    vessel.pressurePa = 19_000;
    vessel.forSeconds(60);
    assertEquals(HOLD_PA, vessel.pressurePa, 500);
  }

  @Test
  void withoutAPressureToKeepNothingIsToppedUp() {
    DosedVessel vessel = new DosedVessel(TestSteps.soak(295, 1e6, 5));
    vessel.pressurePa = 1000;
    vessel.forSeconds(60);
    assertEquals(0, vessel.bench.state.gas().pulses());
  }

  @Test
  void aPausedBatchTopsUpNothing() {
    DosedVessel vessel = new DosedVessel(coldSoak());
    vessel.tick(new Request.Pause("Ada"));
    vessel.pressurePa = 10_000;
    vessel.forSeconds(120);
    assertEquals(0, vessel.bench.state.gas().pulses());
  }
}
