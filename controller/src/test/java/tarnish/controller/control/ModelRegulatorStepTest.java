package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import tarnish.shared.oven.OvenModel;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.Heater;
import tarnish.shared.rig.Regulation;

/** Single ticks of the regulation by a model, against the model's own equations. */
class ModelRegulatorStepTest {
  private static final double ROOM_K = 295;
  private static final double TICK_S = 0.25;
  private static final double CALM = 0.8;
  private static final double OUTER_CALM = 2.5;

  /** Vessel slower than sample, and the other way round; both radiate. */
  private static final OvenModel SLOW_VESSEL =
      new OvenModel(0.7, 22, 3, 1700, 0.02, 135, 0.73, 56, 0.64, 8000, 0.07);

  private static final OvenModel SLOW_SAMPLE =
      new OvenModel(0.4, 15, 6, 1200, 0.5, 40, 0.3, 160, 0.4, 3000, 0.3);

  private static RegulatorState state(
      double filteredK, double integral, double ovenIntegralK, double progress, double[] course) {
    return new RegulatorState(
        true,
        new Course(course[4], course[0], course[1], course[2], course[3], course[5], 0, progress),
        integral,
        filteredK,
        ovenIntegralK,
        0,
        0,
        false);
  }

  /** Ramp, line, first, second lag, setpoint, lag: it rises by 0.05 K/s, faster every second. */
  private static final double[] RISING = {511, 514, 506, 502.5, 500, 50};

  private static final double[] RESTING = {500, 500, 500, 500, 500, 0};
  private static final double[] FALLING = {489, 486, 494, 497.5, 500, 50};

  /** The setpoint's next seconds from its derivatives. */
  private static DoubleUnaryOperator ahead(Course c) {
    return t ->
        c.setpointK()
            + t
                * (c.rateKPerS()
                    + t
                        / 2
                        * (c.secondDerivative()
                            + t / 3 * (c.thirdDerivative() + t / 4 * c.fourthDerivative())));
  }

  private static DoubleUnaryOperator rateOf(DoubleUnaryOperator f) {
    double h = 1;
    return t ->
        (8 * (f.applyAsDouble(t + h) - f.applyAsDouble(t - h))
                - (f.applyAsDouble(t + 2 * h) - f.applyAsDouble(t - 2 * h)))
            / (12 * h);
  }

  /** An oven with its regulator. */
  private static final class Bench {
    private final OvenModel oven;
    private final Heater heater;
    private final ModelRegulator regulator;

    Bench(OvenModel oven, double windowS, Channel controlled) {
      this.oven = oven;
      heater = new Heater(Heater.Actuator.ANALOGUE, 800, windowS, 0, 0.9);
      regulator =
          new ModelRegulator(
              new Regulation(controlled, 0.02, 900, 60, 0.5, 80),
              oven,
              heater,
              new RegulatorTuning(OUTER_CALM, CALM, 0.02, 1.4, 2));
    }

    private Regulator.Turn turn(RegulatorState state, double sampleK, double ovenK) {
      return regulator.step(state, state.course(), sampleK, ovenK, ROOM_K, TICK_S);
    }

    /** Oven temperature and duty that make the sample follow, as functions of time. */
    private final class Backwards {
      final double sampleS;
      final double vesselS;
      final DoubleUnaryOperator ovenK;
      final DoubleUnaryOperator heatKPerS;

      Backwards(Course c, boolean lags) {
        DoubleUnaryOperator r = ahead(c);
        double atSampleS = lags ? oven.sampleSecondsAt(c.setpointK()) : 0;
        double atVesselS = lags ? oven.vesselSecondsAt(c.setpointK()) : 0;
        double leadK = wall(r, atSampleS, atVesselS).applyAsDouble(0) - c.setpointK();
        double share = lags ? atSampleS / (atSampleS + atVesselS) : 0;
        // Heat is radiated between temperatures halfway from the one body to the next.
        sampleS = lags ? oven.sampleSecondsAt(c.setpointK() + leadK * share / 2) : 0;
        vesselS = lags ? oven.vesselSecondsAt(c.setpointK() + leadK * (1 + share) / 2) : 0;
        ovenK = wall(r, sampleS, vesselS);
        DoubleUnaryOperator v = vessel(r, sampleS);
        DoubleUnaryOperator v1 = rateOf(v);
        DoubleUnaryOperator w1 = rateOf(ovenK);
        heatKPerS =
            t ->
                w1.applyAsDouble(t)
                    + oven.lossKPerS(ovenK.applyAsDouble(t), ROOM_K)
                    + oven.vesselLoad()
                        * (v1.applyAsDouble(t) + (v.applyAsDouble(t) - ROOM_K) / oven.neckS());
      }

      private DoubleUnaryOperator vessel(DoubleUnaryOperator r, double tauS) {
        DoubleUnaryOperator r1 = rateOf(r);
        return t -> r.applyAsDouble(t) + tauS * r1.applyAsDouble(t);
      }

      private DoubleUnaryOperator wall(DoubleUnaryOperator r, double tauS, double tauV) {
        DoubleUnaryOperator v = vessel(r, tauS);
        DoubleUnaryOperator v1 = rateOf(v);
        return t ->
            v.applyAsDouble(t)
                + tauV * (v1.applyAsDouble(t) + (v.applyAsDouble(t) - ROOM_K) / oven.neckS());
      }

      double duty() {
        double delayS = oven.elementS() + oven.deadTimeS();
        return (heatKPerS.applyAsDouble(0) + delayS * rateOf(heatKPerS).applyAsDouble(0))
            / oven.heatingKPerS();
      }
    }

    private double deadS() {
      return oven.deadTimeS() + oven.elementS() / 2 + heater.windowS() / 2;
    }

    private double innerGain() {
      return 1 / (oven.heatingKPerS() * (1 + CALM) * deadS());
    }
  }

  private final Bench bench = new Bench(SLOW_VESSEL, 4, Channel.SAMPLE_TEMPERATURE);

  private static Bench[] benches() {
    return new Bench[] {
      new Bench(SLOW_VESSEL, 4, Channel.SAMPLE_TEMPERATURE),
      new Bench(SLOW_SAMPLE, 10, Channel.SAMPLE_TEMPERATURE),
    };
  }

  @Test
  void theModelIsTheRigs() {
    assertSame(SLOW_VESSEL, bench.regulator.model());
  }

  /** Where everything is as the model says, its own duty is given and nothing else. */
  @Test
  void aSampleOnItsCourseGetsTheDutyOfTheModelRunBackwards() {
    for (Bench bench : benches()) {
      for (double[] course : new double[][] {RESTING, RISING}) {
        RegulatorState state = state(500, 0, 0, 1, course);
        Course c = state.course();
        Bench.Backwards model = bench.new Backwards(c, true);
        // The filter has seen the sample rise at the setpoint's rate.
        double shortS = StrictMath.min(model.vesselS, model.sampleS);
        double filterS = 0.2 * shortS;
        RegulatorState seen = state(500 - c.rateKPerS() * (filterS + TICK_S), 0, 0, 1, course);
        Regulator.Turn turn = bench.turn(seen, 500, model.ovenK.applyAsDouble(0));
        assertEquals(model.duty(), turn.perMille() / 1000.0, 6e-4);
        assertTrue(turn.perMille() > 0 && turn.perMille() < 900, "within its limits");
        assertEquals(0, turn.state().integral(), 1e-9);
        assertEquals(0, turn.state().ovenIntegralK(), 1e-9);
        assertEquals(500, turn.state().filteredK() + c.rateKPerS() * filterS, 1e-9);
      }
    }
  }

  /** SIMC for two lags and a dead time, in series form made ideal. */
  @Test
  void whatTheSampleLacksMovesTheOvenAndWhatThatLacksMovesTheDuty() {
    for (Bench bench : benches()) {
      RegulatorState state = state(499, 0.01, 0.3, 1, RISING);
      Course c = state.course();
      Bench.Backwards model = bench.new Backwards(c, true);
      double longS = StrictMath.max(model.vesselS, model.sampleS);
      double shortS = StrictMath.min(model.vesselS, model.sampleS);
      double slownessS = (1 + OUTER_CALM) * (2 * bench.deadS() + 0.2 * shortS);
      double gain = longS / slownessS;
      double integralS = StrictMath.min(longS, 4 * slownessS);
      double form = 1 + shortS / integralS;
      double error = 500 - 499.5;
      double rate = (499.5 - 499) / (0.2 * shortS + TICK_S);
      double wantedK =
          model.ovenK.applyAsDouble(0)
              + gain * (form * error + shortS * (c.rateKPerS() - rate))
              + 0.3;
      double ovenK = wantedK - 1;
      Regulator.Turn turn = bench.turn(state, 499.5, ovenK);
      double duty = model.duty() + bench.innerGain() + 0.01;
      assertEquals(duty, turn.perMille() / 1000.0, 6e-4);
      assertEquals(
          0.01 + bench.innerGain() / (4 * (1 + CALM) * bench.deadS()) * TICK_S,
          turn.state().integral(),
          1e-7);
      assertEquals(0.3 + gain / integralS * error * TICK_S, turn.state().ovenIntegralK(), 1e-9);
      assertEquals(1, turn.state().progress(), 1e-12);
      assertTrue(turn.state().active());
      assertEquals(500, turn.state().course().setpointK());
      assertEquals(RISING[0], turn.state().course().rampK());
      assertEquals(RISING[1], turn.state().course().lineK());
      assertEquals(RISING[2], turn.state().course().firstK());
      assertEquals(RISING[3], turn.state().course().secondK());
      assertEquals(RISING[5], turn.state().course().lagS());
    }
  }

  /** Held by the oven's own sensor there is no lag between, and no outer loop. */
  @Test
  void anOvenThatIsHeldItselfIsMovedByItsOwnErrorOnly() {
    Bench bench = new Bench(SLOW_VESSEL, 4, Channel.OVEN_TEMPERATURE);
    RegulatorState state = state(480, 0.01, 0.3, 1, RISING);
    Course c = state.course();
    Bench.Backwards model = bench.new Backwards(c, false);
    Regulator.Turn turn = bench.turn(state, 400, 499);
    assertEquals(model.duty() + bench.innerGain() + 0.01, turn.perMille() / 1000.0, 6e-4);
    assertEquals(499, turn.state().filteredK(), "what is followed is the oven");
    assertEquals(0.3, turn.state().ovenIntegralK());
  }

  @Test
  void aHeaterThatStoodBeginsWithoutMemory() {
    RegulatorState idle = new RegulatorState(false, Course.NONE, 9, 0, 0, 0, 0, false);
    Course c = idle.course().restarted(500);
    Bench.Backwards model = bench.new Backwards(c, true);
    Regulator.Turn turn =
        bench.regulator.step(idle, c, 500, model.ovenK.applyAsDouble(0), ROOM_K, TICK_S);
    assertEquals(model.duty(), turn.perMille() / 1000.0, 6e-4);
    assertEquals(0, turn.state().integral(), 1e-9);
    assertEquals(500, turn.state().filteredK());
    assertEquals(1, turn.state().progress());
  }

  /** The oven may be 80 K from the setpoint, above or below. */
  @Test
  void theOvensLeadIsCutBothWaysAndItsIntegralWaits() {
    Regulator.Turn cold = bench.turn(state(350, 0, 0, 1, RESTING), 350, 579);
    Bench.Backwards model = bench.new Backwards(state(350, 0, 0, 1, RESTING).course(), true);
    assertEquals(
        model.duty() + bench.innerGain(), cold.perMille() / 1000.0, 6e-4, "580 K is wanted");
    assertEquals(0, cold.state().ovenIntegralK(), "it does not wind up");
    Regulator.Turn hot = bench.turn(state(650, 0.2, 0, 1, RESTING), 650, 421);
    assertEquals(
        StrictMath.max(0, model.duty() + 0.2 - bench.innerGain()), hot.perMille() / 1000.0, 6e-4);
    assertEquals(0, hot.state().ovenIntegralK(), "nor down");
    // The limit is reached, but the sample errs the other way: this brings it back.
    double lead = 200;
    Regulator.Turn back = bench.turn(state(501, 0, lead, 1, RESTING), 501, 579);
    assertTrue(back.state().ovenIntegralK() < lead);
    Regulator.Turn forth = bench.turn(state(499, 0.2, -lead, 1, RESTING), 499, 421);
    assertTrue(forth.state().ovenIntegralK() > -lead);
  }

  @Test
  void theDutysIntegralDoesNotWindUpAtItsLimits() {
    // Full duty and the oven too cold; then the oven warmer than wanted.
    assertEquals(2, bench.turn(state(500, 2, 0, 1, RESTING), 500, 480).state().integral());
    assertEquals(900, bench.turn(state(500, 2, 0, 1, RESTING), 500, 480).perMille());
    assertTrue(bench.turn(state(500, 2, 0, 1, RESTING), 500, 510).state().integral() < 2);
    // No duty and the oven too warm; then colder than wanted.
    assertEquals(-2, bench.turn(state(500, -2, 0, 1, RESTING), 500, 520).state().integral());
    assertEquals(0, bench.turn(state(500, -2, 0, 1, RESTING), 500, 520).perMille());
    assertTrue(bench.turn(state(500, -2, 0, 1, RESTING), 500, 490).state().integral() > -2);
    // At the limit of its duty the sample's integral waits, too.
    double frozen = bench.turn(state(499, 2, 0.3, 1, RESTING), 499, 480).state().ovenIntegralK();
    assertEquals(0.3, frozen);
    assertTrue(bench.turn(state(501, 2, 0.3, 1, RESTING), 501, 480).state().ovenIntegralK() < 0.3);
    assertEquals(
        0.3, bench.turn(state(501, -2, 0.3, 1, RESTING), 501, 530).state().ovenIntegralK());
    assertTrue(bench.turn(state(499, -2, 0.3, 1, RESTING), 499, 530).state().ovenIntegralK() > 0.3);
  }

  /** Time passes by the lag of the sample behind a filter of 2 s: 1 of 9 in a quarter second. */
  @Test
  void aStrainedOvensSetpointIsHeldBackByTheLagOfItsSample() {
    double share = TICK_S / (TICK_S + 2);
    // 1.2 K of lag: half speed.
    Regulator.Turn up = bench.turn(state(498.8, 2, 0, 1, RISING), 498.8, 480);
    assertEquals(900, up.perMille());
    assertEquals(1 - share * 0.5, up.state().progress(), 1e-9);
    Regulator.Turn down = bench.turn(state(501.2, -2, 0, 1, FALLING), 501.2, 530);
    assertEquals(0, down.perMille());
    assertEquals(1 - share * 0.5, down.state().progress(), 1e-9);
    Regulator.Turn eased = bench.turn(state(499.9, 0, 0, 0.5, RESTING), 499.9, 500);
    assertEquals(0.5 + share * 0.5, eased.state().progress(), 1e-9, "not strained any more");
    // A sample that runs ahead is not waited for.
    Regulator.Turn ahead = bench.turn(state(501.2, 2, 0, 1, RISING), 501.2, 480);
    assertEquals(1, ahead.state().progress(), 1e-9);
    // Nor is a resting setpoint, or one that goes the way of the limit's other side.
    assertEquals(1, bench.turn(state(490, 2, 0, 1, RESTING), 490, 480).state().progress(), 1e-9);
    assertEquals(
        1, bench.turn(state(498.8, 2, 0, 1, FALLING), 498.8, 480).state().progress(), 1e-9);
  }
}
