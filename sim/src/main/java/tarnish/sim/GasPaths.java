package tarnish.sim;

import tarnish.shared.gas.Iso6358;
import tarnish.shared.gas.TwoZoneVolume;

/**
 * Flow of O₂ and inert gas into (positive) and out of the vessel, through valves, pump, leak,
 * opening and from the walls.
 *
 * <p>Results are left in fields, because this runs several times a tick. Not thread-safe.
 */
final class GasPaths {
  private static final double R = TwoZoneVolume.GAS_CONSTANT;
  private static final double OXYGEN_KG_PER_MOL = 2 * SolidSpec.OXYGEN_ATOM_KG_PER_MOL;
  private static final double AIR_OXYGEN = BenchSpec.AIR_OXYGEN_FRACTION;

  /** Slope of the flow function where it is steepest: in its linear end. */
  private static final double STEEPEST =
      Iso6358.flowFunction(Iso6358.LINEAR_FROM, 0.3) / (1 - Iso6358.LINEAR_FROM);

  private final GasSpec spec;
  private final double totalM3;

  private boolean pathsOpen;
  private double oxygenMolPerSPa;
  private double oxygenSupplyPa;
  private double sourceFraction;
  private double inertMolPerSPa;
  private double ventConductance;
  private double pumpMolPerSPa;
  private double leakMolPerSPa;
  private double roomPa;
  private double roomK;
  private boolean open;
  private double exchangeMolPerS;
  private double reliefMolPerSPa;

  /** Net flow through the vessel's boundary, in mol/s. */
  double oxygenMolPerS;

  double inertMolPerS;

  /** Rate of change of the gas held by the walls, in mol/s. */
  double adsorbedMolPerS;

  GasPaths(GasSpec spec) {
    this.spec = spec;
    this.totalM3 = spec.volume().hotM3() + spec.volume().coldM3();
  }

  /** Takes over what acts from now on. */
  void prepare(PlantInputs in) {
    roomPa = in.roomPa;
    roomK = in.roomK;
    open = in.vesselOpen;
    oxygenSupplyPa = in.oxygenSupplyPa;
    sourceFraction = in.oxygenFraction;
    oxygenMolPerSPa =
        in.oxygenOpening
            * spec.oxygenPath().molPerSPa(roomK, mixture(sourceFraction, spec.inertKgPerMol()));
    inertMolPerSPa =
        in.inertOpening
            * spec.inertPath()
                .molPerSPa(roomK, mixture(spec.inertOxygenFraction(), spec.inertKgPerMol()));
    ventConductance = in.ventOpening * spec.vent().molPerSPa(roomK, Iso6358.AIR_KG_PER_MOL);
    pumpMolPerSPa = in.pumpOpening * spec.pumpM3PerS() / (R * roomK);
    leakMolPerSPa = (spec.leakM3PerS() + in.extraLeakM3PerS) / (R * roomK);
    exchangeMolPerS = spec.openingM3PerS() * roomPa / (R * roomK);
    reliefMolPerSPa = spec.openingReliefPerS() * totalM3 / (R * roomK);
    pathsOpen =
        open
            || oxygenMolPerSPa > 0
            || inertMolPerSPa > 0
            || ventConductance > 0
            || pumpMolPerSPa > 0;
  }

  private static double mixture(double oxygenFraction, double inertKgPerMol) {
    return oxygenFraction * OXYGEN_KG_PER_MOL + (1 - oxygenFraction) * inertKgPerMol;
  }

  /**
   * The steepest change of flow with pressure, in mol/s per Pa: with the pressure per amount of gas
   * it gives the fastest rate of the gas.
   */
  double conductanceMolPerSPa() {
    double conductance = leakMolPerSPa;
    if (pathsOpen) {
      conductance +=
          STEEPEST * (oxygenMolPerSPa + inertMolPerSPa + ventConductance) + pumpMolPerSPa;
      if (open) {
        conductance += reliefMolPerSPa + exchangeMolPerS / roomPa;
      }
    }
    return conductance;
  }

  void flows(double oxygenMol, double inertMol, double pressurePa, double adsorbedMol) {
    double outgassing = adsorbedMol / spec.outgassingS();
    adsorbedMolPerS = -outgassing;
    oxygenMolPerS = 0;
    inertMolPerS = outgassing;
    double total = oxygenMol + inertMol;
    double fraction = total > 0 ? oxygenMol / total : 0;
    exchangeWithRoom(leakMolPerSPa * (roomPa - pressurePa), fraction);
    if (pathsOpen) {
      valves(pressurePa, fraction);
      pump(pressurePa, fraction);
      if (open) {
        opening(pressurePa, fraction, adsorbedMol);
      }
    }
  }

  private void valves(double pressurePa, double fraction) {
    if (oxygenMolPerSPa > 0 && oxygenSupplyPa > pressurePa) {
      double q = oxygenMolPerSPa * oxygenSupplyPa;
      q *= Iso6358.flowFunction(pressurePa / oxygenSupplyPa, spec.oxygenPath().criticalRatio());
      oxygenMolPerS += q * sourceFraction;
      inertMolPerS += q * (1 - sourceFraction);
    }
    if (inertMolPerSPa > 0 && spec.inertSupplyPa() > pressurePa) {
      double q = inertMolPerSPa * spec.inertSupplyPa();
      q *=
          Iso6358.flowFunction(pressurePa / spec.inertSupplyPa(), spec.inertPath().criticalRatio());
      oxygenMolPerS += q * spec.inertOxygenFraction();
      inertMolPerS += q * (1 - spec.inertOxygenFraction());
    }
    if (ventConductance > 0) {
      double b = spec.vent().criticalRatio();
      double q =
          pressurePa > roomPa
              ? -ventConductance * pressurePa * Iso6358.flowFunction(roomPa / pressurePa, b)
              : ventConductance * roomPa * Iso6358.flowFunction(pressurePa / roomPa, b);
      exchangeWithRoom(q, fraction);
    }
  }

  private void pump(double pressurePa, double fraction) {
    if (pumpMolPerSPa > 0 && pressurePa > spec.pumpUltimatePa()) {
      double q = pumpMolPerSPa * (pressurePa - spec.pumpUltimatePa());
      oxygenMolPerS -= q * fraction;
      inertMolPerS -= q * (1 - fraction);
    }
  }

  /** In from the room as air, out as what the vessel holds. */
  private void exchangeWithRoom(double inwardMolPerS, double fraction) {
    double oxygenShare = inwardMolPerS > 0 ? AIR_OXYGEN : fraction;
    oxygenMolPerS += inwardMolPerS * oxygenShare;
    inertMolPerS += inwardMolPerS * (1 - oxygenShare);
  }

  /**
   * An open neck: the room's pressure, and air that diffuses in against the sweep. With the sweep q
   * and the diffusive exchange D (both mol/s), steady advection and diffusion let in D Pe/(exp Pe -
   * 1) of air, Pe = q/D.
   */
  private void opening(double pressurePa, double fraction, double adsorbedMol) {
    double sweep = oxygenMolPerS + inertMolPerS;
    exchangeWithRoom(reliefMolPerSPa * (roomPa - pressurePa), fraction);
    double peclet = sweep > 0 ? sweep / exchangeMolPerS : 0;
    double exchange =
        peclet < 1e-6 ? exchangeMolPerS : exchangeMolPerS * peclet / StrictMath.expm1(peclet);
    oxygenMolPerS += exchange * (AIR_OXYGEN - fraction);
    inertMolPerS -= exchange * (AIR_OXYGEN - fraction);
    double takenUp = (spec.adsorbedMol() - adsorbedMol) / spec.outgassingS();
    adsorbedMolPerS += takenUp;
  }
}
