package tarnish.controller.files;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import tarnish.shared.rig.RigDescription;

/** One slip of the pen after another, each with every word of what a person is told. */
class BrokenFilesTest {
  private static final String RECIPE = BrokenCase.resource("base.recipe.yaml");
  private static final String RIG = BrokenCase.resource("base.rig.yaml");

  private static final String DEVICES = BrokenCase.resource("devices.rig.yaml");

  private static Optional<RigDescription> rig() {
    return Optional.of(RigReader.read("base.rig.yaml", RIG).value());
  }

  private static List<Fault> recipeFaults(String text) {
    return RecipeReader.read("f", text, rig()).faults();
  }

  private static List<Fault> rigFaults(String text) {
    return RigReader.read("f", text).faults();
  }

  @Test
  void theFilesThatAreBrokenNextAreWhole() {
    assertEquals(List.of(), recipeFaults(RECIPE));
    assertEquals(List.of(), rigFaults(RIG));
    assertEquals(List.of(), rigFaults(DEVICES));
  }

  @TestFactory
  Stream<DynamicTest> everyBrokenRecipeIsToldExactly() {
    return tests("broken-recipes.txt", RECIPE, BrokenFilesTest::recipeFaults);
  }

  @TestFactory
  Stream<DynamicTest> everyBrokenRigIsToldExactly() {
    return tests("broken-rigs.txt", RIG, BrokenFilesTest::rigFaults);
  }

  @TestFactory
  Stream<DynamicTest> everyBrokenRigOfDevicesIsToldExactly() {
    return tests("broken-devices.txt", DEVICES, BrokenFilesTest::rigFaults);
  }

  private static Stream<DynamicTest> tests(
      String cases, String base, Function<String, List<Fault>> faults) {
    List<BrokenCase> all = BrokenCase.read(cases);
    assertTrue(all.size() > 30, "too few cases in " + cases);
    return all.stream()
        .map(
            each ->
                dynamicTest(
                    each.name(),
                    () -> {
                      assertTrue(!each.messages().isEmpty(), "a case without a message");
                      List<String> told =
                          faults.apply(each.brokenText(base)).stream()
                              .map(fault -> fault.toString().replaceFirst("^f:", ""))
                              .toList();
                      assertEquals(
                          String.join("\n", each.messages()), String.join("\n", told), each.name());
                    }));
  }
}
