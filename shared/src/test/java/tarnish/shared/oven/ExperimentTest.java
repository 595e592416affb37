package tarnish.shared.oven;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class ExperimentTest {
  private static final Experiment SOME = new Experiment(0.8, 300, 900, 800);

  /** Runs on a model until it ends; the sample reads as the model says. */
  private static Experiment.State run(OvenModel model, double dutyFactor) {
    OvenSimulation oven = new OvenSimulation(model, 295);
    Experiment.State state = Experiment.State.BEGIN;
    while (!state.stage().isFinal()) {
      oven.step(dutyFactor * state.duty(SOME), 295, 1);
      state = SOME.step(state, oven.ovenK(), oven.sampleK(), 1);
      assertTrue(oven.ovenK() < 295 + 300 + 40, "the top temperature is kept: " + oven.ovenK());
    }
    return state;
  }

  @Test
  void itEndsByItselfWithTheHeaterOff() {
    Experiment.State end = run(OvenModelTest.SOME, 1);
    assertEquals(Experiment.Stage.DONE, end.stage());
    assertEquals(0, end.duty(SOME));
    assertTrue(end.totalS() < 5 * 3600);
  }

  @Test
  void aDeadHeaterIsNoticed() {
    Experiment.State end = run(OvenModelTest.SOME, 0);
    assertEquals(Experiment.Stage.ABORTED, end.stage());
    assertTrue(end.why().contains("does not get warmer"), end.why());
    assertTrue(end.totalS() < 1300);
  }

  @Test
  void aWeakHeaterIsNoticed() {
    Experiment.State end = run(OvenModelTest.SOME, 0.25);
    assertEquals(Experiment.Stage.ABORTED, end.stage());
    assertTrue(end.why().contains("3 h"), end.why());
  }

  @Test
  void anOvenThatIsNotAtRestIsRefused() {
    Experiment.State state = SOME.step(Experiment.State.BEGIN, 330, 300, 0.25);
    assertEquals(Experiment.Stage.ABORTED, state.stage());
    assertTrue(state.why().contains("at rest"));
  }

  @Test
  void aLimitOrAReadingThatIsNoNumberEndsItInAnyStage() {
    OvenSimulation oven = new OvenSimulation(OvenModelTest.SOME, 295);
    Experiment.State state = Experiment.State.BEGIN;
    while (!state.stage().isFinal()) {
      for (double badK : new double[] {900, 1200, Double.NaN}) {
        Experiment.State ended = SOME.step(state, badK, oven.sampleK(), 1);
        assertEquals(Experiment.Stage.ABORTED, ended.stage());
        assertEquals(0, ended.duty(SOME));
        assertEquals(Experiment.Stage.ABORTED, SOME.step(state, oven.ovenK(), badK, 1).stage());
      }
      oven.step(state.duty(SOME), 295, 1);
      state = SOME.step(state, oven.ovenK(), oven.sampleK(), 1);
    }
  }

  @Test
  void onceAbortedItStaysAborted() {
    Experiment.State ended = Experiment.abort(Experiment.State.BEGIN, "stopped by Ada");
    assertEquals(ended, SOME.step(ended, 300, 300, 1));
    assertEquals("stopped by Ada", ended.why());
    assertEquals(ended, Experiment.abort(ended, "again"));
  }

  @Test
  void nonsenseIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> new Experiment(0, 300, 900, 800));
    assertThrows(IllegalArgumentException.class, () -> new Experiment(1.1, 300, 900, 800));
    assertThrows(IllegalArgumentException.class, () -> new Experiment(1, Double.NaN, 900, 800));
  }
}
