package tarnish.controller.files;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import tarnish.shared.recipe.Question;
import tarnish.shared.recipe.Question.Kind;

/**
 * Reads what a person is asked for: {@code {mass of solid: mass, remark: remark}}, or with the
 * answer of the stand-in operator {@code {mass of solid: {kind: mass, in rehearsal: 4.9 g}}}.
 */
final class QuestionReader {
  private static final int MOST = 10;

  private final Faults faults;

  QuestionReader(Faults faults) {
    this.faults = faults;
  }

  List<Question> read(Optional<Node> node) {
    List<Question> questions = new ArrayList<>();
    if (node.isEmpty()) {
      return questions;
    }
    if (!(node.get() instanceof Node.Mapping mapping) || mapping.entries().isEmpty()) {
      faults.add(
          node.get().place(),
          node.get() instanceof Node.Mapping ? "no question" : node.get().words(),
          "questions with their kind, e.g. {mass of solid: mass, remark: remark}");
      return questions;
    }
    if (mapping.entries().size() > MOST) {
      faults.add(mapping.place(), mapping.entries().size() + " questions", "at most " + MOST);
    }
    Set<String> names = new HashSet<>();
    for (Node.Entry entry : mapping.entries()) {
      if (entry.key().isBlank() || entry.key().length() > 60) {
        faults.add(
            entry.keyPlace(),
            "'" + Faults.shortened(entry.key()) + "'",
            "a question of 1 to 60 characters");
      }
      if (!names.add(entry.key())) {
        faults.add(
            entry.keyPlace(),
            "the question '" + Faults.shortened(entry.key()) + "' a second time",
            "it once");
      }
      questions.add(question(entry));
    }
    return questions;
  }

  private Question question(Node.Entry entry) {
    if (entry.value() instanceof Node.Mapping) {
      Fields fields =
          new Fields(entry.value(), "question", faults, List.of("kind", "in rehearsal"));
      Kind kind = fields.word("kind", Kind.values(), Kind::words);
      if (kind != Kind.MASS && fields.has("in rehearsal")) {
        fields.fault("in rehearsal", fields.written("in rehearsal"), "it only for a mass");
        return new Question(entry.key(), kind, OptionalDouble.empty());
      }
      OptionalDouble fallback = fields.optionalQuantity("in rehearsal", Bound.MASS);
      return new Question(entry.key(), kind, fallback);
    }
    return new Question(entry.key(), kind(entry.value()), OptionalDouble.empty());
  }

  private Kind kind(Node node) {
    for (Kind kind : Kind.values()) {
      if (node instanceof Node.Scalar scalar && scalar.text().strip().equals(kind.words())) {
        return kind;
      }
    }
    List<String> known = List.of(Kind.MASS.words(), Kind.REMARK.words());
    if (node instanceof Node.Scalar scalar && !scalar.text().isBlank()) {
      faults.addUnknown(node.place(), "the unknown kind", scalar.text().strip(), known);
    } else {
      faults.add(node.place(), node.words(), "one of " + String.join(", ", known));
    }
    return Kind.REMARK;
  }
}
