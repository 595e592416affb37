package tarnish.controller.service;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentHashMap;
import tarnish.controller.control.Request;
import tarnish.controller.control.StepChange;
import tarnish.controller.library.Checksum;
import tarnish.controller.library.PhotoStore;
import tarnish.controller.library.RecipeLibrary;

/** A workshop with a real library and photo store, and scripted checks and rehearsals. */
public final class FakeWorkshop implements Workshop {
  private static final String COPPER = "title: Copper to copper(II) oxide\n";

  private final FakeBench bench;
  private final RecipeLibrary library;
  private final PhotoStore photos;
  private final Map<String, RehearsalReport> rehearsals = new ConcurrentHashMap<>();

  public FakeWorkshop(FakeBench bench) {
    this.bench = bench;
    try {
      Path folder = Files.createTempDirectory(Path.of("target"), "workshop");
      library = RecipeLibrary.open(folder.resolve("recipes"));
      library.takeIn(
          new TreeMap<>(
              Map.of(
                  "copper.recipe.yaml",
                  COPPER,
                  "barium.recipe.yaml",
                  "title: Barium oxide to barium peroxide\n")),
          "2026-01-05T08:00:00+01:00");
      photos = new PhotoStore(folder.resolve("photos"));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Serves a scripted bench with a workshop, for trials: this machine, any port, no brakes. */
  static WebService serve(FakeBench bench, int port) {
    return WebService.start(
        bench,
        Optional.of(new FakeWorkshop(bench)),
        new WebSettings(
            "127.0.0.1", port, List.of(), false, Optional.empty(), false, WebSettings::millis));
  }

  @Override
  public RecipeLibrary library() {
    return library;
  }

  @Override
  public PhotoStore photos() {
    return photos;
  }

  @Override
  public RecipeReport check(String text) {
    String sha256 = Checksum.of(text);
    if (!text.toLowerCase(java.util.Locale.ROOT).contains("copper")) {
      String message = "found '20', expected a temperature with a unit, such as 20 °C";
      return new RecipeReport(
          false,
          sha256,
          "recipe:1:8: " + message,
          List.of(new FaultLine(1, 8, message)),
          List.of(),
          List.of());
    }
    return new RecipeReport(
        true,
        sha256,
        "The recipe can be run on this rig.\n9 steps, about 19 h",
        List.of(),
        List.of(
            new PlanLine("ok", "Oxygen needed", "15.7 mmol", "charge and target"),
            new PlanLine("warning", "Heat of a pulse", "12 K", "adiabatic, all oxygen taken up")),
        List.of(
            new PreflightItem("charge", "Charge weighed in, in g", "The recipe says 2 g.", "mass"),
            new PreflightItem("vessel", "Vessel looked at and closed", "quartz tube", "yes"),
            new PreflightItem("leak test", "Tightness", "There is no leak test.", "words")));
  }

  @Override
  public ChangeReport preview(Request change) {
    return change instanceof Request.SkipSoak skip && skip.position() != 5
        ? new ChangeReport("That soak is not the step under way.", List.of(), null, null)
        : new ChangeReport(
            "",
            List.of(new StepChange.Difference(5, "Soak at 250 °C", "for", "6 h", "8 h")),
            "in about 9 h",
            "in about 11 h");
  }

  @Override
  public Optional<RehearsalReport> rehearse(String text, Request change) {
    String id = Checksum.of(text + (change == null ? "" : change.getClass()));
    return Optional.of(
        rehearsals.computeIfAbsent(
            id, key -> new RehearsalReport(key, "done", true, "complete after 21 h", "all lines")));
  }

  @Override
  public Optional<RehearsalReport> rehearsal(String id) {
    return Optional.ofNullable(rehearsals.get(id));
  }

  @Override
  public Optional<String> start(String text, String by, Map<String, String> answers) {
    return answers.containsKey("vessel")
        ? bench.start(by)
        : Optional.of("The list before the start is not done.");
  }

  @Override
  public List<OpenStep> openSteps() {
    return List.of(
        new OpenStep(
            5, "Soak at 250 °C", true, List.of(new StepNumber("for", 21_600, "6 h", "h", 3600))),
        new OpenStep(
            7,
            "Ramp to 300 °C",
            false,
            List.of(
                new StepNumber("to", 573.15, "300 °C", "°C", 1),
                new StepNumber("rate", 0.05, "3 K/min", "K/min", 1 / 60.0))));
  }
}
