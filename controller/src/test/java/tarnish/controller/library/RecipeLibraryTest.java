package tarnish.controller.library;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.library.RecipeLibrary.NotKept;
import tarnish.controller.library.RecipeLibrary.Version;

class RecipeLibraryTest {
  private static final String WHEN = "2026-01-05T08:00:00Z";

  @TempDir private Path folder;

  private static Version save(RecipeLibrary library, String text, int basedOn)
      throws NotKept, IOException {
    return library.save("copper", text, basedOn, "Ada", "why", WHEN);
  }

  @Test
  void everyVersionIsKeptAndFoundAgainAfterARestart() throws Exception {
    RecipeLibrary library = RecipeLibrary.open(folder);
    Version first = save(library, "recipe: one\n", 0);
    Version second = save(library, "recipe: two\n", 1);
    assertEquals(2, second.number());
    assertEquals(Checksum.of("recipe: two\n"), second.sha256());
    RecipeLibrary again = RecipeLibrary.open(folder);
    assertEquals(List.of(first, second), again.all().get("copper"));
    assertEquals("recipe: one\n", again.text(again.find("copper", 1).orElseThrow()));
    assertEquals(second, again.bySha256(second.sha256()).orElseThrow());
  }

  @Test
  void whoIsSlowerIsToldWhoWasQuicker() throws Exception {
    RecipeLibrary library = RecipeLibrary.open(folder);
    save(library, "one", 0);
    library.save("copper", "two", 1, "Ben", "", WHEN);
    NotKept e = assertThrows(NotKept.class, () -> save(library, "mine", 1));
    assertTrue(e.getMessage().contains("Ben"), e.getMessage());
    assertEquals(2, library.all().get("copper").size());
  }

  @Test
  void theSameTextIsNoNewVersion() throws Exception {
    RecipeLibrary library = RecipeLibrary.open(folder);
    Version first = save(library, "one", 0);
    assertEquals(first, save(library, "one", 1));
  }

  @Test
  void aTextChangedBehindItsBackIsNotGivenOut() throws Exception {
    RecipeLibrary library = RecipeLibrary.open(folder);
    Version version = save(library, "one", 0);
    Files.writeString(folder.resolve(version.sha256() + ".recipe.yaml"), "two");
    assertThrows(IOException.class, () -> library.text(version));
  }

  @Test
  void aTornLineOfTheListSpoilsNothing() throws Exception {
    RecipeLibrary library = RecipeLibrary.open(folder);
    save(library, "one", 0);
    Files.writeString(
        folder.resolve("versions.jsonl"), "{\"name\":\"cop", StandardOpenOption.APPEND);
    RecipeLibrary again = RecipeLibrary.open(folder);
    Version second = save(again, "two", 1);
    assertEquals(second, RecipeLibrary.open(folder).newest("copper").orElseThrow());
  }

  @Test
  void filesOfTheRecipeFolderAreTakenInWhereTheyAreNew() throws Exception {
    RecipeLibrary library = RecipeLibrary.open(folder);
    library.takeIn(Map.of("copper.recipe.yaml", "one"), WHEN);
    library.takeIn(Map.of("copper.recipe.yaml", "one"), WHEN);
    assertEquals(1, library.all().get("copper").size());
    library.save("copper", "edited", 1, "Ada", "", WHEN);
    library.takeIn(Map.of("copper.recipe.yaml", "one"), WHEN);
    assertEquals("edited", library.text(library.newest("copper").orElseThrow()));
    library.takeIn(Map.of("copper.recipe.yaml", "three"), WHEN);
    assertEquals(3, library.newest("copper").orElseThrow().number());
  }

  @Test
  void aNameIsAPlainOne() {
    for (String bad : List.of("", " a", "../a", "a/b", "a\nb", "a\0", ".a", "x".repeat(81))) {
      assertFalse(RecipeLibrary.isName(bad), bad);
    }
    assertTrue(RecipeLibrary.isName("Kupferoxid, 2. Versuch".replace(",", "")));
  }

  /** Applying a difference to the first text gives the second, and no line is lost. */
  @Test
  void aDifferenceTellsBothTextsExactly() {
    long seed = Long.getLong("seed", 3L);
    SplittableRandom random = new SplittableRandom(seed);
    for (int i = 0; i < 500; i++) {
      String before = text(random);
      String after = random.nextInt(5) == 0 ? before : text(random);
      List<LineDiff.Line> lines = LineDiff.of(before, after);
      assertEquals(before, without(lines, LineDiff.Mark.NEW), "seed " + seed + " case " + i);
      assertEquals(after, without(lines, LineDiff.Mark.GONE), "seed " + seed + " case " + i);
      boolean same = lines.stream().allMatch(line -> line.mark() == LineDiff.Mark.SAME);
      assertEquals(before.equals(after), same, "seed " + seed + " case " + i);
    }
  }

  @Test
  void oneChangedLineIsOneLineGoneAndOneNew() {
    List<LineDiff.Line> lines = LineDiff.of("a\nb\nc", "a\nx\nc");
    assertEquals(
        List.of(
            new LineDiff.Line(LineDiff.Mark.SAME, 1, 1, "a"),
            new LineDiff.Line(LineDiff.Mark.GONE, 2, 0, "b"),
            new LineDiff.Line(LineDiff.Mark.NEW, 0, 2, "x"),
            new LineDiff.Line(LineDiff.Mark.SAME, 3, 3, "c")),
        lines);
  }

  private static String text(SplittableRandom random) {
    return random
        .ints(random.nextInt(12), 0, 4)
        .mapToObj(Integer::toString)
        .collect(Collectors.joining("\n"));
  }

  private static String without(List<LineDiff.Line> lines, LineDiff.Mark mark) {
    return lines.stream()
        .filter(line -> line.mark() != mark)
        .map(LineDiff.Line::text)
        .collect(Collectors.joining("\n"));
  }
}
