package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.recipe.RepeatUntil;
import tarnish.shared.recipe.Step;
import tarnish.shared.rig.Heater;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Switch;

class PurityTest {
  private static final long SEED = 99;

  private static ControlBench bench() {
    TestRig rig = new TestRig();
    rig.heater = new Heater(Heater.Actuator.RELAY, 800, 5, 0.5, 1);
    Step.Dose dose = new Step.Dose(TestSteps.unattended("Dose"), 900, 90_000, 9, 5, 5, 5, 90);
    Step.Soak kept = new Step.Soak(TestSteps.holding("Soak", 60_000), 330, 20, 40);
    return new ControlBench(
        rig.build(),
        TestSteps.recipe(
            TestSteps.evacuate(60_000),
            TestSteps.leakTest(2, 20, 1e6),
            TestSteps.repeat(2, new RepeatUntil.CountOnly(), dose, TestSteps.ramp(320, 1), kept),
            TestSteps.open(TestSteps.mass("mass")),
            TestSteps.ask(),
            TestSteps.cool(320)));
  }

  /** Twice the same arguments: the same answer, and nothing that was handed in has changed. */
  @Test
  void aTickDependsOnItsArgumentsAloneAndChangesNoneOfThem() {
    SplittableRandom random = new SplittableRandom(SEED);
    ControlBench bench = bench();
    int farthest = 0;
    for (int i = 0; i < 6_000; i++) {
      disturb(bench, random);
      List<Request> requests = requests(bench, random);
      String stateBefore = DeepText.of(bench.state);
      Readings readingsBefore = bench.readings.copy();
      ControlState given = bench.state;
      Turn once = Control.tick(bench.plan, given, bench.readings, requests, bench.millis + 250);
      Turn twice = Control.tick(bench.plan, given, bench.readings, requests, bench.millis + 250);
      assertEquals(once.outputs(), twice.outputs(), "seed " + SEED + " tick " + i);
      assertEquals(once.events(), twice.events());
      assertEquals(DeepText.of(once.state()), DeepText.of(twice.state()));
      assertEquals(stateBefore, DeepText.of(given), "the state that was given");
      assertEquals(readingsBefore, bench.readings);
      assertEquals(once.outputs(), once.state().outputs());
      assertEquals(bench.millis + 250, once.state().lastMillis());
      bench.millis += 250;
      bench.state = once.state();
      farthest = StrictMath.max(farthest, bench.state.cursor().position());
    }
    assertTrue(farthest >= 6, "the recipe went as far as place " + farthest);
  }

  private static void disturb(ControlBench bench, SplittableRandom random) {
    double pressurePa = bench.readings.valueOr(Channel.VESSEL_PRESSURE, 50_000);
    bench.quiet();
    bench.pressurePa(random.nextInt(1000) == 0 ? 400 : asTheValvesMoveIt(bench, pressurePa));
    bench.allAtK(random.nextDouble(290, 335));
    if (random.nextInt(40) == 0) {
      bench.bad(Channel.values()[random.nextInt(Channel.COUNT)]);
    }
    if (random.nextInt(300) == 0) {
      bench.set(Channel.SEAL_TEMPERATURE, 600);
    }
  }

  /** Gas that nobody let in would be a leak, and doses wait while there is one. */
  private static double asTheValvesMoveIt(ControlBench bench, double pressurePa) {
    Outputs told = bench.state.outputs();
    double movedPa =
        told.isOn(Switch.PUMP) && told.isOn(Switch.VACUUM) ? 0.9 * pressurePa : pressurePa;
    movedPa += told.isOn(Switch.OXYGEN) ? 500 : 0;
    movedPa += told.isOn(Switch.INERT) ? 3000 : 0;
    return told.isOn(Switch.VENT) ? movedPa + 0.2 * (TestRig.ROOM_PA - movedPa) : movedPa;
  }

  private static List<Request> requests(ControlBench bench, SplittableRandom random) {
    BatchState phase = bench.phase();
    if (phase == BatchState.IDLE) {
      return List.of(new Request.Start("Ada"));
    }
    if (phase == BatchState.HELD || phase == BatchState.PAUSED) {
      List<Request> many = new java.util.ArrayList<>();
      bench.plan.interlocks().forEach(r -> many.add(new Request.Reset("Ada", r.id(), "test")));
      many.add(new Request.Restart("Ada"));
      many.add(new Request.Resume("Ada"));
      return many;
    }
    if (bench.state.question() != null && random.nextInt(20) == 0) {
      int number = bench.state.question().number();
      return List.of(new Request.Answer("Ada", number, Map.of("mass", 4.2e-3), "grey"));
    }
    return random.nextInt(400) == 0 ? List.of(new Request.Pause("Ada")) : List.of();
  }

  @Test
  void theSameBatchTwiceGivesTheSameRecord() {
    assertEquals(record(), record());
  }

  private static String record() {
    SplittableRandom random = new SplittableRandom(SEED);
    ControlBench bench = bench();
    StringBuilder record = new StringBuilder();
    for (int i = 0; i < 4000; i++) {
      disturb(bench, random);
      Turn turn = bench.tick(requests(bench, random).toArray(new Request[0]));
      record.append(turn.outputs()).append(turn.events());
    }
    return record.toString();
  }
}
