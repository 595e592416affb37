package tarnish.controller.files;

import java.nio.charset.StandardCharsets;
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
    HarmlessResult.check(RecipeReader.read("f", text, Optional.empty()), text, text);
    HarmlessResult.check(RecipeReader.read("f", text, Optional.of(BENCH)), text, text);
    if (FileCheck.check("f", text, Optional.of(BENCH)).lines().isEmpty()) {
      throw new AssertionError("a check without a word");
    }
  }
}
