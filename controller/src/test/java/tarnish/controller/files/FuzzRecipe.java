package tarnish.controller.files;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Optional;
import tarnish.shared.rig.RigDescription;

/** Any bytes as a recipe file, alone and held against a rig. */
public final class FuzzRecipe {
  private static final RigDescription BENCH =
      RigReader.read("bench", DemoFiles.text("bench.rig.yaml")).value();

  private FuzzRecipe() {}

  public static void fuzzerTestOneInput(byte[] data) {
    ReadResult<String> decoded = FileText.decode("f", data);
    String text =
        decoded.isGood() ? decoded.value() : new String(data, StandardCharsets.ISO_8859_1);
    // One reading for each input, chosen by what it holds: twice as many inputs in the same time.
    int choice = StrictMath.floorMod(Arrays.hashCode(data), 8);
    if (choice == 0) {
      if (FileCheck.check("f", text, Optional.of(BENCH)).lines().isEmpty()) {
        throw new AssertionError("a check without a word");
      }
      return;
    }
    Optional<RigDescription> rig = choice < 3 ? Optional.empty() : Optional.of(BENCH);
    HarmlessResult.check(RecipeReader.read("f", text, rig), text, text);
  }
}
