package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Heater;
import tarnish.shared.rig.Switch;

class BadReadingsTest {
  private static final long SEED = 20260105;
  private static final List<Channel> NEEDED =
      List.of(Channel.SAMPLE_TEMPERATURE, Channel.OVEN_TEMPERATURE, Channel.VESSEL_PRESSURE);

  /** Whatever is lost and why: in that very tick neither heater nor oxygen is on. */
  @ParameterizedTest
  @EnumSource(Heater.Actuator.class)
  void aBadReadingNeverLeavesHeaterOrOxygenOn(Heater.Actuator actuator) {
    SplittableRandom random = new SplittableRandom(SEED);
    TestRig rig = new TestRig();
    rig.heater = new Heater(actuator, 800, 2, 0.25, 1);
    Step.Ramp ramp = new Step.Ramp(TestSteps.holding("Ramp", 90_000), 800, 0.1);
    ControlBench bench = new ControlBench(rig.build(), TestSteps.recipe(ramp));
    bench.start();
    int heaterOn = 0;
    int oxygenOn = 0;
    int badTicks = 0;
    for (int i = 0; i < 40_000; i++) {
      bench.quiet();
      bench.pressurePa(30_000 + 200 * (i % 60));
      boolean bad = random.nextInt(20) == 0;
      if (bad) {
        Channel lost = NEEDED.get(random.nextInt(NEEDED.size()));
        BadReason[] reasons = BadReason.values();
        bench.readings.bad(lost, reasons[random.nextInt(reasons.length)]);
      }
      if (bench.phase() == BatchState.HELD) {
        // The saw-toothed pressure looks like a stuck valve now and then.
        bench.tick(
            new Request.Reset("Ada", InterlockTable.NO_PRESSURE_STEP, "test"),
            new Request.Restart("Ada"));
      } else {
        bench.tick();
      }
      boolean heater = bench.isOn(Switch.HEATER) || bench.outputs().heaterPerMille() > 0;
      if (bad) {
        badTicks++;
        assertFalse(heater || bench.isOn(Switch.OXYGEN), "seed " + SEED + " tick " + i);
      }
      heaterOn += heater ? 1 : 0;
      oxygenOn += bench.isOn(Switch.OXYGEN) ? 1 : 0;
    }
    assertTrue(badTicks > 1000 && heaterOn > 1000 && oxygenOn > 100, heaterOn + "/" + oxygenOn);
  }

  @ParameterizedTest
  @EnumSource(
      value = Channel.class,
      names = {"SAMPLE_TEMPERATURE", "OVEN_TEMPERATURE", "VESSEL_PRESSURE"})
  void aPulseDoesNotGoOnAfterAReadingWasLost(Channel lost) {
    Step.Dose dose = new Step.Dose(TestSteps.unattended("Dose"), 1500, 90_000, 50, 0.5, 1, 10, 600);
    ControlBench bench = ControlBench.with(dose).start();
    assertTrue(bench.isOn(Switch.OXYGEN));
    bench.bad(lost).tick();
    assertFalse(bench.isOn(Switch.OXYGEN));
    bench.quiet();
    bench.tick();
    assertFalse(bench.isOn(Switch.OXYGEN), "the pulse is over, not interrupted");
  }
}
