package tarnish.controller.files;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;

/** The demonstration files as they ship on the class path. */
final class DemoFiles {
  static final List<String> RIGS =
      List.of("bench.rig.yaml", "catalyst.rig.yaml", "instruments.rig.yaml");
  static final List<String> BENCH_RECIPES =
      List.of(
          "copper-oxide.recipe.yaml",
          "copper-oxide-two-weeks.recipe.yaml",
          "barium-peroxide.recipe.yaml");
  static final String CATALYST_RECIPE = "catalyst-passivation.recipe.yaml";

  private DemoFiles() {}

  static String text(String name) {
    try (InputStream in = DemoFiles.class.getResourceAsStream("/demo/" + name)) {
      return FileText.decode(name, in.readAllBytes()).value();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
