package tarnish.controller.app;

import java.util.OptionalDouble;
import tarnish.controller.control.OpenQuestion;

/** Weighs once for every question that opens. Touched by the loop thread only. */
final class BalanceLook {
  private int weighedQuestion;
  private Double massKg;

  /** Begins anew, for another batch. */
  void begin() {
    weighedQuestion = 0;
  }

  void look(OpenQuestion question, BatchBench bench) {
    if (question != null && question.number() != weighedQuestion) {
      weighedQuestion = question.number();
      OptionalDouble weighed = bench.weighKg();
      massKg = weighed.isPresent() ? weighed.getAsDouble() : null;
    }
  }

  /** Null where nothing was weighed. */
  Double massKg() {
    return massKg;
  }
}
