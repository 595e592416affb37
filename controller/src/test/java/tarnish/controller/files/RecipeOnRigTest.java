package tarnish.controller.files;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import tarnish.shared.rig.RigDescription;

class RecipeOnRigTest {
  private static final String RECIPE = BrokenCase.resource("base.recipe.yaml");
  private static final String RIG = BrokenCase.resource("base.rig.yaml");

  private static List<String> messages(String recipe, Optional<String> rig) {
    Optional<RigDescription> bench = rig.map(text -> RigReader.read("rig", text).value());
    return RecipeReader.read("f", recipe, bench).faults().stream().map(Fault::toString).toList();
  }

  private static String replaced(String text, String from, String to) {
    assertTrue(text.contains(from), from);
    return text.replace(from, to);
  }

  @Test
  void aWideThinTubeMayNotBePressurisedWhileHot() {
    // p = S t / r = 7 MPa × 0.1 mm / 220 mm = 31.8 mbar above the room's 1013 mbar.
    String rig =
        replaced(replaced(RIG, "bore: 44 mm", "bore: 440 mm"), "wall: 2 mm", "wall: 0.1 mm");
    String recipe =
        replaced(
            RECIPE,
            "soak: {at: 150 °C, for: 2 h, band: 3 K, hold: 700 mbar}",
            "soak: {at: 150 °C, for: 2 h, band: 3 K, hold: 1080 mbar, who: attended}");
    assertEquals(
        "f:17:51: found '1080 mbar' with the vessel at 150 °C, expected at most 1044 mbar,"
            + " which the vessel bears there",
        messages(recipe, Optional.of(rig)).get(0));
  }

  @Test
  void aSourceWeakerThanTheHoldCannotKeepIt() {
    String rig = RIG.replaceFirst("supply pressure: 1.5 bar", "supply pressure: 650 mbar");
    assertEquals(
        List.of(
            "f:16:45: found '700 mbar', expected less than 650 mbar, the supply pressure of"
                + " 'bottle'",
            "f:17:51: found '700 mbar', expected less than 650 mbar, the supply pressure of"
                + " 'bottle'"),
        messages(RECIPE, Optional.of(rig)));
  }

  @Test
  void withoutARigOnlyWhatNoRigCouldDoIsRefused() {
    String recipe = replaced(RECIPE, "to: 290 °C, rate: 5 K/min", "to: 1100 °C, rate: 50 K/min");
    recipe = replaced(recipe, "at: 290 °C", "at: 1100 °C");
    assertEquals(List.of(), messages(recipe, Optional.empty()));
    assertEquals(3, messages(recipe, Optional.of(RIG)).size());
    assertEquals(
        List.of(
            "f:27:16: found '4 °C', expected at least 15 °C: the oven cools only to the room, so"
                + " the step would never end"),
        messages(replaced(RECIPE, "cool: {to: 40 °C}", "cool: {to: 4 °C}"), Optional.empty()));
  }

  @Test
  void aRecipeForAnotherRigIsToldItsNames() {
    String recipe = DemoFiles.text(DemoFiles.CATALYST_RECIPE);
    List<String> told = messages(recipe, Optional.of(RIG));
    assertEquals(
        List.of(
            "f:10:9: found 'glass tube B', expected 'quartz tube A', the vessel of the rig"
                + " 'Tube oven bench'",
            "f:11:16: found 'lean mix', expected 'bottle', the oxygen source of the rig"
                + " 'Tube oven bench'"),
        told);
  }

  @Test
  void aFaultyResultHasNoValueButAllItsFaultsInTheException() {
    ReadResult<?> result = RecipeReader.read("f", "recipe: a\nvessel: b\n", Optional.empty());
    IllegalStateException wrong = assertThrows(IllegalStateException.class, result::value);
    assertEquals(result.faults().size(), wrong.getMessage().split("\n").length);
    assertTrue(wrong.getMessage().startsWith("f:1:1: found no 'charge' in the recipe"));
  }

  @Test
  void commentsBlankLinesAndQuotesChangeNothing() {
    String quoted = replaced(RECIPE, "vessel: quartz tube A", "vessel: \"quartz tube A\"");
    assertEquals(List.of(), messages("# a comment\n\n" + quoted, Optional.of(RIG)));
  }
}
