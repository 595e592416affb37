package tarnish.controller.files;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;
import org.junit.jupiter.api.Test;

class FileTextTest {
  private static final String RECIPE = BrokenCase.resource("base.recipe.yaml");

  private static List<String> decoding(byte[] bytes) {
    return FileText.decode("f", bytes).faults().stream().map(Fault::toString).toList();
  }

  private static List<String> checking(String text) {
    return FileCheck.check("f", text, Optional.empty()).lines();
  }

  @Test
  void anEmptyFileIsRefused() {
    String expected = "f:1:1: found an empty file, expected a recipe or rig file: text in UTF-8";
    assertEquals(List.of(expected), decoding(new byte[0]));
    assertEquals(List.of(expected), checking(" \n\n"));
  }

  @Test
  void aFileOfOnlyCommentsIsRefused() {
    assertEquals(
        List.of("f:2:1: found an empty file, expected a recipe or rig file"),
        checking("# nothing here\n"));
  }

  @Test
  void aFileOfTenMegabytesIsRefusedBeforeItIsRead() {
    byte[] bytes = new byte[10_000_000];
    Arrays.fill(bytes, (byte) 'a');
    assertEquals(
        List.of(
            "f:1:1: found 10000000 bytes, expected a recipe or rig file of at most 1048576 bytes"),
        decoding(bytes));
    assertEquals(
        List.of(
            "f:1:1: found 10000000 characters, "
                + "expected a recipe or rig file of at most 1048576 bytes"),
        checking(new String(bytes, StandardCharsets.US_ASCII)));
  }

  @Test
  void bytesThatAreNotUtf8AreRefusedWhereTheyStand() {
    byte[] latin1 = "recipe: a\nnote: 20 °C\n".getBytes(StandardCharsets.ISO_8859_1);
    assertEquals(
        List.of(
            "f:2:10: found bytes that are not UTF-8, "
                + "expected a recipe or rig file: text in UTF-8"),
        decoding(latin1));
  }

  @Test
  void aNulIsRefusedWhereItStands() {
    assertEquals(
        List.of(
            "f:2:3: found the control character U+0000, "
                + "expected a recipe or rig file: text in UTF-8"),
        decoding("recipe: a\nto\0: 3".getBytes(StandardCharsets.UTF_8)));
  }

  @Test
  void randomBytesAreRefused() {
    long seed = 20_260_101;
    RandomGenerator random = RandomGeneratorFactory.of("SplittableRandom").create(seed);
    for (int i = 0; i < 200; i++) {
      byte[] bytes = new byte[200 + random.nextInt(2000)];
      random.nextBytes(bytes);
      assertFalse(FileText.decode("f", bytes).isGood(), "seed " + seed + ", file " + i);
    }
  }

  @Test
  void aByteOrderMarkDoesNoHarm() {
    byte[] bytes = ("\uFEFF" + RECIPE).getBytes(StandardCharsets.UTF_8);
    assertEquals(RECIPE, FileText.decode("f", bytes).value());
    assertTrue(RecipeReader.read("f", "\uFEFF" + RECIPE, Optional.empty()).isGood());
  }

  @Test
  void windowsLineEndsDoNoHarm() {
    assertTrue(RecipeReader.read("f", RECIPE.replace("\n", "\r\n"), Optional.empty()).isGood());
  }

  @Test
  void deepNestingIsRefusedAtItsPlace() {
    assertEquals(
        List.of("f:1:32: found nesting deeper than 24 levels, expected less"),
        checking("recipe: " + "[".repeat(900_000)));
    assertEquals(
        List.of("f:1:49: found nesting deeper than 24 levels, expected less"),
        checking("- ".repeat(400_000)));
  }

  @Test
  void aChainOfAliasesIsRefusedAtItsFirstAnchor() {
    assertEquals(
        List.of("f:1:9: found the anchor '&a', expected the value alone"),
        checking("recipe: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n"));
  }

  @Test
  void aVeryLongValueIsRefusedByItsLength() {
    String blanks = " ".repeat(900_000);
    String text = RECIPE.replace("4.000 g ± 1 mg", "4.000" + blanks + "g");
    assertEquals(
        List.of(
            "f:3:29: found a text of 900006 characters, "
                + "expected a value ± its standard uncertainty, e.g. 4.000 g ± 1 mg"),
        checking(text));
  }

  @Test
  void noMoreFaultsAreListedThanAnybodyReads() {
    assertEquals(100, checking("recipe: a\n" + "steps:\n" + "  - x\n".repeat(5000)).size());
  }

  @Test
  void everyTruncationOfARecipeIsRefusedOrWhole() {
    for (int end = 0; end < RECIPE.length(); end++) {
      ReadResult<?> result = RecipeReader.read("f", RECIPE.substring(0, end), Optional.empty());
      assertTrue(result.isGood() || !result.faults().isEmpty());
      // The whole recipe needs its steps; only the rehearsal at the end may be missing.
      assertTrue(end > RECIPE.indexOf("  - evacuate") || !result.isGood(), "cut at " + end);
    }
  }
}
