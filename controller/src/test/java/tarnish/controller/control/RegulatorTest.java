package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.Heater;
import tarnish.shared.rig.Regulation;

class RegulatorTest {
  private static final long SEED = 4711;
  private static final double TICK_S = 0.25;

  private static Heater analogue(double dutyMax) {
    return new Heater(Heater.Actuator.ANALOGUE, 800, 10, 1, dutyMax);
  }

  private static Regulation settings(double gain, double integralS, double derivativeS, double b) {
    return new Regulation(Channel.SAMPLE_TEMPERATURE, gain, integralS, derivativeS, b, 80);
  }

  private static RegulatorState at(double integral, double filteredK) {
    return new RegulatorState(true, Course.NONE, integral, filteredK, 0, 0, 0, false);
  }

  @Test
  void theStartIsBumplessFromAStandingHeater() {
    SplittableRandom random = new SplittableRandom(SEED);
    for (int i = 0; i < 1000; i++) {
      Regulation some =
          settings(
              random.nextDouble(0.001, 0.1),
              random.nextDouble(100, 2000),
              random.nextDouble(0, 100),
              random.nextDouble());
      double measuredK = random.nextDouble(290, 900);
      double setpointK = measuredK + random.nextDouble(-50, 50);
      Regulator regulator = new Regulator(some, analogue(1));
      Regulator.Turn first =
          regulator.step(RegulatorState.IDLE, setpointK, measuredK, measuredK, TICK_S);
      assertEquals(0, first.perMille(), "seed " + SEED);
      assertTrue(first.state().active());
      Regulator.Turn second =
          regulator.step(first.state(), setpointK, measuredK, measuredK, TICK_S);
      double integralStep = some.gainPerK() / some.integralS() * 50 * TICK_S;
      assertTrue(second.perMille() <= 1000 * integralStep + 1, "no jump: " + second.perMille());
    }
  }

  /** u = K (b r - y) + I - K Td dy/dt and dI/dt = K/Ti (r - y), by hand for one tick. */
  @Test
  void oneTickFollowsTheFormula() {
    double gain = 0.01;
    Regulator regulator = new Regulator(settings(gain, 400, 50, 0.4), analogue(1));
    double setpointK = 500;
    double beforeK = 495;
    double measuredK = 495.2;
    double integral = 3.5;
    Regulator.Turn turn = regulator.step(at(integral, beforeK), setpointK, measuredK, 500, TICK_S);

    double filterS = 10;
    double share = TICK_S / (filterS + TICK_S);
    double rateKPerS = share * 0.2 / TICK_S;
    double wanted = gain * (0.4 * 500 - 495.2) + 3.5 - gain * 50 * rateKPerS;
    assertEquals(0.5382, wanted, 1e-4, "the case must not saturate");
    assertEquals(StrictMath.round(1000 * wanted), turn.perMille());
    assertEquals(495 + share * 0.2, turn.state().filteredK(), 1e-9);
    assertEquals(integral + gain / 400 * 4.8 * TICK_S, turn.state().integral(), 1e-12);
  }

  @Test
  void withoutDerivativeTheRateDoesNotMatter() {
    Regulator regulator = new Regulator(settings(0.01, 400, 0, 0.4), analogue(1));
    Regulator.Turn turn = regulator.step(at(3.5, 495), 500, 495.2, 500, TICK_S);
    assertEquals(StrictMath.round(1000 * (0.01 * (200 - 495.2) + 3.5)), turn.perMille());
    assertEquals(495.2, turn.state().filteredK());
  }

  @Test
  void theDutyStaysWithinItsLimits() {
    SplittableRandom random = new SplittableRandom(SEED);
    double dutyMax = 0.6;
    Regulator regulator = new Regulator(settings(0.05, 300, 30, 0.7), analogue(dutyMax));
    int least = 1000;
    int greatest = 0;
    for (int i = 0; i < 20_000; i++) {
      RegulatorState state = at(random.nextDouble(-20, 40), random.nextDouble(400, 600));
      Regulator.Turn turn =
          regulator.step(
              state, 500, random.nextDouble(400, 600), random.nextDouble(400, 600), 0.25);
      least = StrictMath.min(least, turn.perMille());
      greatest = StrictMath.max(greatest, turn.perMille());
      assertEquals(turn.perMille() > 0, turn.relayOn());
    }
    assertEquals(0, least);
    assertEquals(600, greatest);
  }

  @Test
  void anHourOfSaturationIsForgottenAtOnce() {
    Regulator regulator = new Regulator(settings(0.02, 300, 0, 0.5), analogue(1));
    RegulatorState state = RegulatorState.IDLE;
    int perMille = 0;
    for (int i = 0; i < 4 * 3600; i++) {
      Regulator.Turn turn = regulator.step(state, 600, 540, 540, TICK_S);
      state = turn.state();
      perMille = turn.perMille();
    }
    assertEquals(1000, perMille, "60 K too cold for an hour");
    assertEquals(0, regulator.step(state, 600, 601, 601, TICK_S).perMille());

    state = RegulatorState.IDLE;
    for (int i = 0; i < 4 * 3600; i++) {
      state = regulator.step(state, 600, 660, 660, TICK_S).state();
    }
    assertEquals(0, regulator.step(state, 600, 660, 660, TICK_S).perMille());
    assertTrue(regulator.step(state, 600, 599, 599, TICK_S).perMille() > 500);
  }

  @Test
  void theIntegralStillLeavesSaturationByItself() {
    Regulator regulator = new Regulator(settings(0.02, 300, 0, 0), analogue(1));
    double up = regulator.step(at(20, 590), 600, 610, 600, TICK_S).state().integral();
    assertTrue(up < 20, "too hot at full duty: the integral comes down");
    double down = regulator.step(at(5, 590), 600, 590, 600, TICK_S).state().integral();
    assertTrue(down > 5, "too cold at no duty: the integral goes up");
    double stays = regulator.step(at(20, 590), 600, 590, 600, TICK_S).state().integral();
    assertEquals(20, stays, "too cold at full duty: it must not wind up");
    double low = regulator.step(at(5, 590), 600, 610, 600, TICK_S).state().integral();
    assertEquals(5, low, "too hot at no duty: it must not wind down");
  }

  @Test
  void theDutyFadesOutAsTheOvenRunsAhead() {
    Regulator regulator = new Regulator(settings(0.02, 300, 0, 0.5), analogue(1));
    RegulatorState strong = at(20, 450);
    assertEquals(1000, regulator.step(strong, 500, 450, 570, TICK_S).perMille());
    assertEquals(500, regulator.step(strong, 500, 450, 575, TICK_S).perMille());
    assertEquals(0, regulator.step(strong, 500, 450, 580, TICK_S).perMille());
    assertEquals(0, regulator.step(strong, 500, 450, 620, TICK_S).perMille());
  }

  /** With no gain the duty is the integral, so that the relay alone is looked at. */
  private static Regulator relay(double windowS, double minimumS) {
    Heater heater = new Heater(Heater.Actuator.RELAY, 800, windowS, minimumS, 1);
    return new Regulator(settings(0, 300, 0, 0), heater);
  }

  @Test
  void theRelaysMeanOnTimeIsTheDutyWithinOneWindow() {
    SplittableRandom random = new SplittableRandom(SEED);
    for (int i = 0; i < 500; i++) {
      double windowS = random.nextInt(2, 31);
      double minimumS = 0.25 * random.nextInt(1, 5);
      double duty = random.nextDouble();
      Regulator regulator = relay(windowS, minimumS);
      RegulatorState state = at(duty, 500);
      double onS = 0;
      double passedS = 0;
      for (int tick = 0; tick < 4 * 1800; tick++) {
        Regulator.Turn turn = regulator.step(state, 500, 500, 500, TICK_S);
        state = turn.state();
        onS += turn.relayOn() ? TICK_S : 0;
        passedS += TICK_S;
        assertEquals(
            duty * passedS,
            onS,
            windowS + minimumS,
            "seed " + SEED + " window " + windowS + " least " + minimumS + " duty " + duty);
      }
    }
  }

  @Test
  void theRelayNeverSwitchesFasterThanItsLeastTime() {
    SplittableRandom random = new SplittableRandom(SEED);
    int switches = 0;
    for (int i = 0; i < 500; i++) {
      double windowS = random.nextInt(4, 31);
      double minimumS = random.nextDouble(0.25, windowS / 3);
      Regulator regulator = relay(windowS, minimumS);
      double duty = random.nextDouble();
      RegulatorState state = at(duty, 500);
      boolean on = false;
      double sinceS = 1e9;
      for (int tick = 0; tick < 4 * 600; tick++) {
        Regulator.Turn turn = regulator.step(state, 500, 500, 500, TICK_S);
        state = turn.state();
        if (turn.relayOn() != on) {
          assertTrue(
              sinceS >= minimumS - 1e-9,
              "seed %d: %s for only %s s of at least %s s, window %s s, duty %s"
                  .formatted(SEED, on ? "on" : "off", sinceS, minimumS, windowS, duty));
          on = turn.relayOn();
          sinceS = 0;
          switches++;
        }
        sinceS += TICK_S;
      }
    }
    assertTrue(switches > 1000);
  }

  @Test
  void theRelayIsOffAtNoDutyAndOnAtFullDuty() {
    for (boolean full : new boolean[] {false, true}) {
      Regulator regulator = relay(10, 1);
      RegulatorState state = at(full ? 1 : 0, 500);
      for (int tick = 0; tick < 400; tick++) {
        Regulator.Turn turn = regulator.step(state, 500, 500, 500, TICK_S);
        state = turn.state();
        if (tick >= 40) {
          assertEquals(full, turn.relayOn(), "tick " + tick);
        }
      }
    }
    assertFalse(relay(10, 1).step(RegulatorState.IDLE, 500, 400, 400, 0.25).relayOn());
  }

  /** How a loop on a first-order plant with dead time went. */
  private record Loop(double overshootK, double lastOutsideS) {}

  /**
   * Plant: dT/dt = (k u(t - theta) - (T - T0)) / tau with k = 600 K, theta = 30 s, tau = 600 s.
   * Tuning by SIMC with tauc = theta: Kc = tau / (k (tauc + theta)) = 10/k, TI = 4 (tauc + theta) =
   * 240 s. Source: S. Skogestad, J. Process Control 13 (2003) 291.
   */
  private static Loop closedLoop(Heater heater, double fromK, double toK, double rateKPerS) {
    double gain = 10 / 600.0;
    Regulator regulator = new Regulator(settings(gain, 240, 0, 0.5), heater);
    double[] delayed = new double[120];
    double temperatureK = fromK;
    double setpointK = fromK;
    double overshootK = 0;
    double lastOutsideS = 0;
    RegulatorState state = RegulatorState.IDLE;
    for (int tick = 0; tick < 4 * 12_000; tick++) {
      setpointK = StrictMath.min(toK, setpointK + rateKPerS * TICK_S);
      Regulator.Turn turn = regulator.step(state, setpointK, temperatureK, temperatureK, TICK_S);
      state = turn.state();
      double duty =
          heater.actuator() == Heater.Actuator.RELAY
              ? (turn.relayOn() ? 1 : 0)
              : turn.perMille() / 1000.0;
      double acting = delayed[tick % delayed.length];
      delayed[tick % delayed.length] = duty;
      temperatureK += TICK_S / 600 * (600 * acting - (temperatureK - 295));
      overshootK = StrictMath.max(overshootK, temperatureK - toK);
      if (StrictMath.abs(temperatureK - toK) > 1) {
        lastOutsideS = tick * TICK_S;
      }
    }
    return new Loop(overshootK, lastOutsideS);
  }

  @Test
  void aRampWithSimcTuningSettlesWithLittleOvershoot() {
    double rampS = (573.15 - 295) / 0.1;
    Loop loop = closedLoop(analogue(1), 295, 573.15, 0.1);
    assertTrue(loop.overshootK() < 6, "overshoot " + loop.overshootK() + " K");
    assertTrue(loop.lastOutsideS() < rampS + 900, "settled at " + loop.lastOutsideS() + " s");
  }

  @Test
  void aRampThatIsTooSteepForTheOvenOvershootsNoMore() {
    Loop loop = closedLoop(analogue(0.6), 295, 573.15, 1);
    assertTrue(loop.overshootK() < 12, "overshoot " + loop.overshootK() + " K");
    assertTrue(loop.lastOutsideS() < 4000, "settled at " + loop.lastOutsideS() + " s");
  }

  @Test
  void aRelayHoldsAsWellAsAnAnalogueActuator() {
    Heater relay = new Heater(Heater.Actuator.RELAY, 800, 2, 0.25, 1);
    Loop loop = closedLoop(relay, 295, 573.15, 0.1);
    assertTrue(loop.overshootK() < 8, "overshoot " + loop.overshootK() + " K");
    assertTrue(loop.lastOutsideS() < 5000, "settled at " + loop.lastOutsideS() + " s");
  }
}
