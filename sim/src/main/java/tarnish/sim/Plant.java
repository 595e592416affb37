package tarnish.sim;

import tarnish.shared.gas.TwoZoneVolume;

/**
 * The equations of the bench: dy/dt = f(y) while {@link PlantInputs} stand still.
 *
 * <p>Heat flows from the element over wall and vessel to the sample, and along the neck to the
 * seal; the gas is at one pressure, hot (mean of vessel and sample) and cold (room). The heat
 * capacity of the gas and the heat it carries are left out. Not thread-safe.
 */
final class Plant {
  static final int ELEMENT = 0;
  static final int WALL = 1;
  static final int VESSEL = 2;
  static final int SAMPLE = 3;
  static final int SEAL = 4;
  static final int OXYGEN = 5;
  static final int INERT = 6;
  static final int ADSORBED = 7;

  /**
   * Sums kept for the balances: heat from outside and reaction, gas across the boundary, uptake.
   */
  static final int HEAT_GAINED = 8;

  static final int OXYGEN_GAINED = 9;
  static final int INERT_GAINED = 10;
  static final int UPTAKE = 11;
  static final int FIRST_STEP = 12;

  private static final double AT_REST_PER_S = 1e-5;
  private static final double AT_REST_FACTOR = 0.3;

  private final ThermalSpec thermal;
  private final double elementPerJ;
  private final double wallPerJ;
  private final double vesselPerJ;
  private final double samplePerJ;
  private final double sealPerJ;
  private final double elementWall;
  private final double elementWall4;
  private final double wallVessel;
  private final double wallVessel4;
  private final double vesselSample;
  private final double vesselSample4;
  private final double sealRoom;
  private final double hotM3;
  private final double coldM3;

  /** Roughly; only for judging stiffness. */
  private final double molPerPascal;

  private double wallRoom;
  private double vesselSeal;
  private double heaterW;
  private double sampleHeatW;
  private double roomK;
  private double rateFactor;

  final GasPaths gas;
  final Solid solid;

  Plant(BenchSpec spec) {
    thermal = spec.thermal();
    elementPerJ = 1 / thermal.elementJPerK();
    wallPerJ = 1 / thermal.wallJPerK();
    vesselPerJ = 1 / thermal.vesselJPerK();
    samplePerJ = 1 / thermal.sampleJPerK();
    sealPerJ = 1 / thermal.sealJPerK();
    elementWall = thermal.elementWall().conductionWPerK();
    elementWall4 = thermal.elementWall().radiationWPerK4();
    wallVessel = thermal.wallVessel().conductionWPerK();
    wallVessel4 = thermal.wallVessel().radiationWPerK4();
    vesselSample = thermal.vesselSample().conductionWPerK();
    vesselSample4 = thermal.vesselSample().radiationWPerK4();
    sealRoom = thermal.sealRoomWPerK();
    hotM3 = spec.gas().volume().hotM3();
    coldM3 = spec.gas().volume().coldM3();
    molPerPascal = (hotM3 + coldM3) / (TwoZoneVolume.GAS_CONSTANT * 300);
    gas = new GasPaths(spec.gas());
    solid = new Solid(spec.solid());
  }

  int size() {
    return FIRST_STEP + solid.count();
  }

  /** Everything at room temperature, the vessel full of inert gas, the walls fresh from the air. */
  double[] initialState(BenchSpec spec) {
    double[] y = new double[size()];
    double roomK = spec.room().temperatureAtK(0);
    for (int i = ELEMENT; i <= SEAL; i++) {
      y[i] = roomK;
    }
    y[INERT] = spec.gas().volume().amountMol(spec.room().pressureAtPa(0), roomK, roomK);
    y[ADSORBED] = spec.gas().adsorbedMol();
    return y;
  }

  /** Takes over the heater's power alone, in W. */
  void heat(double powerW) {
    heaterW = powerW;
  }

  /** Takes over what acts from now on. */
  void prepare(PlantInputs in) {
    heaterW = in.heaterW;
    sampleHeatW = in.sampleHeatW;
    roomK = in.roomK;
    rateFactor = in.rateFactor;
    wallRoom = thermal.wallRoomWPerK() + (in.doorOpen ? thermal.doorOpenWPerK() : 0);
    vesselSeal = thermal.vesselSealWPerK() * in.sealFactor;
    gas.prepare(in);
  }

  /** Pressure in Pa: p = n R / (Vhot/Thot + Vcold/Tcold). */
  double pressurePa(double[] y) {
    return (y[OXYGEN] + y[INERT]) * pascalPerMol(y);
  }

  private double pascalPerMol(double[] y) {
    double hotK = 0.5 * (y[VESSEL] + y[SAMPLE]);
    return TwoZoneVolume.GAS_CONSTANT * hotK * roomK / (hotM3 * roomK + coldM3 * hotK);
  }

  double energyJ(double[] y) {
    return thermal.elementJPerK() * y[ELEMENT]
        + thermal.wallJPerK() * y[WALL]
        + thermal.vesselJPerK() * y[VESSEL]
        + thermal.sampleJPerK() * y[SAMPLE]
        + thermal.sealJPerK() * y[SEAL];
  }

  void derivatives(double[] y, double[] dy) {
    double pascalPerMol = pascalPerMol(y);
    solid.rates(y, dy, FIRST_STEP, y[OXYGEN] * pascalPerMol, y[SAMPLE], rateFactor);
    gas.flows(y[OXYGEN], y[INERT], (y[OXYGEN] + y[INERT]) * pascalPerMol, y[ADSORBED]);
    dy[OXYGEN] = gas.oxygenMolPerS - solid.uptakeMolPerS;
    dy[INERT] = gas.inertMolPerS;
    dy[ADSORBED] = gas.adsorbedMolPerS;
    dy[OXYGEN_GAINED] = gas.oxygenMolPerS;
    dy[INERT_GAINED] = gas.inertMolPerS + gas.adsorbedMolPerS;
    dy[UPTAKE] = solid.uptakeMolPerS;
    heat(y, dy, solid.heatW + sampleHeatW);
  }

  private void heat(double[] y, double[] dy, double reactionW) {
    double element2 = y[ELEMENT] * y[ELEMENT];
    double wall2 = y[WALL] * y[WALL];
    double vessel2 = y[VESSEL] * y[VESSEL];
    double sample2 = y[SAMPLE] * y[SAMPLE];
    double wall4 = wall2 * wall2;
    double vessel4 = vessel2 * vessel2;
    double toWall =
        elementWall * (y[ELEMENT] - y[WALL]) + elementWall4 * (element2 * element2 - wall4);
    double toVessel = wallVessel * (y[WALL] - y[VESSEL]) + wallVessel4 * (wall4 - vessel4);
    double toSample =
        vesselSample * (y[VESSEL] - y[SAMPLE]) + vesselSample4 * (vessel4 - sample2 * sample2);
    double toSeal = vesselSeal * (y[VESSEL] - y[SEAL]);
    double wallLoss = wallRoom * (y[WALL] - roomK);
    double sealLoss = sealRoom * (y[SEAL] - roomK);
    dy[ELEMENT] = (heaterW - toWall) * elementPerJ;
    dy[WALL] = (toWall - toVessel - wallLoss) * wallPerJ;
    dy[VESSEL] = (toVessel - toSample - toSeal) * vesselPerJ;
    dy[SAMPLE] = (toSample + reactionW) * samplePerJ;
    dy[SEAL] = (toSeal - sealLoss) * sealPerJ;
    dy[HEAT_GAINED] = heaterW + reactionW - wallLoss - sealLoss;
  }

  /** The fastest rate in the equations at {@code y} with derivatives {@code dy}, in 1/s. */
  double stiffnessPerS(double[] y, double[] dy) {
    double hotter = y[ELEMENT] > y[WALL] ? y[ELEMENT] : y[WALL];
    double element = (elementWall + 4 * elementWall4 * hotter * hotter * hotter) * elementPerJ;
    double fastest = StrictMath.max(element, gasStiffnessPerS(y, dy));
    fastest = StrictMath.max(fastest, solid.crustingPerS);
    // Oxygen that a fast reaction uses up, and the warming that makes it faster still.
    double oxygen = StrictMath.abs(dy[UPTAKE]) / (y[OXYGEN] + 1e-7);
    double warming = StrictMath.abs(solid.heatW) * samplePerJ * 12_000 / (y[SAMPLE] * y[SAMPLE]);
    // Oxygen that streams into a vessel which holds little of it: the rate law bends there.
    double filling =
        StrictMath.abs(dy[OXYGEN_GAINED]) / (y[OXYGEN] + Solid.SMALL_PA * molPerPascal);
    fastest = StrictMath.max(fastest, filling);
    return StrictMath.max(fastest, StrictMath.max(oxygen, warming));
  }

  /** Gas at rest behind an open valve needs stable steps only, not fine ones. */
  private double gasStiffnessPerS(double[] y, double[] dy) {
    double perSecond = gas.conductanceMolPerSPa() * pascalPerMol(y);
    double moving = StrictMath.abs(dy[OXYGEN]) + StrictMath.abs(dy[INERT]);
    boolean atRest = moving < AT_REST_PER_S * (y[OXYGEN] + y[INERT]);
    return atRest ? AT_REST_FACTOR * perSecond : perSecond;
  }
}
