package tarnish.controller.control;

import java.util.List;
import tarnish.shared.recipe.Question;

/**
 * A question that waits for a person.
 *
 * @param number counted through the batch
 * @param purpose what the answer is for
 * @param prompt what the person reads
 * @param fields values asked for
 */
public record OpenQuestion(int number, Purpose purpose, String prompt, List<Question> fields) {
  public OpenQuestion {
    fields = List.copyOf(fields);
  }

  /** What an answer is for. */
  public enum Purpose {
    /** A person is there and about to open the vessel. */
    READY_TO_OPEN,
    /** The vessel is closed again. */
    CLOSED_AGAIN,
    /** An ask step. */
    ASK
  }
}
