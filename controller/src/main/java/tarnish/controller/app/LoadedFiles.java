package tarnish.controller.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Optional;
import java.util.stream.Collectors;
import tarnish.controller.files.FileText;
import tarnish.controller.files.ReadResult;
import tarnish.controller.files.RecipeReader;
import tarnish.controller.files.RigFile;
import tarnish.controller.files.RigReader;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.RigDescription;

/** A recipe and a rig, checked against each other, with the very texts they were read from. */
record LoadedFiles(Recipe recipe, String recipeText, RigDescription rig, String rigText) {

  /** Reads both files or fails with every fault in them. */
  static LoadedFiles read(Path recipeFile, Path rigFile) {
    String rigText = text(rigFile);
    RigDescription rig = value(RigReader.read(rigFile.toString(), rigText));
    String recipeText = text(recipeFile);
    Recipe recipe = value(RecipeReader.read(recipeFile.toString(), recipeText, Optional.of(rig)));
    return new LoadedFiles(recipe, recipeText, rig, rigText);
  }

  static RigDescription rig(String fileName, String text) {
    return DefeatRules.checked(fileName, value(RigReader.read(fileName, text)));
  }

  static RigFile rigFile(String fileName, String text) {
    return value(RigReader.readFile(fileName, text));
  }

  /** The text of a file in UTF-8, or a failure that says what is wrong with it. */
  static String text(Path file) {
    try {
      return value(FileText.decode(file.toString(), Files.readAllBytes(file)));
    } catch (NoSuchFileException e) {
      throw new CommandFailure("There is no file " + file + ".");
    } catch (IOException e) {
      throw new CommandFailure("Cannot read " + file + ": " + e.getMessage() + ".");
    }
  }

  static <T> T value(ReadResult<T> result) {
    if (result.isGood()) {
      return result.value();
    }
    throw new CommandFailure(
        result.faults().stream().map(Object::toString).collect(Collectors.joining("\n")));
  }

  static String note(boolean invented, long seed, boolean real) {
    return (invented ? "invented demonstration data; " : "")
        + (real ? "real bench" : "simulated bench, seed " + seed);
  }
}
