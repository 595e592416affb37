package tarnish.controller.app;

import java.util.HashMap;
import java.util.Map;
import tarnish.controller.control.OpenQuestion;
import tarnish.shared.recipe.Question;
import tarnish.sim.SimulatedRig;

/** What a person's hands do at the simulated bench. */
final class BenchHands {
  private BenchHands() {}

  /** Does what an answer says was done. */
  static void act(OpenQuestion question, SimulatedRig bench) {
    switch (question.purpose()) {
      case READY_TO_OPEN -> bench.setVesselOpen(true);
      case CLOSED_AGAIN -> {
        bench.grind();
        bench.setVesselOpen(false);
      }
      case ASK -> {
        // Nothing is touched: the person only looks or weighs.
      }
    }
  }

  /** Reads the values a question asks for, masses from the simulated balance. */
  static Map<String, Double> values(OpenQuestion question, SimulatedRig bench) {
    Map<String, Double> values = new HashMap<>();
    for (Question field : question.fields()) {
      if (field.kind() == Question.Kind.MASS) {
        values.put(field.name(), field.fallback().orElseGet(bench::weigh));
      }
    }
    return values;
  }
}
