package tarnish.controller.files;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;
import org.junit.jupiter.api.Test;
import tarnish.shared.rig.RigDescription;

/** Whatever happens to a file, it is a value or faults with places inside it: never a crash. */
class MutatedFilesTest {
  private static final long SEED = 4_711;
  private static final int MUTANTS_PER_FILE = 300;
  private static final String LETTERS =
      "aZ09 .,:;-+*&!|>'\"%@`#{}[]?<=~^/\\\t\n\r°±µ³·\u00a0\u0000\u2028é";

  private final RandomGenerator random = RandomGeneratorFactory.of("SplittableRandom").create(SEED);

  @Test
  void noMutantOfADemonstrationFileDoesHarm() {
    RigDescription bench = RigReader.read("bench", DemoFiles.text("bench.rig.yaml")).value();
    List<String> names = new ArrayList<>(DemoFiles.RIGS);
    names.addAll(DemoFiles.BENCH_RECIPES);
    names.add(DemoFiles.CATALYST_RECIPE);
    int faulty = 0;
    for (String name : names) {
      String text = DemoFiles.text(name);
      for (int i = 0; i < MUTANTS_PER_FILE; i++) {
        String mutant = mutant(text);
        String where = name + ", seed " + SEED + ", mutant " + i + ":\n" + mutant;
        faulty += HarmlessResult.check(RigReader.readFile("f", mutant), mutant, where) ? 0 : 1;
        HarmlessResult.check(RecipeReader.read("f", mutant, Optional.empty()), mutant, where);
        HarmlessResult.check(RecipeReader.read("f", mutant, Optional.of(bench)), mutant, where);
        assertFalse(FileCheck.check("f", mutant, Optional.of(bench)).lines().isEmpty(), where);
      }
    }
    assertTrue(faulty > MUTANTS_PER_FILE, "hardly anything was broken: " + faulty);
  }

  private String mutant(String text) {
    String mutant = text;
    int changes = 1 + random.nextInt(3);
    for (int i = 0; i < changes && !mutant.isEmpty(); i++) {
      mutant = random.nextBoolean() ? changedLetters(mutant) : changedLines(mutant);
    }
    return mutant;
  }

  private String changedLetters(String text) {
    int at = random.nextInt(text.length());
    int end = Math.min(text.length(), at + 1 + random.nextInt(4));
    String letter = String.valueOf(LETTERS.charAt(random.nextInt(LETTERS.length())));
    return switch (random.nextInt(5)) {
      case 0 -> text.substring(0, at) + text.substring(end);
      case 1 -> text.substring(0, end) + text.substring(at);
      case 2 -> text.substring(0, at) + letter + text.substring(at);
      case 3 -> text.substring(0, at);
      default -> text.substring(0, at) + letter + text.substring(end);
    };
  }

  private String changedLines(String text) {
    List<String> lines = new ArrayList<>(List.of(text.split("\n", -1)));
    int from = random.nextInt(lines.size());
    int to = random.nextInt(lines.size());
    switch (random.nextInt(4)) {
      case 0 -> lines.remove(from);
      case 1 -> lines.add(to, lines.get(from));
      case 2 -> lines.set(to, lines.get(from));
      default -> lines.set(from, " ".repeat(random.nextInt(6)) + lines.get(from).strip());
    }
    return String.join("\n", lines);
  }
}
