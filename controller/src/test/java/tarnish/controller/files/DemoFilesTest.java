package tarnish.controller.files;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.RigDescription;

class DemoFilesTest {
  private static RigDescription rig(String name) {
    ReadResult<RigDescription> result = RigReader.read(name, DemoFiles.text(name));
    assertEquals(List.of(), result.faults());
    return result.value();
  }

  private static Recipe recipe(String name, RigDescription rig) {
    ReadResult<Recipe> result = RecipeReader.read(name, DemoFiles.text(name), Optional.of(rig));
    assertEquals(List.of(), result.faults());
    return result.value();
  }

  @Test
  void everyRecipeFitsItsRigAndSaysThatItIsInvented() {
    for (String name : DemoFiles.BENCH_RECIPES) {
      assertTrue(recipe(name, rig("bench.rig.yaml")).invented(), name);
    }
    RigDescription catalyst = rig("catalyst.rig.yaml");
    assertTrue(recipe(DemoFiles.CATALYST_RECIPE, catalyst).invented());
    assertTrue(catalyst.invented());
  }
}
