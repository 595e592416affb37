package tarnish.sim;

/**
 * Heat capacities and couplings of the oven.
 *
 * @param elementJPerK heat capacity of the heater element in J/K
 * @param wallJPerK of the oven wall with its air
 * @param vesselJPerK of the part of the vessel inside the oven
 * @param sampleJPerK of the sample with its boat
 * @param sealJPerK of the vessel's head with the seal
 * @param elementWall coupling of element and wall
 * @param wallVessel coupling of wall and vessel
 * @param vesselSample coupling of vessel and sample
 * @param vesselSealWPerK conduction along the neck in W/K
 * @param sealRoomWPerK loss of the head to the room in W/K
 * @param wallRoomWPerK loss of the wall to the room in W/K
 * @param doorOpenWPerK extra loss of the wall to the room with the door open, in W/K
 * @param heaterDelayS time until a change of the heater's outputs reaches the element, in s
 */
public record ThermalSpec(
    double elementJPerK,
    double wallJPerK,
    double vesselJPerK,
    double sampleJPerK,
    double sealJPerK,
    Coupling elementWall,
    Coupling wallVessel,
    Coupling vesselSample,
    double vesselSealWPerK,
    double sealRoomWPerK,
    double wallRoomWPerK,
    double doorOpenWPerK,
    double heaterDelayS) {

  /** An oven whose heater answers at once. */
  public ThermalSpec(
      double elementJPerK,
      double wallJPerK,
      double vesselJPerK,
      double sampleJPerK,
      double sealJPerK,
      Coupling elementWall,
      Coupling wallVessel,
      Coupling vesselSample,
      double vesselSealWPerK,
      double sealRoomWPerK,
      double wallRoomWPerK,
      double doorOpenWPerK) {
    this(
        elementJPerK,
        wallJPerK,
        vesselJPerK,
        sampleJPerK,
        sealJPerK,
        elementWall,
        wallVessel,
        vesselSample,
        vesselSealWPerK,
        sealRoomWPerK,
        wallRoomWPerK,
        doorOpenWPerK,
        0);
  }

  /** Stefan-Boltzmann constant in W/(m² K⁴), exact digits of the 2019 SI (from memory). */
  static final double STEFAN_BOLTZMANN = 5.670374419e-8;

  /**
   * Heat path between two masses: q = G (T1 - T2) + sigma A (T1⁴ - T2⁴).
   *
   * @param conductionWPerK G in W/K
   * @param radiatingM2 A, area times effective emissivity, in m²
   */
  public record Coupling(double conductionWPerK, double radiatingM2) {
    /**
     * A path by what it carries per kelvin at a temperature, and the share of radiation in that: 4
     * sigma A T³ = share of G.
     */
    public static Coupling of(double wattPerK, double radiationShare, double temperatureK) {
      double cube = temperatureK * temperatureK * temperatureK;
      return new Coupling(
          wattPerK * (1 - radiationShare),
          wattPerK * radiationShare / (4 * STEFAN_BOLTZMANN * cube));
    }

    /** What it carries per kelvin of difference at a temperature. */
    public double wattPerKAt(double temperatureK) {
      return conductionWPerK + 4 * radiationWPerK4() * temperatureK * temperatureK * temperatureK;
    }

    double radiationWPerK4() {
      return STEFAN_BOLTZMANN * radiatingM2;
    }

    Coupling times(double factor) {
      return new Coupling(conductionWPerK * factor, radiatingM2 * factor);
    }
  }

  /** A small tube oven that an 800 W heater takes to 600 °C with power to spare. Invented. */
  public static ThermalSpec smallTubeOven() {
    return new ThermalSpec(
        60,
        1100,
        80,
        6,
        60,
        new Coupling(2.0, 0.010),
        new Coupling(0.18, 0.010),
        new Coupling(0.035, 0.0012),
        0.012,
        0.15,
        0.65,
        3.0);
  }
}
