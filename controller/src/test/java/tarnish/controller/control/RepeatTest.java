package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import tarnish.shared.recipe.RepeatUntil;
import tarnish.shared.recipe.Step;

class RepeatTest {
  private static final RepeatUntil COUNT = new RepeatUntil.CountOnly();

  private static List<Integer> begun(ControlBench bench) {
    return bench.events(Event.StepStarted.class).stream().map(Event.StepStarted::position).toList();
  }

  private static Step.Soak short10() {
    return TestSteps.soak(295, 1, 5);
  }

  @Test
  void aRepeatIsDoneAsOftenAsItSays() {
    ControlBench bench =
        ControlBench.with(TestSteps.repeat(3, COUNT, short10()), TestSteps.soak(295, 1, 1));
    bench.start().forSeconds(30);
    assertEquals(List.of(1, 1, 1, 3), begun(bench));
    assertEquals(BatchState.COMPLETE, bench.phase());
    assertEquals("every step of the recipe is done", bench.state.phaseWhy());
    assertEquals(ControlState.HEATER_OFF, bench.state.setpointK());
    assertEquals(1, bench.events(Event.Advisory.class).size());
    assertTrue(bench.events(Event.Advisory.class).get(0).text().contains("after 3 passes"));
  }

  @Test
  void aRepeatInARepeatStartsItsCountAnew() {
    ControlBench bench =
        ControlBench.with(
            TestSteps.repeat(2, COUNT, TestSteps.repeat(3, COUNT, short10()), short10()));
    bench.start().forSeconds(60);
    assertEquals(List.of(2, 2, 2, 4, 2, 2, 2, 4), begun(bench));
    assertEquals(BatchState.COMPLETE, bench.phase());
  }

  /** Lets {@code mol} of oxygen vanish from the resting vessel. */
  private static void takeUp(ControlBench bench, double mol) {
    double perPa = (TestRig.HOT_M3 + TestRig.COLD_M3) / 295 / 8.31446261815324;
    double from = bench.readings.value(tarnish.shared.reading.Channel.VESSEL_PRESSURE);
    bench.pressurePa(from - mol / perPa);
  }

  @Test
  void aRepeatEndsWhenTheConversionIsReached() {
    // 4 g Cu are 62.9 mmol and need 31.5 mmol O2 for CuO; a tenth of that are 3.15 mmol.
    Step.Soak pass = TestSteps.soak(295, 200, 5);
    ControlBench bench =
        ControlBench.with(
            TestSteps.repeat(10, new RepeatUntil.ConversionAtLeast(0.1), pass), short10());
    bench.pressurePa(95_000).start().forSeconds(100);
    takeUp(bench, 1.6e-3);
    bench.forSeconds(210);
    assertEquals(List.of(1, 1), begun(bench), "5 % is not enough");
    takeUp(bench, 1.7e-3);
    bench.forSeconds(110);
    assertEquals(List.of(1, 1, 3), begun(bench));
  }

  /** Three passes take up something, the rest nothing; the balance stands still from the first. */
  @Test
  void aRepeatEndsWhenNothingIsTakenUpAndTheMassIsSteady() {
    Step.Soak pass = TestSteps.soak(295, 200, 5);
    ControlBench bench =
        ControlBench.with(
            TestSteps.repeat(
                10, new RepeatUntil.Finished(2), pass, TestSteps.ask(TestSteps.mass("mass"))));
    bench.pressurePa(95_000).start();
    double massKg = 4.0e-3;
    for (int i = 0; i < 6 && bench.phase() == BatchState.RUNNING; i++) {
      bench.forSeconds(60);
      if (i < 3) {
        takeUp(bench, 1e-3);
        massKg += 32e-6;
      }
      bench.forSeconds(160);
      bench.tick(
          new tarnish.controller.control.Request.Answer(
              "Ada", bench.state.question().number(), java.util.Map.of("mass", massKg), ""));
      bench.forSeconds(2);
    }
    assertEquals(BatchState.COMPLETE, bench.phase(), bench.state.phaseWhy());
    // Pass 3 still takes up; pass 4 does not, and its mass agrees with that after pass 3.
    assertEquals(4, begun(bench).stream().filter(position -> position == 1).count());
    assertTrue(
        bench.events(Event.Advisory.class).stream().anyMatch(e -> e.text().contains("finished")));
  }

  /** 60 µmol of oxygen are 1.9 mg: the gauge sees them, a balance good to 3 mg does not. */
  @Test
  void aPassThatTookUpWhatOnlyTheGasShowsIsNotFinished() {
    Step.Soak pass = TestSteps.soak(295, 200, 5);
    ControlBench bench =
        ControlBench.with(
            TestSteps.repeat(
                4, new RepeatUntil.Finished(2), pass, TestSteps.ask(TestSteps.mass("mass"))));
    bench.pressurePa(95_000).start();
    for (int i = 1; i <= 4; i++) {
      bench.forSeconds(60);
      takeUp(bench, 60e-6);
      bench.forSeconds(160);
      assertEquals(BatchState.RUNNING, bench.phase(), "pass " + i);
      bench.tick(
          new Request.Answer(
              "Ada",
              bench.state.question().number(),
              java.util.Map.of("mass", 4.0e-3 + i * 1.92e-6),
              ""));
      bench.forSeconds(2);
    }
    assertEquals(BatchState.COMPLETE, bench.phase(), bench.state.phaseWhy());
    assertEquals(4, begun(bench).stream().filter(position -> position == 1).count());
    assertTrue(
        bench.events(Event.Advisory.class).stream().noneMatch(e -> e.text().contains("finished")));
  }

  @Test
  void aRepeatEndsWhenAPassTookUpTooLittle() {
    Step.Soak pass = TestSteps.soak(295, 200, 5);
    ControlBench bench =
        ControlBench.with(
            TestSteps.repeat(10, new RepeatUntil.PassUptakeBelow(0.5e-3), pass), short10());
    bench.pressurePa(95_000).start();
    for (double mol : new double[] {1e-3, 0.8e-3, 0.3e-3}) {
      bench.forSeconds(60);
      takeUp(bench, mol);
      bench.forSeconds(140.25);
    }
    bench.forSeconds(5);
    assertEquals(List.of(1, 1, 1, 3), begun(bench));
  }

  @Test
  void theOuterRepeatLooksAtItsOwnPassAndNotAtTheLastInnerOne() {
    Step.Soak pass = TestSteps.soak(295, 200, 5);
    ControlBench bench =
        ControlBench.with(
            TestSteps.repeat(
                3, new RepeatUntil.PassUptakeBelow(0.5e-3), TestSteps.repeat(2, COUNT, pass)));
    bench.pressurePa(95_000).start().forSeconds(60);
    takeUp(bench, 1e-3);
    // The first inner pass took up 1 mmol, the second nothing: the outer pass took up 1 mmol.
    bench.forSeconds(345);
    assertEquals(3, begun(bench).size());
    bench.forSeconds(410);
    assertEquals(BatchState.COMPLETE, bench.phase(), "the second outer pass took up nothing");
    assertEquals(4, begun(bench).size());
  }

  @Test
  void conversionIsMeantToTheTarget() {
    // To Cu2O, 0.5 O per Cu, a tenth is half of the oxygen: 1.57 mmol.
    Step.Soak pass = TestSteps.soak(295, 200, 5);
    ControlBench bench =
        new ControlBench(
            new TestRig().build(),
            TestSteps.recipeTo(
                new tarnish.shared.recipe.OxideMember("Cu2O", 0.5),
                TestSteps.repeat(10, new RepeatUntil.ConversionAtLeast(0.1), pass),
                short10()));
    bench.pressurePa(95_000).start().forSeconds(20);
    takeUp(bench, 1.4e-3);
    bench.forSeconds(190);
    assertEquals(List.of(1, 1), begun(bench));
    takeUp(bench, 0.3e-3);
    bench.forSeconds(200);
    assertEquals(List.of(1, 1, 3), begun(bench));
    double perUnit = new Report(bench.plan, bench.state).oxygenPerUnit().value();
    double conversion = new Report(bench.plan, bench.state).conversion().value();
    assertEquals(2 * perUnit, conversion, 1e-12);
    assertTrue(conversion > 0.1);
  }
}
