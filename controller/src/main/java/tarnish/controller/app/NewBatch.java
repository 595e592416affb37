package tarnish.controller.app;

import tarnish.shared.recipe.Recipe;

/** A batch that a person wants to start; {@code attendedOnly} says why, if it must be so. */
record NewBatch(Recipe recipe, String text, String by, String attendedOnly) {}
