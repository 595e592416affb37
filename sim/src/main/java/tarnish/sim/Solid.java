package tarnish.sim;

import java.util.List;

/**
 * The charge as a series of oxide steps. For the conversion x of one step, between the conversions
 * of the step before (which feeds it) and the step after (which feeds on it):
 *
 * <pre>
 *   dx/dt = f * drive * available
 *   1/f       = 1/ks(T) + c (1 + (c/c0)⁸)/kd(T) + 1/kg
 *               clean surface, crust, gas reaching the bed in series
 *   drive     = ((p + pr)/p0)^m * (p - peq(T))/(p + peq(T) + pr)
 *   available = u (1 + d)/(u + d)              u = what is left to convert, or to give back
 * </pre>
 *
 * c is the conversion of the whole charge since the last grinding, so that at constant temperature
 * a thick crust gives c² = 2 kd t, the parabolic law; where there is a c0, the crust all but closes
 * there. pr keeps the rate finite at p = 0 and d lets it end smoothly.
 *
 * <p>Results are left in fields, because this runs several times a tick. Not thread-safe.
 */
final class Solid {
  static final double SMALL_PA = 200;

  private static final double SMALL_LEFT = 0.05;

  private final int count;
  private final double[] oxygenPerUnit;
  private final double[] crustPerConversion;
  private final double[] perClosingCrust;
  private final double[] heatJPerMolO2;
  private final double[] gasTransport;
  private final int[] orderQuarters;
  private final boolean[] reversible;
  private final ArrheniusRate[] surface;
  private final ArrheniusRate[] diffusion;
  private final ArrheniusRate[] equilibrium;
  private final double topOxygenPerUnit;
  private final double unitKgPerMol;
  private final double[] densityKgPerM3;
  private final double grindingEfficiency;

  private double unitsMol;
  private double oxygenAtGrinding;

  /** O₂ taken up, in mol/s; negative while it is given back. */
  double uptakeMolPerS;

  double heatW;

  /**
   * How fast, at most, a growing crust slows itself, in 1/s: d(dx/dt)/dx at full drive, f²/kd
   * dc/dx.
   */
  double crustingPerS;

  Solid(SolidSpec spec) {
    List<SolidSpec.OxideStep> steps = spec.steps();
    count = steps.size();
    oxygenPerUnit = steps.stream().mapToDouble(SolidSpec.OxideStep::oxygenPerUnit).toArray();
    heatJPerMolO2 = steps.stream().mapToDouble(SolidSpec.OxideStep::heatJPerMolO2).toArray();
    gasTransport = steps.stream().mapToDouble(SolidSpec.OxideStep::gasTransportPerS).toArray();
    orderQuarters = steps.stream().mapToInt(SolidSpec.OxideStep::orderQuarters).toArray();
    reversible = new boolean[count];
    surface = new ArrheniusRate[count];
    diffusion = new ArrheniusRate[count];
    equilibrium = new ArrheniusRate[count];
    for (int i = 0; i < count; i++) {
      surface[i] = new ArrheniusRate(steps.get(i).surface());
      diffusion[i] = new ArrheniusRate(steps.get(i).diffusion());
      equilibrium[i] = new ArrheniusRate(steps.get(i).equilibrium());
      reversible[i] = steps.get(i).equilibrium().value() > 0;
    }
    topOxygenPerUnit = spec.topOxygenPerUnit();
    crustPerConversion = new double[count];
    perClosingCrust = new double[count];
    for (int i = 0; i < count; i++) {
      crustPerConversion[i] = oxygenPerUnit[i] / topOxygenPerUnit;
      double closing = steps.get(i).closingCrust();
      perClosingCrust[i] = closing > 0 ? 1 / closing : 0;
    }
    unitKgPerMol = spec.unitKgPerMol();
    densityKgPerM3 = spec.densitiesKgPerM3().stream().mapToDouble(d -> d).toArray();
    grindingEfficiency = spec.grindingEfficiency();
    unitsMol = spec.unitsMol();
  }

  int count() {
    return count;
  }

  /** What a charge has lived through beside its conversions. */
  void takeFrom(Solid other) {
    unitsMol = other.unitsMol;
    oxygenAtGrinding = other.oxygenAtGrinding;
    heatW = other.heatW;
    for (int i = 0; i < count; i++) {
      surface[i].takeFrom(other.surface[i]);
      diffusion[i].takeFrom(other.diffusion[i]);
      equilibrium[i].takeFrom(other.equilibrium[i]);
    }
  }

  /** Writes dx/dt of every step, whose conversions stand in {@code y} from {@code first} on. */
  void rates(double[] y, double[] dy, int first, double oxygenPa, double sampleK, double factor) {
    double inverseK = 1 / sampleK;
    double crust = crust(y, first);
    double fed = 1;
    double uptake = 0;
    double heat = 0;
    crustingPerS = 0;
    for (int i = 0; i < count; i++) {
      double x = y[first + i];
      double above = i + 1 < count ? y[first + i + 1] : 0;
      double equilibriumPa = reversible[i] ? equilibrium[i].at(inverseK) : 0;
      double excessPa = oxygenPa - equilibriumPa;
      double left = excessPa >= 0 ? fed - x : x - above;
      double rate =
          seriesRate(i, inverseK, crust, factor)
              * pressureOrder(i, oxygenPa)
              * excessPa
              * left
              * (1 + SMALL_LEFT)
              / ((oxygenPa + equilibriumPa + SMALL_PA) * (StrictMath.abs(left) + SMALL_LEFT));
      dy[first + i] = rate;
      double molPerS = rate * oxygenPerUnit[i] * 0.5 * unitsMol;
      uptake += molPerS;
      heat += molPerS * heatJPerMolO2[i];
      fed = x;
    }
    uptakeMolPerS = uptake;
    heatW = heat;
  }

  private double seriesRate(int i, double inverseK, double crust, double factor) {
    double ks = factor * surface[i].at(inverseK);
    double kd = factor * diffusion[i].at(inverseK);
    double kg = gasTransport[i];
    double closing = closing(i, crust);
    double perSum = 1 / (kd * kg + crust * (1 + closing) * ks * kg + ks * kd);
    double rate = ks * kd * kg * perSum;
    double crusting = rate * ks * kg * perSum * (1 + 9 * closing) * crustPerConversion[i];
    crustingPerS = crusting > crustingPerS ? crusting : crustingPerS;
    return rate;
  }

  /** (c/c0)⁸, 0 where the crust never closes. */
  private double closing(int i, double crust) {
    double relative = crust * perClosingCrust[i];
    double second = relative * relative;
    double fourth = second * second;
    return fourth * fourth;
  }

  private double pressureOrder(int i, double oxygenPa) {
    double relative = StrictMath.max(0, oxygenPa + SMALL_PA) / KineticsPresets.REFERENCE_PA;
    switch (orderQuarters[i]) {
      case 0:
        return 1;
      case 1:
        return StrictMath.sqrt(StrictMath.sqrt(relative));
      case 2:
        return StrictMath.sqrt(relative);
      case 3:
        double root = StrictMath.sqrt(relative);
        return root * StrictMath.sqrt(root);
      default:
        return relative;
    }
  }

  private double crust(double[] y, int first) {
    return StrictMath.abs(oxygenPerUnit(y, first) - oxygenAtGrinding) / topOxygenPerUnit;
  }

  double oxygenPerUnit(double[] y, int first) {
    double sum = 0;
    for (int i = 0; i < count; i++) {
      sum += oxygenPerUnit[i] * y[first + i];
    }
    return sum;
  }

  /** O₂ held by the solid now in the vessel, in mol. */
  double oxygenMol(double[] y, int first) {
    return 0.5 * unitsMol * oxygenPerUnit(y, first);
  }

  double massKg(double[] y, int first) {
    return unitsMol * (unitKgPerMol + SolidSpec.OXYGEN_ATOM_KG_PER_MOL * oxygenPerUnit(y, first));
  }

  /** Of all grains: what is between two conversions is the member between them. */
  double volumeM3(double[] y, int first) {
    double kgPerMol = unitKgPerMol;
    double reached = 1;
    double volume = 0;
    for (int i = 0; i <= count; i++) {
      double beyond = i < count ? y[first + i] : 0;
      volume += unitsMol * (reached - beyond) * kgPerMol / densityKgPerM3[i];
      kgPerMol += i < count ? SolidSpec.OXYGEN_ATOM_KG_PER_MOL * oxygenPerUnit[i] : 0;
      reached = beyond;
    }
    return volume;
  }

  /** Breaks the crust and bares fresh surface. */
  void grind(double[] y, int first) {
    oxygenAtGrinding += grindingEfficiency * (oxygenPerUnit(y, first) - oxygenAtGrinding);
  }

  /** Loses a share of the solid, whatever it is by now. */
  void spill(double fraction) {
    unitsMol *= 1 - fraction;
  }
}
