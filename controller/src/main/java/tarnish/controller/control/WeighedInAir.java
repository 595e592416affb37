package tarnish.controller.control;

import tarnish.shared.chemistry.Formula;
import tarnish.shared.chemistry.FormulaException;
import tarnish.shared.chemistry.SolidDensity;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.ledger.Buoyancy;
import tarnish.shared.reading.Channel;
import tarnish.shared.recipe.OxideMember;

/**
 * Takes the buoyancy of air out of a weighing ({@link Buoyancy}). Charge and product are weighed on
 * the same balance, so only what differs between their densities counts: for copper to copper(II)
 * oxide 6 parts in 100 000, some 0.03 % of the oxygen.
 */
final class WeighedInAir {
  private WeighedInAir() {}

  /** Humidity where nobody measures it, of a laboratory: common practice. */
  private static final double HUMIDITY = 0.5;

  /** Air of 20 °C at 1013 hPa, where the bench is outside the formula's range, in kg/m³. */
  private static final Estimate USUAL_AIR = new Estimate(1.2, 0.06);

  /** The reading as if charge and solid were equally dense, with what the correction adds to u. */
  static Estimate corrected(double readingKg, TickWork work) {
    Estimate air = air(work);
    Estimate one = Estimate.exact(1);
    Estimate now = Buoyancy.massKg(one, air, solid(work));
    Estimate charge = Buoyancy.massKg(one, air, density(work.recipe().charge().formula()));
    double factor = now.value() / charge.value();
    double u = StrictMath.hypot(now.standardUncertainty(), charge.standardUncertainty());
    return new Estimate(readingKg * factor, readingKg * u);
  }

  private static Estimate air(TickWork work) {
    double celsius = work.roomK() - 273.15;
    double roomPa = work.readings.valueOr(Channel.ROOM_PRESSURE, work.plan.rig().roomPressurePa());
    boolean inRange = celsius >= 10 && celsius <= 30 && roomPa >= 90_000 && roomPa <= 110_000;
    return inRange ? Buoyancy.airKgPerM3(roomPa, work.roomK(), HUMIDITY) : USUAL_AIR;
  }

  /** Between two members the volumes add up: 1/rho by the lever rule, near enough by oxygen. */
  private static Estimate solid(TickWork work) {
    double perUnit = Accounts.oxygenPerUnit(work).value();
    OxideMember below = work.recipe().series().get(0);
    OxideMember above = below;
    for (OxideMember member : work.recipe().series()) {
      above = member;
      if (member.oxygenPerUnit() >= perUnit) {
        break;
      }
      below = member;
    }
    double span = above.oxygenPerUnit() - below.oxygenPerUnit();
    double share =
        span > 0
            ? StrictMath.max(0, StrictMath.min(1, (perUnit - below.oxygenPerUnit()) / span))
            : 0;
    Estimate low = density(below.formula());
    Estimate high = density(above.formula());
    double density = 1 / ((1 - share) / low.value() + share / high.value());
    return new Estimate(
        density, StrictMath.max(low.standardUncertainty(), high.standardUncertainty()));
  }

  private static Estimate density(String formula) {
    try {
      return SolidDensity.kgPerM3(Formula.parse(formula));
    } catch (FormulaException unusual) {
      return new Estimate(6000, 1500);
    }
  }
}
