package tarnish.sim;

/** What acts on the plant during one tick: outputs, faults and the room, already combined. */
final class PlantInputs {
  double heaterW;

  /** Heat put into the sample by other means than reaction, in W. */
  double sampleHeatW;

  /** Openings of the gas paths, 0 shut to 1 open. */
  double oxygenOpening;

  double inertOpening;
  double ventOpening;
  double pumpOpening;

  /** Absolute pressure upstream of the oxygen valve. */
  double oxygenSupplyPa;

  /** Amount fraction of O₂ in the oxygen source. */
  double oxygenFraction;

  /** Leak beyond the bench's own, in m³/s. */
  double extraLeakM3PerS;

  boolean vesselOpen;
  boolean doorOpen;

  /** Factor on the rates of surface and crust. */
  double rateFactor = 1;

  /** Factor on the conduction from the vessel to its seal. */
  double sealFactor = 1;

  double roomK;
  double roomPa;

  void takeFrom(PlantInputs other) {
    heaterW = other.heaterW;
    sampleHeatW = other.sampleHeatW;
    oxygenOpening = other.oxygenOpening;
    inertOpening = other.inertOpening;
    ventOpening = other.ventOpening;
    pumpOpening = other.pumpOpening;
    oxygenSupplyPa = other.oxygenSupplyPa;
    oxygenFraction = other.oxygenFraction;
    extraLeakM3PerS = other.extraLeakM3PerS;
    vesselOpen = other.vesselOpen;
    doorOpen = other.doorOpen;
    rateFactor = other.rateFactor;
    sealFactor = other.sealFactor;
    roomK = other.roomK;
    roomPa = other.roomPa;
  }
}
