package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import tarnish.controller.files.RecipeReader;
import tarnish.controller.files.RigReader;
import tarnish.shared.reading.Readings;
import tarnish.shared.recipe.Question;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.RigDescription;
import tarnish.sim.BenchSpec;
import tarnish.sim.SimulatedRig;
import tarnish.sim.SolidSpec;

/** From the grains in the simulated bench's air to the composition in the ledger. */
class WeighedInAirTest {
  private static final Path DEMO = Path.of("../sim/demo");

  /** A balance that shows 0.1 mg is within 0.05 mg, of some 5 g. */
  private static final double SHOWN = 1.1e-5;

  private final RigDescription rig =
      RigReader.read("rig", text(DEMO.resolve("bench.rig.yaml"))).value();
  private final Recipe recipe =
      RecipeReader.read("recipe", text(DEMO.resolve("copper-oxide.recipe.yaml")), Optional.of(rig))
          .value();
  private final Plan plan = Plan.of(recipe, rig);
  private final BenchSpec spec = onAQuietBalance(BenchSpec.nominal(rig, recipe));
  private final SimulatedRig bench = new SimulatedRig(spec, rig);
  private final Readings readings = new Readings(rig.resolutions());
  private ControlState state = ControlState.initial(plan);

  private static String text(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }

  private static BenchSpec onAQuietBalance(BenchSpec s) {
    return new BenchSpec(
        1, s.heaterRatedW(), s.thermal(), s.gas(), s.solid(), s.room(), s.sensorErrors(), 0);
  }

  /** Until the product lies ready for its weighing. */
  private void runToTheLastWeighing() {
    double oxide = 0.99 * recipe.target().oxygenPerUnit();
    for (long millis = 250; millis < 60L * 3600 * 1000; millis += 250) {
      bench.advance(0.25);
      bench.read(readings);
      state = Control.tick(plan, state, readings, requests(), millis).state();
      bench.write(state.outputs());
      if (state.question() != null && bench.truth().oxygenPerUnit() > oxide) {
        return;
      }
    }
    throw new AssertionError("the batch did not come to its weighing: " + state.phase());
  }

  private List<Request> requests() {
    if (state.phase() == BatchState.IDLE) {
      return List.of(new Request.Start("Ada"));
    }
    if (!state.presence().attended()) {
      return List.of(new Request.CheckIn("Ada", 8));
    }
    OpenQuestion open = state.question();
    if (open == null) {
      return List.of();
    }
    if (open.purpose() == OpenQuestion.Purpose.CLOSED_AGAIN) {
      bench.grind();
    }
    Map<String, Double> values = new HashMap<>();
    for (Question field : open.fields()) {
      if (field.kind() == Question.Kind.MASS) {
        values.put(field.name(), bench.weigh());
      }
    }
    return List.of(new Request.Answer("Ada", open.number(), values, ""));
  }

  @Test
  void theProductsMassInAirIsCorrectedBeforeItTellsOfItsOxygen() {
    runToTheLastWeighing();
    SolidSpec charge = spec.solid();
    // The simulated charge has the recipe's mass; a balance would have shown 1.6e-5 more of it.
    double chargeShownKg = recipe.charge().massKg() * (1 + 1.2 / 8000 - 1.2 / 8960);
    double grown = bench.truth().solidMassKg() / (charge.unitsMol() * charge.unitKgPerMol());
    double shownKg = bench.weigh();
    double trueKg = chargeShownKg * grown;
    TickWork work = new TickWork(plan, state);
    work.readings = readings;

    // By hand: 1.2 (1/6310 - 1/8960) = 5.6 parts in 100 000.
    assertEquals(-5.6e-5, shownKg / trueKg - 1, SHOWN, "the simulated balance feels the air");
    double corrected = WeighedInAir.corrected(shownKg, work).value();
    assertEquals(0, corrected / trueKg - 1, SHOWN, "the correction takes it out");

    Composition before = work.composition;
    double perUnit = before.weighed(trueKg, work.gas).after().now(work.gas).value();
    double uncorrected = before.weighed(shownKg, work.gas).after().now(work.gas).value();
    Ledger.weigh(shownKg, work);
    double entered = work.composition.now(work.gas).value();
    double step = StrictMath.abs(uncorrected - perUnit);
    assertTrue(step > 0);
    assertEquals(perUnit, entered, 0.3 * step, "the ledger enters the corrected mass");
    bench.close();
  }
}
