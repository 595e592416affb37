package tarnish.controller.app;

import java.util.LinkedHashSet;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import tarnish.controller.control.InterlockTable;
import tarnish.controller.files.RecipeReader;
import tarnish.controller.files.RigReader;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.RigDescription;
import tarnish.sim.Fault;

/** Draws the rig and the recipe of one seed of a campaign: all invented, all valid. */
final class CampaignBench {
  private static final String PAIRS =
      """
        second oven temperature: {element: thermocouple K, range: 0 °C to 1200 °C, resolution: 0.1 K, uncertainty: 1.5 K, gain uncertainty: 0.2 %, noise: 0.05 K, lag: 3 s}
        second vessel pressure: {element: 4-20 mA, range: -25 mbar to 2 bar, resolution: 0.1 mbar, uncertainty: 0.5 mbar, gain uncertainty: 0.1 %, noise: 0.1 mbar, lag: 50 ms}
      """;
  private static final String DEFEAT = "\ndefeat: {interlocks: [door open], at most: 30 min}\n";

  /** Glass so thin that a supply can bring it over its rating. */
  private static final String THIN_WALL = "wall: 0.1 mm";

  private static final int COOL_SOAK_C = 150;

  /** About how long a batch is prepared before it is heated, in s. */
  private static final double PREPARED_S = 900;

  private final SplittableRandom random;
  private final boolean catalyst;
  private final boolean isTight;
  private boolean isOverfilled;
  private double firstSoakS;
  private final RigDescription rig;

  CampaignBench(SplittableRandom random) {
    this.random = random;
    catalyst = random.nextInt(4) == 0;
    String name = catalyst ? "catalyst.rig.yaml" : "bench.rig.yaml";
    String text = DemoCommand.resource(name).stripTrailing() + "\n";
    boolean wantsPairs = random.nextInt(3) == 0;
    boolean thin = random.nextInt(4) == 0;
    String glass = thin ? text.replace("wall: 2 mm", THIN_WALL) : text;
    isTight = random.nextInt(6) == 0 && !catalyst;
    glass = isTight ? tight(glass) : glass;
    // Only a second sensor tells that the first one reads too little.
    boolean pairs = wantsPairs || isTight;
    String whole = glass + (pairs ? PAIRS.indent(0) : "") + DEFEAT;
    rig = LoadedFiles.value(RigReader.read(name, whole));
  }

  /** Limits of the oven so near to what the recipes need that a sensor that drifts crosses them. */
  private static String tight(String text) {
    return text.replace(
            "{sample: 600 °C, oven: 700 °C, seal: 160 °C",
            "{sample: 500 °C, oven: 520 °C, seal: 160 °C")
        .replace(
            "{sample: 560 °C, oven: 650 °C, seal: 140 °C",
            "{sample: 470 °C, oven: 500 °C, seal: 140 °C");
  }

  /** The names of all rows that any rig of a campaign has, in the order of the table. */
  static Set<String> rows() {
    Set<String> rows = new LinkedHashSet<>();
    for (long seed = 0; seed < 64; seed++) {
      rows.addAll(InterlockTable.names(new CampaignBench(new SplittableRandom(seed)).rig()));
    }
    return rows;
  }

  RigDescription rig() {
    return rig;
  }

  /**
   * A fault that a bench and its recipe are made for.
   *
   * @param fromS earliest beginning, in s
   * @param untilS latest
   */
  record Favoured(Fault fault, double fromS, double untilS) {
    /** Within the first minute or so. */
    static Favoured early(Fault fault) {
      return new Favoured(fault, 0.5, 60);
    }
  }

  /** What this bench and its recipe are made for, once the recipe is drawn; or null. */
  Favoured favoured() {
    if (isOverfilled) {
      return Favoured.early(Fault.VENT_BLOCKED);
    }
    if (isTight) {
      return Favoured.early(Fault.OVEN_THERMOCOUPLE_DRIFT);
    }
    return firstSoakS > 0
        ? new Favoured(Fault.SAMPLE_THERMOCOUPLE_DETACHED, firstSoakS, firstSoakS + 900)
        : null;
  }

  Recipe recipe() {
    String text = catalyst ? catalystText() : copperText();
    return LoadedFiles.value(RecipeReader.read("campaign recipe", text, Optional.of(rig)));
  }

  private int between(int from, int to) {
    return random.nextInt(from, to + 1);
  }

  private String copperText() {
    StringBuilder text = new StringBuilder();
    text.append("recipe: Campaign, copper\ninvented: yes\n");
    text.append("charge: {formula: Cu, mass: 4.000 g ± 1 mg}\nseries: [Cu, Cu2O, CuO]\n");
    text.append("target: CuO\nactivation energy: 80 kJ/mol\nreaction enthalpy: -312 kJ/mol\n");
    text.append("vessel: quartz tube A\noxygen source: bottle\n");
    alone(text, 400);
    text.append("steps:\n");
    int dosePa = between(80, 350);
    prepare(text, dosePa, between(10, 35));
    boolean hot = random.nextInt(6) == 0 && !isTight;
    boolean hottest = isTight && random.nextBoolean();
    int atC = hot ? between(565, 590) : hottest ? between(440, 460) : between(90, 450);
    int holdMbar = Math.max(dosePa, between(300, 850));
    String who = hot ? ", who: attended" : "";
    int rate = between(2, 6);
    heat(text, atC, rate, holdMbar, who);
    if (random.nextInt(3) == 0 && !hot) {
      // A sensor that slips where sample and oven are alike shows in the next ramp only, and there
      // only if it is long and the sample gives little heat of its own.
      boolean isCool = atC <= COOL_SOAK_C;
      firstSoakS = isCool ? PREPARED_S + 60.0 * atC / rate : 0;
      int rise = isCool ? between(60, 100) : between(20, 90);
      int riseRate = isCool ? 3 : between(2, 5);
      heat(text, Math.min(460, atC + rise), riseRate, holdMbar, "");
    }
    finish(text, holdMbar);
    return text.toString();
  }

  private String catalystText() {
    StringBuilder text = new StringBuilder();
    text.append("recipe: Campaign, nickel\ninvented: yes\n");
    text.append("charge: {formula: Ni, mass: 2.000 g ± 2 mg}\nseries: [Ni, NiO]\n");
    text.append("target: NiO\nreaction enthalpy: -480 kJ/mol\n");
    text.append("vessel: glass tube B\noxygen source: lean mix\n");
    alone(text, 120);
    text.append("steps:\n");
    int dosePa = between(60, 250);
    prepare(text, dosePa, between(4, 10));
    int holdMbar = Math.max(dosePa, between(200, 650));
    heat(text, between(40, 120), between(1, 3), holdMbar, "");
    finish(text, holdMbar);
    return text.toString();
  }

  private void alone(StringBuilder text, int hottestC) {
    if (random.nextBoolean()) {
      String overdue = random.nextBoolean() ? "pause" : "go on";
      text.append("alone:\n  when overdue: ").append(overdue).append("\n");
      if (random.nextBoolean()) {
        text.append("  after a power cut: {resume within: ")
            .append(between(1, 30))
            .append(" min, sample: 20 °C to ")
            .append(hottestC)
            .append(" °C, pressure: 50 mbar to 900 mbar}\n");
      }
    }
  }

  private void prepare(StringBuilder text, int doseMbar, int pulseMbar) {
    if (random.nextInt(3) > 0) {
      text.append("  - backfill: {with: inert, to: ")
          .append(between(300, 900))
          .append(" mbar, cycles: ")
          .append(between(1, 2))
          .append(", evacuate to: 5 mbar, time limit: 20 min}\n");
    }
    text.append("  - evacuate: {to: 2.5 mbar, time limit: 20 min}\n");
    text.append("  - leak test: {settle: 1 min, watch: ")
        .append(between(3, 6))
        .append(" min, rise at most: 0.1 mbar/min}\n");
    text.append("  - dose: {pulse: ")
        .append(pulseMbar)
        .append(" mbar, to: ")
        .append(doseMbar)
        .append(" mbar, at most: 150 pulses, heat settled: 1 K, uptake slowed: 0.5 mbar/min,")
        .append(" wait: ")
        .append(between(10, 40))
        .append(" s to 20 min}\n");
  }

  private void heat(StringBuilder text, int atC, int rate, int holdMbar, String who) {
    text.append("  - ramp: {to: ")
        .append(atC)
        .append(" °C, rate: ")
        .append(rate)
        .append(" K/min, hold: ")
        .append(holdMbar)
        .append(" mbar, time limit: ")
        .append(atC / rate + 120)
        .append(" min")
        .append(who)
        .append("}\n");
    text.append("  - soak: {at: ")
        .append(atC)
        .append(" °C, for: ")
        .append(between(5, 40))
        .append(" min, band: 3 K, hold: ")
        .append(holdMbar)
        .append(" mbar, time limit: 4 h")
        .append(who)
        .append("}\n");
  }

  private void finish(StringBuilder text, int holdMbar) {
    int toC = between(60, 110);
    switch (random.nextInt(4)) {
      case 0 -> text.append("  - cool: {to: ").append(toC).append(" °C}\n");
      case 1 ->
          text.append("  - cool: {to: ")
              .append(toC)
              .append(" °C, hold: ")
              .append(holdMbar)
              .append(" mbar}\n");
      case 2 -> {
        isOverfilled = random.nextBoolean() && !catalyst;
        if (isOverfilled) {
          text.append(
              "  - cool: {to: 45 °C}\n"
                  + "  - backfill: {with: inert, to: 1042 mbar, evacuate to: 5 mbar,"
                  + " time limit: 20 min}\n");
        }
        text.append(
            "  - open: {below: 50 °C, purge cycles: 1, purge to: 900 mbar, evacuate to: 5 mbar,"
                + " ask for: {mass of solid: mass}}\n");
      }
      default -> text.append("  - ask: {say: Look at it, ask for: {remark: remark}}\n");
    }
  }
}
