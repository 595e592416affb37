package tarnish.shared.planning;

import tarnish.shared.chemistry.OxideSeries;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.gas.InertBuildUp;
import tarnish.shared.gas.SecondVirial;
import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.planning.PlanLine.Number;
import tarnish.shared.planning.PlanLine.Verdict;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;
import tarnish.shared.recipe.OxideMember;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.RigDescription;

/** How much oxygen, what mass at the end, what the source must hold. */
final class OxygenLines {
  private static final String WEIGHTS = "charge mass, IUPAC 2021 atomic weights";
  private static final double INERT_BLANKET_FROM = 0.2;

  private OxygenLines() {}

  static void add(Sheet sheet, Recipe recipe, RigDescription rig) {
    OxideSeries series =
        OxideSeries.of(recipe.series().stream().map(OxideMember::formula).toList());
    Estimate mass =
        new Estimate(recipe.charge().massKg(), recipe.charge().massStandardUncertaintyKg());
    double target = recipe.target().oxygenPerUnit();
    Estimate oxygenMol = product(series.oxygenMolPerKgCharge(target), mass);
    Estimate gain = series.massGainFraction(target);
    Estimate product = product(new Estimate(1 + gain.value(), gain.standardUncertainty()), mass);
    String name = recipe.target().formula();
    sheet.ok(
        "oxygen to become " + name,
        Quantities.printEstimate(oxygenMol, Unit.MILLIMOLE),
        new Number(oxygenMol.value(), "mol"),
        WEIGHTS);
    sheet.ok(
        "mass as " + name,
        Quantities.printEstimate(product, Unit.GRAM),
        new Number(product.value(), "kg"),
        WEIGHTS);
    addGas(sheet, oxygenMol.value(), rig);
    addSource(sheet, oxygenMol.value(), rig);
  }

  private static void addGas(Sheet sheet, double oxygenMol, RigDescription rig) {
    TwoZoneVolume volume = rig.vessel().volume();
    double vesselM3 = volume.hotM3() + volume.coldM3();
    double gasM3 = gasM3(oxygenMol, rig);
    String condition = "20 °C and " + Sheet.print(rig.roomPressurePa(), Unit.MILLIBAR, 4);
    String purity =
        Quantities.printShort(rig.oxygen().oxygenFraction(), Unit.PERCENT)
            + " oxygen in "
            + rig.oxygen().name();
    sheet.ok(
        "as gas from the source",
        Sheet.print(gasM3, Unit.LITRE, 3),
        new Number(gasM3, "m³"),
        "at " + condition + ", " + purity + ", ideal gas");
    sheet.ok(
        "in fills of the vessel",
        Sheet.digits(gasM3 / vesselM3, 2),
        new Number(gasM3 / vesselM3, "1"),
        "vessel of " + Sheet.print(vesselM3, Unit.MILLILITRE, 3) + " at " + condition);
    double pressurePa =
        StrictMath.max(rig.attended().pressureMaxPa(), rig.unattended().pressureMaxPa());
    double ideal = SecondVirial.OXYGEN.idealGasError(pressurePa, Sheet.ROOM_K);
    sheet.ok(
        "error of the ideal gas law",
        Sheet.print(ideal, Unit.PERCENT, 1),
        new Number(ideal, "1"),
        "oxygen, cold, at "
            + Sheet.print(pressurePa, Unit.MILLIBAR, 4)
            + "; second virial coefficient by Kaye and Laby; "
            + (StrictMath.abs(ideal) > 1e-3
                ? "corrected in the account"
                : "below 0.1 %: left as it is"));
    double inertMol = oxygenMol * InertBuildUp.perMolOxygen(rig.oxygen().oxygenFraction());
    double fills = inertMol / volume.amountMol(rig.roomPressurePa(), Sheet.ROOM_K, Sheet.ROOM_K);
    boolean little = fills < INERT_BLANKET_FROM;
    sheet.line(
        Sheet.okIf(little),
        "inert gas left behind by the source",
        fills < 1
            ? Sheet.print(fills, Unit.PERCENT, 2) + " of a vessel fill"
            : Sheet.digits(fills, 2) + " vessel fills",
        new Number(fills, "1"),
        purity
            + ", nothing vented in between"
            + (little ? "" : "; it blankets the solid: pump off and refill"));
  }

  private static void addSource(Sheet sheet, double oxygenMol, RigDescription rig) {
    sheet.words(
        Verdict.OPEN,
        "does the source last",
        "not known; " + Sheet.print(gasM3(oxygenMol, rig), Unit.LITRE, 2) + " and a reserve needed",
        "the rig file does not say what '" + rig.oxygen().name() + "' holds; read its gauge");
  }

  private static double gasM3(double oxygenMol, RigDescription rig) {
    return oxygenMol
        / rig.oxygen().oxygenFraction()
        * TwoZoneVolume.GAS_CONSTANT
        * Sheet.ROOM_K
        / rig.roomPressurePa();
  }

  private static Estimate product(Estimate a, Estimate b) {
    return new Estimate(
        a.value() * b.value(),
        StrictMath.hypot(a.value() * b.standardUncertainty(), b.value() * a.standardUncertainty()));
  }
}
