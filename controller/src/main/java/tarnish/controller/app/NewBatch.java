package tarnish.controller.app;

import java.util.Map;
import tarnish.shared.recipe.Recipe;

/**
 * A batch that a person wants to start.
 *
 * @param attendedOnly why it must be so; empty where it need not
 * @param preflight answers of the list before the start; empty where nobody was asked
 */
record NewBatch(
    Recipe recipe, String text, String by, String attendedOnly, Map<String, String> preflight) {}
