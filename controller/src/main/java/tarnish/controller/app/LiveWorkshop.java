package tarnish.controller.app;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Outlook;
import tarnish.controller.control.Request;
import tarnish.controller.control.StepChange;
import tarnish.controller.control.StepNumbers;
import tarnish.controller.control.Words;
import tarnish.controller.files.FileCheck;
import tarnish.controller.files.ReadResult;
import tarnish.controller.files.RecipeReader;
import tarnish.controller.library.Checksum;
import tarnish.controller.library.PhotoStore;
import tarnish.controller.library.RecipeLibrary;
import tarnish.controller.service.Workshop;
import tarnish.shared.planning.PlanningSheet;
import tarnish.shared.recipe.Recipe;

/** The workshop beside a live bench; its files lie in the folder of the record. */
final class LiveWorkshop implements Workshop {
  private final LiveBench bench;
  private final RecipeLibrary library;
  private final PhotoStore photos;
  private final ProofRecord proofs;
  private final Rehearsals rehearsals = new Rehearsals();

  private LiveWorkshop(LiveBench bench, RecipeLibrary library, Path data) {
    this.bench = bench;
    this.library = library;
    photos = new PhotoStore(data.resolve("photos"));
    proofs = new ProofRecord(data);
  }

  /** Opens it; the recipes of the settings become versions where they are new. */
  static LiveWorkshop open(LiveBench bench, Map<String, String> recipes, Path data) {
    try {
      RecipeLibrary library = RecipeLibrary.open(data.resolve("recipes"));
      library.takeIn(recipes, OffsetDateTime.now().truncatedTo(ChronoUnit.SECONDS).toString());
      return new LiveWorkshop(bench, library, data);
    } catch (IOException e) {
      throw new CommandFailure(
          "The recipe library in " + data.resolve("recipes") + ": " + e.getMessage() + ".");
    }
  }

  @Override
  public RecipeLibrary library() {
    return library;
  }

  @Override
  public PhotoStore photos() {
    return photos;
  }

  private ReadResult<Recipe> read(String text) {
    return RecipeReader.read("recipe", text, Optional.of(bench.rig()));
  }

  private List<PreflightItem> preflight(Recipe recipe) {
    return new PreflightList(recipe, bench.rig(), bench.picture().state().presence(), proofs)
        .items(LocalDate.now());
  }

  @Override
  public RecipeReport check(String text) {
    ReadResult<Recipe> read = read(text);
    String result =
        String.join("\n", FileCheck.check("recipe", text, Optional.of(bench.rig())).lines());
    List<FaultLine> faults =
        read.faults().stream()
            .map(fault -> new FaultLine(fault.line(), fault.column(), fault.message()))
            .toList();
    String sha256 = Checksum.of(text);
    if (!read.isGood()) {
      return new RecipeReport(false, sha256, result, faults, List.of(), List.of());
    }
    List<PlanLine> plan =
        PlanningSheet.of(read.value(), bench.rig()).lines().stream()
            .map(
                line ->
                    new PlanLine(line.verdict().words(), line.what(), line.value(), line.source()))
            .toList();
    return new RecipeReport(true, sha256, result, List.of(), plan, preflight(read.value()));
  }

  @Override
  public ChangeReport preview(Request change) {
    LiveBench.Picture now = bench.picture();
    StepChange outcome = StepChange.of(change, now.plan(), now.state());
    if (!outcome.refusal().isEmpty()) {
      return new ChangeReport(outcome.refusal(), List.of(), null, null);
    }
    ControlState changed = StepChange.apply(change, now.plan(), now.state());
    return new ChangeReport("", outcome.differences(), ends(now, now.state()), ends(now, changed));
  }

  private static String ends(LiveBench.Picture now, ControlState state) {
    Outlook outlook = Outlook.from(now.plan(), state, now.readings());
    double leftS = Math.max(0, outlook.endS() - state.lastMillis() / 1000.0);
    return "in about "
        + Words.duration(Math.rint(leftS / 60) * 60)
        + (outlook.waitsForPerson() ? ", and as long as it waits for people" : "");
  }

  @Override
  public Optional<RehearsalReport> rehearse(String text, Request change) {
    if (change == null) {
      String id = Checksum.of(text);
      LoadedFiles files = new LoadedFiles(read(text).value(), text, bench.rig(), bench.rigText());
      return rehearsals.begin(
          id,
          () -> new Rehearsal(files, 1, Optional.empty()),
          () -> FaultLines.words(new FaultRehearsal(files, 1).run()));
    }
    LiveBench.Picture now = bench.picture();
    StepChange outcome = StepChange.of(change, now.plan(), now.state());
    // What was earned grows while somebody reads the result; the change stays the same one.
    String key =
        change instanceof Request.SkipSoak skip
            ? "skip " + skip.position()
            : "change "
                + ((Request.ChangeStep) change).position()
                + new java.util.TreeMap<>(((Request.ChangeStep) change).values());
    String id =
        Checksum.of(
            now.batch() + "\n" + now.recipeText() + "\n" + StepNumbers.all(now.state()) + key);
    LoadedFiles files =
        new LoadedFiles(now.plan().recipe(), now.recipeText(), now.plan().rig(), bench.rigText());
    return rehearsals.begin(
        id, () -> new Rehearsal(files, 1, Optional.empty(), outcome.program()), () -> "");
  }

  @Override
  public Optional<RehearsalReport> rehearsal(String id) {
    return rehearsals.find(id);
  }

  @Override
  public List<OpenStep> openSteps() {
    LiveBench.Picture now = bench.picture();
    if (now.batch() == null || now.state().phase().isFinal()) {
      return List.of();
    }
    return StepNumbers.open(now.state()).stream()
        .map(
            step ->
                new OpenStep(
                    step.position(),
                    step.title(),
                    step.now(),
                    step.numbers().stream().map(LiveWorkshop::number).toList()))
        .toList();
  }

  private static StepNumber number(StepNumbers.Number number) {
    return new StepNumber(
        number.word(), number.value(), number.printed(), number.unit(), number.factor());
  }

  @Override
  public Optional<String> start(String text, String by, Map<String, String> answers) {
    ReadResult<Recipe> read = read(text);
    if (!read.isGood()) {
      return Optional.of(
          read.faults().stream().map(Object::toString).collect(Collectors.joining("\n")));
    }
    List<PreflightItem> items = preflight(read.value());
    List<String> complaints = PreflightList.complaints(items, answers, read.value());
    if (!complaints.isEmpty()) {
      return Optional.of(
          "The list before the start is not done. " + String.join(". ", complaints) + ".");
    }
    Map<String, String> recorded = PreflightList.recorded(items, answers, read.value());
    library
        .bySha256(Checksum.of(text))
        .ifPresent(
            version -> recorded.put("library", version.name() + ", version " + version.number()));
    return bench.startBatch(text, by, recorded);
  }
}
