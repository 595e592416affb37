package tarnish.controller.app;

import tarnish.shared.recipe.Recipe;

/** A batch that a person wants to start. */
record NewBatch(Recipe recipe, String text, String by) {}
