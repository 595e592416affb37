package tarnish.controller.app;

import java.nio.file.Path;

/** The demonstration files, where the tests find them. */
final class Demo {
  private static final Path FOLDER = Path.of("../sim/demo");

  static final Path RIG = FOLDER.resolve("bench.rig.yaml");
  static final Path COPPER = FOLDER.resolve("copper-oxide.recipe.yaml");
  static final Path BARIUM = FOLDER.resolve("barium-peroxide.recipe.yaml");
  static final Path CATALYST = FOLDER.resolve("catalyst-passivation.recipe.yaml");
  static final Path CATALYST_RIG = FOLDER.resolve("catalyst.rig.yaml");

  private Demo() {}

  static String text(String name) {
    return LoadedFiles.text(FOLDER.resolve(name));
  }

  /** The copper recipe, for a service that is to have its processor to itself. */
  static String copperUnrehearsed() {
    return LoadedFiles.text(COPPER).replaceAll("(?s)\nrehearsal:.*", "\n");
  }

  static LoadedFiles copper() {
    return LoadedFiles.read(COPPER, RIG);
  }
}
