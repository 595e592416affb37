package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Step;

class SoakAndRampTest {
  private static final double AT_K = 500;
  private static final double BAND_K = 3;
  private static final double RATE_K_PER_S = 0.05;

  private static double earnedS(ControlBench bench) {
    return ((SoakRun) bench.state.run()).inBandS();
  }

  /** A soak that lasts longer than any test. */
  private static ControlBench soaking() {
    ControlBench bench =
        ControlBench.with(TestSteps.ramp(AT_K, RATE_K_PER_S), TestSteps.soak(AT_K, 1e7, BAND_K));
    bench.allAtK(AT_K).start();
    while (!(bench.state.run() instanceof SoakRun)) {
      bench.tick();
    }
    return bench;
  }

  /** Credit = time inside the band, running, with believable readings; never anything else. */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
  void theSoakClockCreditsTimeInTheBandWhileRunningAndNothingElse(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    ControlBench bench = soaking();
    double expectedS = earnedS(bench);
    double temperatureK = AT_K;
    int interruptions = 0;
    for (int i = 0; i < 40_000; i++) {
      temperatureK += random.nextDouble(-0.4, 0.4) + 0.01 * (AT_K - temperatureK);
      bench.quiet();
      bench.allAtK(temperatureK);
      boolean good = random.nextInt(30) != 0;
      if (!good) {
        bench.bad(Channel.SAMPLE_TEMPERATURE);
      }
      bench.set(Channel.EMERGENCY_STOP, random.nextInt(3000) == 0 ? 0 : 1);
      Request[] requests = someRequests(random, bench.phase());
      interruptions += requests.length;
      long period = random.nextInt(40) == 0 ? random.nextInt(251, 2500) : 250;
      double tickS =
          requests.length == 1 && requests[0] instanceof Request.PowerReturned
              ? 0.25
              : period / 1000.0;
      boolean restarting = bench.phase() == BatchState.HELD;
      bench.tickAfterMillis(period, requests);
      double seenK = bench.readings.valueOr(Channel.SAMPLE_TEMPERATURE, 0);
      if (bench.phase() == BatchState.RUNNING
          && !restarting
          && good
          && StrictMath.abs(seenK - AT_K) <= BAND_K) {
        expectedS += tickS;
      }
      assertEquals(expectedS, earnedS(bench), 1e-6, "seed " + seed + " tick " + i);
    }
    assertTrue(interruptions > 100);
    assertTrue(expectedS > 1000, "earned " + expectedS);
    assertEquals(expectedS, new Report(bench.plan, bench.state).soaks().get(0).inBandS(), 1e-6);
  }

  private static Request[] someRequests(SplittableRandom random, BatchState phase) {
    if (phase == BatchState.HELD) {
      return new Request[] {
        new Request.Reset("Ada", "emergency stop", "test"),
        new Request.Reset("Ada", "loop overrun", "test"),
        new Request.Reset("Ada", "sample temperature lost", "test"),
        new Request.Reset("Ada", InterlockTable.POWER_RETURNED, "test"),
        new Request.Restart("Ada")
      };
    }
    if (random.nextInt(200) != 0) {
      return new Request[0];
    }
    return switch (random.nextInt(3)) {
      case 0 -> new Request[] {new Request.Pause("Ada")};
      case 1 -> new Request[] {new Request.PowerReturned("service", 3600)};
      default -> new Request[] {new Request.Resume("Ada"), new Request.Resume("Ada")};
    };
  }

  @Test
  void theBandIncludesItsEdges() {
    for (double offK : new double[] {-3, 3}) {
      ControlBench bench = soaking();
      double before = earnedS(bench);
      bench.allAtK(AT_K + offK).tick();
      assertEquals(before + 0.25, earnedS(bench));
      bench.allAtK(AT_K + offK * 1.01).tick();
      assertEquals(before + 0.25, earnedS(bench));
    }
  }

  @Test
  void aSoakEndsWhenItsTimeIsEarned() {
    ControlBench bench = ControlBench.with(TestSteps.soak(295, 10, 1), TestSteps.ramp(300, 0.1));
    bench.start();
    bench.ticks(38);
    assertTrue(bench.events(Event.SoakEarned.class).isEmpty());
    bench.tick();
    assertEquals(10, bench.events(Event.SoakEarned.class).get(0).inBandS());
    SoakRecord record = bench.state.soaks().get(0);
    assertEquals(new SoakRecord(0, 295, 10, 10), record);
  }

  @Test
  void aResumedSoakRampsBackAtTheRecipesRate() {
    ControlBench bench = soaking();
    bench.tick(new Request.Pause("Ada"));
    bench.allAtK(420).forSeconds(600);
    assertEquals(ControlState.HEATER_OFF, bench.state.setpointK());
    bench.tick(new Request.Resume("Ada"));
    assertEquals(420 + RATE_K_PER_S * 0.25, bench.state.setpointK(), 1e-9);
    bench.forSeconds(100);
    assertEquals(420 + RATE_K_PER_S * 100.25, bench.state.setpointK(), 1e-6);
    bench.forSeconds(80 / RATE_K_PER_S);
    assertEquals(AT_K, bench.state.setpointK());
  }

  @Test
  void aSoakWithoutARampBeforeItComesAtTheRigsOwnRate() {
    ControlBench bench = ControlBench.with(TestSteps.soak(AT_K, 100, 3)).start();
    assertEquals(295 + 6 / 60.0 * 0.25, bench.state.setpointK(), 1e-9);
  }

  @Test
  void aSoakAfterARepeatTakesTheRateOfTheLastRampInIt() {
    ControlBench bench =
        ControlBench.with(
            TestSteps.repeat(
                1, new tarnish.shared.recipe.RepeatUntil.CountOnly(), TestSteps.ramp(296, 0.07)),
            TestSteps.soak(400, 100, 3));
    Instruction.Do soak = (Instruction.Do) bench.plan.program().at(3);
    assertEquals(0.07, soak.rampRateKPerS());
    assertEquals(4, bench.plan.program().size());
  }

  /** Whatever happens on the way, the setpoint moves no faster than the recipe says. */
  @ParameterizedTest
  @ValueSource(longs = {11, 12, 13, 14})
  void theSetpointNeverMovesFasterThanTheRecipeSays(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    ControlBench bench = ControlBench.with(TestSteps.ramp(700, RATE_K_PER_S));
    double temperatureK = 300;
    bench.allAtK(temperatureK).start();
    int starts = 0;
    for (int i = 0; i < 20_000; i++) {
      double setpointK = bench.state.setpointK();
      temperatureK += setpointK > 0 ? 0.01 : -0.01;
      bench.allAtK(temperatureK);
      long period = random.nextInt(50) == 0 ? random.nextInt(251, 2000) : 250;
      Request[] requests =
          random.nextInt(500) == 0
              ? new Request[] {
                bench.phase() == BatchState.PAUSED
                    ? new Request.Resume("Ada")
                    : new Request.Pause("Ada")
              }
              : new Request[0];
      bench.tickAfterMillis(period, requests);
      double nowK = bench.state.setpointK();
      if (nowK < 0) {
        continue;
      }
      double fromK = setpointK < 0 ? bench.readings.value(Channel.SAMPLE_TEMPERATURE) : setpointK;
      starts += setpointK < 0 ? 1 : 0;
      assertTrue(
          StrictMath.abs(nowK - fromK) <= RATE_K_PER_S * period / 1000.0 + 1e-9,
          "seed " + seed + ": " + fromK + " -> " + nowK);
    }
    assertTrue(starts > 3, "it was resumed " + starts + " times");
  }

  @Test
  void aRampEndsWhenSetpointAndSampleAreThere() {
    ControlBench bench = ControlBench.with(TestSteps.ramp(300, 1), TestSteps.ask());
    bench.start().forSeconds(4.5);
    assertTrue(bench.state.setpointK() < 300, "the sample is near but the setpoint is not");
    assertEquals(0, bench.state.cursor().position());
    bench.forSeconds(10);
    assertEquals(300, bench.state.setpointK());
    assertEquals(0, bench.state.cursor().position(), "the sample is still 5 K away");
    bench.allAtK(296.9).tick();
    assertEquals(0, bench.state.cursor().position());
    bench.allAtK(297.0).tick();
    assertEquals(1, bench.state.cursor().position());
  }

  @Test
  void aRampGoesDownAsWellAsUp() {
    ControlBench bench = ControlBench.with(TestSteps.ramp(400, 0.1));
    bench.allAtK(500).start().forSeconds(100);
    assertEquals(500 - 10.025, bench.state.setpointK(), 1e-6);
  }

  @Test
  void coolingIsWithTheHeaterOffOrAtARate() {
    ControlBench off = ControlBench.with(TestSteps.cool(350), TestSteps.ask());
    off.allAtK(500).start().forSeconds(100);
    assertEquals(ControlState.HEATER_OFF, off.state.setpointK());
    assertTrue(off.allOff());
    off.allAtK(350.01).tick();
    assertEquals(0, off.state.cursor().position());
    off.allAtK(349.99).tick();
    assertEquals(1, off.state.cursor().position());

    Step.Cool slow = new Step.Cool(TestSteps.unattended("Cool"), 350, OptionalDouble.of(0.1));
    ControlBench rate = ControlBench.with(slow);
    rate.allAtK(500).start().forSeconds(100);
    assertEquals(500 - 10.025, rate.state.setpointK(), 1e-6);
    assertTrue(rate.state.regulator().active());
  }

  @Test
  void aStepLongerThanItsTimeLimitHoldsTheBatch() {
    Step.Ramp ramp = new Step.Ramp(TestSteps.limited("Ramp", 60), 700, 0.1);
    ControlBench bench = ControlBench.with(ramp).start().forSeconds(59.75);
    assertEquals(BatchState.RUNNING, bench.phase());
    bench.tick();
    assertEquals(AlarmState.UNACKNOWLEDGED, bench.alarm(InterlockTable.STEP_OVERDUE));
    assertTrue(bench.allOff());
    bench.tick();
    assertEquals(BatchState.HELD, bench.phase());
    bench.tick(new Request.Reset("Ada", InterlockTable.STEP_OVERDUE, "more time"));
    bench.tick(new Request.Restart("Ada"));
    bench.forSeconds(59);
    assertEquals(BatchState.RUNNING, bench.phase());
    assertFalse(bench.allOff());
  }

  /** t exp(-Ea/R (1/T - 1/Tref)) with Ea = 80 kJ/mol: 0.2854 at 30 K below 500 K. */
  @Test
  void equivalentTimeFollowsArrhenius() {
    ControlBench bench = soaking();
    double before = bench.state.tally().equivalentS();
    bench.forSeconds(1000);
    assertEquals(before + 1000, bench.state.tally().equivalentS(), 1e-6);
    before = bench.state.tally().equivalentS();
    bench.allAtK(470).forSeconds(1000);
    double factor = StrictMath.exp(-80e3 / 8.31446261815324 * (1 / 470.0 - 1 / 500.0));
    assertEquals(before + 1000 * factor, bench.state.tally().equivalentS(), 1e-6);
  }

  @Test
  void ovenTimeAndPeaksAreKept() {
    ControlBench bench = soaking();
    double ovenS = bench.state.tally().ovenS();
    double runningS = bench.state.tally().runningS();
    bench.set(Channel.SAMPLE_TEMPERATURE, 510).set(Channel.OVEN_TEMPERATURE, 520);
    bench.pressurePa(77_000).forSeconds(10);
    bench.quiet();
    bench.tick(new Request.Pause("Ada"));
    bench.forSeconds(100);
    Tally tally = bench.state.tally();
    assertEquals(510, tally.peaks().sampleK(), 1e-9);
    assertEquals(520, tally.peaks().ovenK(), 1e-9);
    assertEquals(77_000, tally.peaks().pressurePa(), 1e-9);
    // The tick of the pause was still heated: the books are kept before requests are taken.
    assertEquals(ovenS + 10.25, tally.ovenS(), 1e-9);
    assertEquals(runningS + 10.25, tally.runningS(), 1e-9);
  }
}
