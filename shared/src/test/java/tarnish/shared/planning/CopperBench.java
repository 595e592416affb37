package tarnish.shared.planning;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.Charge;
import tarnish.shared.recipe.OxideMember;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.recipe.Step;
import tarnish.shared.recipe.StepCommon;
import tarnish.shared.recipe.StepCommon.Presence;
import tarnish.shared.rig.GasSource;
import tarnish.shared.rig.Heater;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.Regulation;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Vessel;

/** Invented: 4 g of copper in a third of a litre of fused quartz, as in the demonstration. */
final class CopperBench {
  static final double MBAR = 100;
  static final double ZERO_C = 273.15;

  Vessel.Glass glass = Vessel.Glass.FUSED_QUARTZ;
  double oxygenFraction = 0.995;
  double inertOxygenFraction = 5e-6;
  double sampleMaxK = 560 + ZERO_C;
  double pressureMaxPa = 1060 * MBAR;
  double sealRatingK = 200 + ZERO_C;
  String seal = "FKM elastomer";
  OptionalDouble enthalpy = OptionalDouble.of(-312e3);
  final List<Step> steps = new ArrayList<>();

  static StepCommon common(String title) {
    return new StepCommon(
        title, OptionalDouble.empty(), Presence.UNATTENDED, OptionalDouble.empty());
  }

  static StepCommon holding(String title, double mbar) {
    return new StepCommon(
        title, OptionalDouble.of(mbar * MBAR), Presence.UNATTENDED, OptionalDouble.empty());
  }

  CopperBench purge(double fromMbar, double toMbar, int cycles) {
    steps.add(
        new Step.Backfill(common("purge"), Step.Gas.INERT, toMbar * MBAR, cycles, fromMbar * MBAR));
    return this;
  }

  CopperBench evacuate() {
    steps.add(new Step.Evacuate(common("evacuate"), 1 * MBAR));
    return this;
  }

  CopperBench dose(double pulseMbar, double toMbar, int most) {
    steps.add(
        new Step.Dose(common("dose"), pulseMbar * MBAR, toMbar * MBAR, most, 0.5, 0.5, 60, 1800));
    return this;
  }

  CopperBench heat(double celsius, double holdMbar) {
    steps.add(new Step.Ramp(holding("ramp", holdMbar), celsius + ZERO_C, 0.05));
    steps.add(new Step.Soak(holding("soak", holdMbar), celsius + ZERO_C, 3600, 3));
    return this;
  }

  Recipe recipe() {
    return new Recipe(
        "copper",
        true,
        new Charge("Cu", 4e-3, 1e-6),
        63.546e-3,
        List.of(new OxideMember("Cu", 0), new OxideMember("Cu2O", 0.5), new OxideMember("CuO", 1)),
        new OxideMember("CuO", 1),
        OptionalDouble.empty(),
        enthalpy,
        "tube",
        "bottle",
        steps,
        List.of());
  }

  RigDescription rig() {
    Limits limits =
        new Limits(sampleMaxK, 700 + ZERO_C, 160 + ZERO_C, pressureMaxPa, 10 / 60.0, 40 * MBAR);
    return new RigDescription(
        "bench",
        true,
        RigDescription.Connection.SIMULATED,
        250,
        List.of(),
        new Heater(Heater.Actuator.RELAY, 800, 2, 0.25, 1),
        new GasSource("bottle", oxygenFraction, 0.001, 1500 * MBAR, 2.2e-11, 0.3),
        new GasSource("argon", inertOxygenFraction, 3e-6, 1500 * MBAR, 1.1e-10, 0.3),
        3e-4,
        30,
        2e-10,
        1013 * MBAR,
        new Vessel(
            "tube",
            glass,
            0.044,
            0.002,
            new TwoZoneVolume(250e-6, 80e-6),
            1.5e-6,
            1e-6,
            seal,
            sealRatingK),
        new Regulation(Channel.SAMPLE_TEMPERATURE, 0.02, 900, 60, 0.5, 80),
        limits,
        limits,
        false);
  }

  PlanningSheet sheet() {
    return PlanningSheet.of(recipe(), rig());
  }
}
