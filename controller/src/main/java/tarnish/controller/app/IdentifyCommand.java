package tarnish.controller.app;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;
import tarnish.controller.files.OvenModelText;
import tarnish.shared.oven.IdentifiedOven;
import tarnish.shared.oven.OvenFit;
import tarnish.shared.rig.RigDescription;
import tarnish.sim.SimulatedRig;

/** {@code identify}: gets to know the oven of a rig, by steps and a relay, inside its limits. */
@Command(
    name = "identify",
    mixinStandardHelpOptions = true,
    description =
        "Heats the (simulated) oven by steps and a relay, fits its model, and writes the rig file"
            + " with the model in it. On a real bench: inert dummy charge, vessel shut, vent free."
            + " Exit status 0 if it ends done and the model fits.")
final class IdentifyCommand implements Callable<Integer> {
  @Option(names = "--rig", required = true, paramLabel = "FILE", description = "rig file")
  private Path rigFile;

  @Option(
      names = "--seed",
      defaultValue = "1",
      paramLabel = "N",
      description = "draws the bench and its noise (default: ${DEFAULT-VALUE})")
  private long seed;

  @Option(
      names = "--top",
      paramLabel = "CELSIUS",
      description = "highest oven temperature, in °C; by default 450, or 40 K below the limits")
  private Double topCelsius;

  @Option(
      names = "--duty",
      defaultValue = "100",
      paramLabel = "PERCENT",
      description = "greatest heater duty (default: ${DEFAULT-VALUE})")
  private double dutyPercent;

  @Option(names = "--json", description = "print one JSON object, SI units")
  private boolean json;

  @Option(
      names = "--out",
      paramLabel = "FILE",
      description = "write the rig file with the model there, and a plot beside it (.svg)")
  private Path out;

  @Option(
      names = "--date",
      paramLabel = "DAY",
      description = "day of the identification, e.g. 2026-11-25 (default: today)")
  private LocalDate date;

  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    String rigText = LoadedFiles.text(rigFile);
    RigDescription rig = LoadedFiles.rig(rigFile.toString(), rigText);
    if (!(dutyPercent > 0 && dutyPercent <= 100)) {
      throw new CommandFailure(
          "--duty is " + dutyPercent + "; it must be above 0 and at most 100.");
    }
    OptionalDouble topK =
        topCelsius == null ? OptionalDouble.empty() : OptionalDouble.of(topCelsius + 273.15);
    OvenIdentification run = new OvenIdentification(rig, topK, dutyPercent / 100);
    run.run(new SimulatedRig(rig, OvenIdentification.nothingToDo(rig), seed));
    if (!run.isDone()) {
      throw new CommandFailure(
          "The identification was aborted, the heater is off. "
              + run.why()
              + "\nWhere the oven is too strong for its sample, repeat it with half the --duty, once"
              + " all is cold."
              + "\n"
              + String.join("\n", run.log()));
    }
    OvenFit fit = run.fit();
    LocalDate day = date == null ? LocalDate.now() : date;
    IdentifiedOven oven = IdentifiedOven.of(fit, rig.vessel().name(), day);
    PrintWriter print = spec.commandLine().getOut();
    print.print(json ? json(fit, oven) + "\n" : words(run, fit, oven));
    print.flush();
    if (out != null) {
      write(rigText, oven, run);
    }
    return oven.isGood() ? Main.DONE : Main.FAILED;
  }

  private static String words(OvenIdentification run, OvenFit fit, IdentifiedOven oven) {
    StringBuilder words = new StringBuilder();
    run.log().forEach(line -> words.append(line).append('\n'));
    OvenModelText.lines(oven).forEach(line -> words.append(line).append('\n'));
    words.append(
        String.format(
            "measured minus fitted, rms: oven %.2f K, sample %.2f K%n",
            fit.ovenRmsK(), fit.sampleRmsK()));
    words.append(
        oven.isGood()
            ? "The model fits.\n"
            : String.format(
                "The model does NOT fit (allowed %.1f K): do not regulate by it. See the plot; a"
                    + " door, a draught or a loose sensor are usual causes.%n",
                OvenFit.GOOD_RMS_K));
    return words.toString();
  }

  private static String json(OvenFit fit, IdentifiedOven oven) {
    Map<String, Object> all = new LinkedHashMap<>();
    all.put("vessel", oven.vesselName());
    all.put("identified", oven.identified().toString());
    all.put("good", oven.isGood());
    all.put("ovenRmsK", fit.ovenRmsK());
    all.put("sampleRmsK", fit.sampleRmsK());
    all.put("model", fit.model());
    all.put("standardUncertainty", fit.standardUncertainty());
    all.put("covarianceFitted", fit.covariance());
    try {
      return new ObjectMapper().writeValueAsString(all);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException(e);
    }
  }

  private void write(String rigText, IdentifiedOven oven, OvenIdentification run) {
    Optional<String> text = OvenModelText.into(rigText, oven);
    if (text.isEmpty()) {
      throw new CommandFailure(
          "The rig file's 'regulation' is not an indented block, so the model was not written."
              + " Write it as a block, one key a line, or copy the lines above into it.");
    }
    String name = out.getFileName().toString().replaceFirst("(\\.rig)?\\.ya?ml$", "");
    Path plot = out.resolveSibling(name + ".oven.svg");
    try {
      Files.writeString(out, text.get(), StandardCharsets.UTF_8);
      Files.writeString(
          plot, new FittedPlot(run.trace(), oven, run.restSteps()).svg(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new CommandFailure("Cannot write " + out + " or " + plot + ": " + e.getMessage() + ".");
    }
  }
}
