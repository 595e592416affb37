package tarnish.shared.planning;

import java.util.Optional;
import tarnish.shared.planning.PlanLine.Number;
import tarnish.shared.planning.PlanLine.Verdict;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Vessel;
import tarnish.shared.vessel.PressureRating;
import tarnish.shared.vessel.SealMaterial;

/** What the glass, the seal and the supply must bear. */
final class VesselLines {
  private VesselLines() {}

  static void add(Sheet sheet, Recipe recipe, RigDescription rig, StepWalk walk) {
    StepWalk.Stress highest = walk.highest();
    boolean within =
        walk.stresses.stream().allMatch(s -> s.pressurePa() <= s.limits().pressureMaxPa());
    sheet.line(
        Sheet.okIf(within),
        "highest pressure, hot",
        pressure(highest.pressurePa())
            + " at "
            + Quantities.print(highest.temperatureK(), Unit.CELSIUS, 0),
        new Number(highest.pressurePa(), "Pa"),
        "if nothing is taken up; cold parts at 20 °C"
            + (within ? "" : "; above the rig's pressure limit: dose less before heating"));
    addGlass(sheet, rig, walk);
    addVacuum(sheet, rig, walk);
    addSeal(sheet, rig);
    boolean supplied = rig.oxygen().supplyPressurePa() > highest.pressurePa();
    sheet.line(
        Sheet.okIf(supplied),
        "supply pressure of " + recipe.oxygenSourceName(),
        pressure(rig.oxygen().supplyPressurePa()),
        new Number(rig.oxygen().supplyPressurePa(), "Pa"),
        "rig file; must stay above the highest vessel pressure");
  }

  private static void addGlass(Sheet sheet, RigDescription rig, StepWalk walk) {
    Vessel vessel = rig.vessel();
    double leadK = rig.regulation().ovenLeadMaxK();
    StepWalk.Stress worst = walk.stresses.get(0);
    double leastMarginPa = Double.POSITIVE_INFINITY;
    for (StepWalk.Stress stress : walk.stresses) {
      double marginPa =
          PressureRating.allowedGaugePa(vessel, stress.temperatureK() + leadK)
              - gaugePa(stress, rig);
      boolean same = marginPa == leastMarginPa && stress.temperatureK() > worst.temperatureK();
      if (marginPa < leastMarginPa || same) {
        leastMarginPa = marginPa;
        worst = stress;
      }
    }
    double glassK = worst.temperatureK() + leadK;
    double allowedPa = PressureRating.allowedGaugePa(vessel, glassK);
    double gaugePa = gaugePa(worst, rig);
    boolean stands =
        gaugePa <= allowedPa && PressureRating.isPressureVessel(vessel.glass(), glassK);
    sheet.line(
        Sheet.okIf(stands),
        "overpressure the glass may hold",
        pressure(allowedPa) + " at " + Quantities.print(glassK, Unit.CELSIUS, 0),
        new Number(allowedPa, "Pa"),
        vessel.glass().words()
            + ", "
            + (gaugePa > 0 ? "up to " + pressure(gaugePa) + " is reached" : "none is reached")
            + "; oven "
            + Sheet.print(leadK, Unit.KELVIN_DIFFERENCE, 2)
            + " ahead of the sample; unscratched, annealed tube"
            + (stands ? "" : "; THE GLASS IS NO PRESSURE VESSEL THERE"));
  }

  private static double gaugePa(StepWalk.Stress stress, RigDescription rig) {
    return StrictMath.max(0, stress.pressurePa() - rig.roomPressurePa());
  }

  private static void addVacuum(Sheet sheet, RigDescription rig, StepWalk walk) {
    if (walk.evacuates) {
      sheet.words(
          Verdict.OPEN,
          "does the glass stand vacuum",
          "not known",
          "the rating covers no buckling, flat ends or joints of '"
              + rig.vessel().name()
              + "'; ask its maker, use a shield");
    }
  }

  private static void addSeal(Sheet sheet, RigDescription rig) {
    Vessel vessel = rig.vessel();
    double limitK = StrictMath.max(rig.attended().sealMaxK(), rig.unattended().sealMaxK());
    boolean belowRating = limitK <= vessel.sealMaxK();
    sheet.line(
        Sheet.okIf(belowRating),
        "seal",
        "rated to " + Quantities.printShort(vessel.sealMaxK(), Unit.CELSIUS),
        new Number(vessel.sealMaxK(), "K"),
        vessel.sealMaterial()
            + ", by the rig file; the rig trips at "
            + Quantities.printShort(limitK, Unit.CELSIUS)
            + " or below"
            + (belowRating ? "" : ", which is above the rating"));
    Optional<SealMaterial> material = SealMaterial.find(vessel.sealMaterial());
    if (material.isEmpty()) {
      sheet.words(
          Verdict.OPEN,
          "usual limit of the seal's material",
          "not known",
          "no known material in '" + vessel.sealMaterial() + "'; known: " + SealMaterial.list());
      return;
    }
    boolean usual = vessel.sealMaxK() <= material.get().maxK();
    sheet.line(
        Sheet.okIf(usual),
        "usual limit of the seal's material",
        Quantities.printShort(material.get().maxK(), Unit.CELSIUS),
        new Number(material.get().maxK(), "K"),
        material.get().words()
            + " in air, common practice; hot oxygen shortens its life"
            + (usual ? "" : "; the rig file claims more"));
  }

  private static String pressure(double pressurePa) {
    return Sheet.print(pressurePa, Unit.MILLIBAR, 3);
  }
}
