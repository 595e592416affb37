package tarnish.sim;

/** What acts on the plant during one tick: outputs, faults and the room, already combined. */
final class PlantInputs {
  double heaterW;

  /** Openings of the gas paths, 0 shut to 1 open. */
  double oxygenOpening;

  double inertOpening;
  double ventOpening;
  double pumpOpening;

  /** Share of the supply pressure that is there, 0 to 1. */
  double oxygenSupply = 1;

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
}
