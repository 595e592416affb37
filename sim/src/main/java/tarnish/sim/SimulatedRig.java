package tarnish.sim;

import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.Heater;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Rig;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Switch;

/**
 * A bench in equations behind the port of a real one. It runs as fast as it is asked to; the same
 * specification and the same calls give the same readings, bit for bit. Not thread-safe: one thread
 * at a time, but for {@link #write}, which a watchdog may call at any moment.
 *
 * <p>The emergency stop and, where watched, the heartbeat act in hardware: they cut the heater's
 * supply and the oxygen valve whatever the outputs say.
 */
public final class SimulatedRig implements Rig {
  /** Longest part that the equations are carried over at once, in s. */
  public static final double TICK_S = 0.25;

  /** Left alone for longer than this, all that moves is slow enough for longer ticks. */
  private static final double FINE_S = 3600;

  private static final double COARSE_TICK_S = 10;

  /** Relative; of a laboratory. */
  private static final double ROOM_HUMIDITY = 0.5;

  private static final double ROOM_UPDATE_S = 60;
  private static final double CRACK_M3_PER_S = 2e-6;

  /** No opening of a valve is quite like the last one: some milliseconds, common practice. */
  private static final double STROKE_SPREAD = 0.005;

  private static final double VALVE_LEAK = 1e-3;
  private static final double ROOM_OXYGEN_RISE = 0.05;
  private static final int HEARTBEAT = Outputs.of(0, Switch.HEARTBEAT).switches();

  private final BenchSpec spec;
  private final RigDescription rig;
  private final boolean relayHeater;
  private final Plant plant;
  private final double[] y;
  private final Stepper stepper;
  private final PlantInputs inputs = new PlantInputs();
  private final FaultPanel faults = new FaultPanel();
  private final double[] trueValues = new double[Channel.COUNT];
  private final Sensors sensors;
  private final SeededNoise balance;
  private final SeededNoise strokes;

  /** What was told last, taken over when time passes: telling is safe from any thread. */
  private volatile Outputs told = Outputs.OFF;

  /** What acts now; the heartbeat, which alternates all the time, is kept apart. */
  private Outputs outputs = Outputs.OFF;

  private boolean heartbeat;
  private boolean changed = true;
  private boolean stopPressed;
  private boolean doorOpen;
  private boolean oxygenOn;

  /** What this opening of the oxygen valve passes, against the usual one. */
  private double stroke = 1;

  private double sourcePa;
  private double sourceFraction;
  private double timeS;
  private double roomUpdateDueS;
  private double heartbeatTimeoutS = Double.POSITIVE_INFINITY;
  private double heartbeatSeenS;

  /** Heater power on its way to the element, one place per tick; empty where there is no delay. */
  private final double[] delayedW;

  private int delayedAt;
  private double wantedW;

  /** A bench drawn around the description: see {@link BenchSpec#drawn}. */
  public SimulatedRig(RigDescription rig, Recipe recipe, long seed) {
    this(BenchSpec.drawn(rig, recipe, seed), rig);
  }

  public SimulatedRig(BenchSpec spec, RigDescription rig) {
    this.spec = spec;
    this.rig = rig;
    this.relayHeater = rig.heater().actuator() == Heater.Actuator.RELAY;
    this.plant = new Plant(spec);
    this.y = plant.initialState(spec);
    this.stepper = new Stepper(plant, y);
    this.balance = new SeededNoise(spec.seed(), 3);
    this.strokes = new SeededNoise(spec.seed(), 5);
    this.delayedW = new double[(int) StrictMath.round(spec.thermal().heaterDelayS() / TICK_S)];
    this.sourcePa = spec.gas().oxygenSupplyPa();
    this.sourceFraction = spec.gas().oxygenFraction();
    updateRoom();
    applyChanges();
    takeTrueValues();
    this.sensors = new Sensors(spec, rig.sensors(), trueValues, faults);
  }

  /**
   * Another bench in the very same state: what is done to one from now on leaves the other alone,
   * and the same done to both gives the same readings.
   */
  public SimulatedRig fork() {
    SimulatedRig other = new SimulatedRig(spec, rig);
    System.arraycopy(y, 0, other.y, 0, y.length);
    other.plant.solid.takeFrom(plant.solid);
    other.balance.takeFrom(balance);
    other.strokes.takeFrom(strokes);
    other.stroke = stroke;
    other.oxygenOn = oxygenOn;
    System.arraycopy(delayedW, 0, other.delayedW, 0, delayedW.length);
    other.delayedAt = delayedAt;
    other.wantedW = wantedW;
    other.sourcePa = sourcePa;
    other.sourceFraction = sourceFraction;
    other.told = told;
    other.outputs = outputs;
    other.heartbeat = heartbeat;
    other.stopPressed = stopPressed;
    other.doorOpen = doorOpen;
    other.timeS = timeS;
    other.roomUpdateDueS = roomUpdateDueS;
    other.heartbeatTimeoutS = heartbeatTimeoutS;
    other.heartbeatSeenS = heartbeatSeenS;
    other.inputs.takeFrom(inputs);
    other.faults.takeFrom(faults);
    other.plant.prepare(other.inputs);
    other.changed = changed;
    other.takeTrueValues();
    other.sensors.takeFrom(sensors);
    return other;
  }

  @Override
  public void write(Outputs wanted) {
    told = wanted;
  }

  private void takeTold() {
    Outputs wanted = told;
    if (wanted.isOn(Switch.HEARTBEAT) != heartbeat) {
      changed |= heartbeatIsLost();
      heartbeat = !heartbeat;
      heartbeatSeenS = timeS;
    }
    if (!actsAlike(wanted, outputs)) {
      outputs = wanted;
      changed = true;
    }
  }

  /** Whether two outputs do the same on this bench; a heartbeat that goes on does nothing. */
  private boolean actsAlike(Outputs one, Outputs other) {
    int differ = (one.switches() ^ other.switches()) & ~HEARTBEAT;
    return differ == 0 && (relayHeater || one.heaterPerMille() == other.heaterPerMille());
  }

  private boolean heartbeatIsLost() {
    return timeS - heartbeatSeenS > heartbeatTimeoutS;
  }

  @Override
  public void read(Readings into) {
    sensors.read(into, inputs.roomK, timeS);
  }

  /** Lets time pass on the bench; normally one tick of the control loop, weeks of it in seconds. */
  public void advance(double seconds) {
    if (!(seconds > 0) || Double.isInfinite(seconds)) {
      throw new IllegalArgumentException("time must pass by more than 0 s, got " + seconds);
    }
    if (seconds <= TICK_S) {
      tick(seconds);
      return;
    }
    double fineS = StrictMath.min(seconds, FINE_S);
    ticks(fineS, TICK_S);
    if (seconds > fineS) {
      ticks(seconds - fineS, COARSE_TICK_S);
    }
  }

  private void ticks(double seconds, double longestS) {
    long ticks = (long) StrictMath.ceil(seconds / longestS - 1e-9);
    double each = seconds / ticks;
    for (long i = 0; i < ticks; i++) {
      tick(each);
    }
  }

  private void tick(double seconds) {
    takeTold();
    if (timeS >= roomUpdateDueS) {
      updateRoom();
    }
    if (changed || heartbeatIsLost()) {
      applyChanges();
    }
    if (delayedW.length > 0) {
      delayHeater();
    }
    stepper.advance(seconds);
    timeS += seconds;
    takeTrueValues();
    sensors.advance(trueValues, seconds);
  }

  private void delayHeater() {
    inputs.heaterW = delayedW[delayedAt];
    delayedW[delayedAt] = wantedW;
    delayedAt = (delayedAt + 1) % delayedW.length;
    plant.heat(inputs.heaterW);
  }

  /** Warms the sample by other means than a reaction, as a test heater would, in W. */
  public void heatSample(double powerW) {
    if (!(powerW >= 0) || Double.isInfinite(powerW)) {
      throw new IllegalArgumentException("a test heater needs 0 W or more, got " + powerW);
    }
    inputs.sampleHeatW = powerW;
    changed = true;
  }

  private void updateRoom() {
    inputs.roomK = spec.room().temperatureAtK(timeS);
    inputs.roomPa = spec.room().pressureAtPa(timeS);
    roomUpdateDueS = timeS + ROOM_UPDATE_S;
    changed = true;
  }

  /** Combines outputs, faults and acts at the bench into what the equations see. */
  private void applyChanges() {
    boolean cut = stopPressed || faults.isOn(Fault.EMERGENCY_STOP_PRESSED) || heartbeatIsLost();
    wantedW = cut ? 0 : spec.heaterRatedW() * heaterShare();
    if (delayedW.length == 0) {
      inputs.heaterW = wantedW;
    }
    inputs.oxygenOpening = oxygenOpening(!cut && outputs.isOn(Switch.OXYGEN));
    inputs.oxygenSupplyPa =
        sourcePa
            * (1 - faults.severity(Fault.OXYGEN_SUPPLY_EMPTY))
            * (1 + 3 * faults.severity(Fault.OXYGEN_REGULATOR_FAILED));
    inputs.oxygenFraction = sourceFraction;
    inputs.inertOpening =
        outputs.isOn(Switch.INERT) ? 1 - faults.severity(Fault.INERT_SUPPLY_EMPTY) : 0;
    inputs.ventOpening = outputs.isOn(Switch.VENT) ? 1 - faults.severity(Fault.VENT_BLOCKED) : 0;
    boolean pumping = outputs.isOn(Switch.PUMP) && outputs.isOn(Switch.VACUUM);
    inputs.pumpOpening = pumping ? 1 - faults.severity(Fault.PUMP_FAILED) : 0;
    inputs.extraLeakM3PerS = CRACK_M3_PER_S * faults.severity(Fault.VESSEL_CRACKED);
    inputs.doorOpen = isDoorOpen();
    inputs.rateFactor = 1 + 99 * faults.severity(Fault.RUNAWAY);
    inputs.sealFactor = 1 + 9 * faults.severity(Fault.SEAL_OVERHEATED);
    plant.prepare(inputs);
    changed = false;
  }

  private double heaterShare() {
    double told = relayHeater ? 1 : outputs.heaterPerMille() / 1000.0;
    double share = outputs.isOn(Switch.HEATER) ? told : 0;
    share = StrictMath.max(share, faults.severity(Fault.HEATER_RELAY_WELDED));
    return share * (1 - faults.severity(Fault.HEATER_DEAD));
  }

  private double oxygenOpening(boolean toldOpen) {
    if (toldOpen && !oxygenOn) {
      stroke = 1 + STROKE_SPREAD * strokes.gaussian();
    }
    oxygenOn = toldOpen;
    double opening =
        toldOpen
            ? stroke * (1 - faults.severity(Fault.OXYGEN_VALVE_BLOCKED))
            : VALVE_LEAK * faults.severity(Fault.OXYGEN_VALVE_LEAKING);
    return StrictMath.max(opening, faults.severity(Fault.OXYGEN_VALVE_STUCK_OPEN));
  }

  private void takeTrueValues() {
    trueValues[Channel.SAMPLE_TEMPERATURE.ordinal()] = y[Plant.SAMPLE];
    trueValues[Channel.OVEN_TEMPERATURE.ordinal()] = y[Plant.WALL];
    trueValues[Channel.OVEN_TEMPERATURE_PAIR.ordinal()] = y[Plant.WALL];
    trueValues[Channel.SEAL_TEMPERATURE.ordinal()] = y[Plant.SEAL];
    trueValues[Channel.ROOM_TEMPERATURE.ordinal()] = inputs.roomK;
    double pressurePa = plant.pressurePa(y);
    trueValues[Channel.VESSEL_PRESSURE.ordinal()] = pressurePa;
    trueValues[Channel.VESSEL_PRESSURE_PAIR.ordinal()] = pressurePa;
    trueValues[Channel.SUPPLY_PRESSURE.ordinal()] = inputs.oxygenSupplyPa;
    trueValues[Channel.ROOM_PRESSURE.ordinal()] = inputs.roomPa;
    trueValues[Channel.ROOM_OXYGEN.ordinal()] =
        BenchSpec.AIR_OXYGEN_FRACTION
            + ROOM_OXYGEN_RISE * faults.severity(Fault.ROOM_OXYGEN_HIGH)
            - ROOM_OXYGEN_RISE * faults.severity(Fault.ROOM_OXYGEN_LOW);
    boolean stop = stopPressed || faults.isOn(Fault.EMERGENCY_STOP_PRESSED);
    trueValues[Channel.EMERGENCY_STOP.ordinal()] = stop ? 0 : 1;
    trueValues[Channel.DOOR.ordinal()] = isDoorOpen() ? 0 : 1;
  }

  private boolean isDoorOpen() {
    return doorOpen || faults.isOn(Fault.DOOR_OPEN);
  }

  /** Takes the head off the vessel or puts it back. */
  public void setVesselOpen(boolean open) {
    inputs.vesselOpen = open;
    changed = true;
  }

  public boolean isVesselOpen() {
    return inputs.vesselOpen;
  }

  /** Connects another oxygen source: its true O₂ fraction, 0 to 1, and its absolute pressure. */
  public void changeOxygenSource(double oxygenFraction, double supplyPa) {
    if (!(oxygenFraction >= 0 && oxygenFraction <= 1) || !(supplyPa >= 0)) {
      throw new IllegalArgumentException(
          "an oxygen source needs a fraction from 0 to 1 and a pressure of at least 0 Pa, got "
              + oxygenFraction
              + " and "
              + supplyPa);
    }
    sourceFraction = oxygenFraction;
    sourcePa = supplyPa;
    changed = true;
  }

  /** Breaks up the caked solid; the caller sees to it that the vessel is open and cold. */
  public void grind() {
    plant.solid.grind(y, Plant.FIRST_STEP);
  }

  /** Loses a share of the solid, 0 to below 1. */
  public void spill(double fraction) {
    if (!(fraction >= 0 && fraction < 1)) {
      throw new IllegalArgumentException(
          "the spilled share must be from 0 to below 1, got " + fraction);
    }
    plant.solid.spill(fraction);
  }

  /**
   * Weighs the whole solid in the room's air, in kg, on a balance that shows 0.1 mg: what it shows,
   * not corrected for buoyancy.
   */
  public double weigh() {
    double air =
        BalanceInAir.airKgPerM3(
            spec.room().pressureAtPa(timeS), spec.room().temperatureAtK(timeS), ROOM_HUMIDITY);
    double massKg = plant.solid.massKg(y, Plant.FIRST_STEP);
    double volumeM3 = plant.solid.volumeM3(y, Plant.FIRST_STEP);
    double kg =
        BalanceInAir.readingKg(massKg, volumeM3, air) + spec.balanceNoiseKg() * balance.gaussian();
    return StrictMath.rint(kg * 1e7) / 1e7;
  }

  public void pressEmergencyStop(boolean pressed) {
    stopPressed = pressed;
    changed = true;
  }

  public void openDoor(boolean open) {
    doorOpen = open;
    changed = true;
  }

  /**
   * Fits the relay that drops heater and oxygen when {@link Switch#HEARTBEAT} has not changed for
   * {@code timeoutS}; a bench is delivered without it.
   */
  public void watchHeartbeat(double timeoutS) {
    if (!(timeoutS > 0)) {
      throw new IllegalArgumentException("heartbeat timeout must be above 0 s, got " + timeoutS);
    }
    heartbeatTimeoutS = timeoutS;
    heartbeatSeenS = timeS;
    changed = true;
  }

  /** Lets a fault begin, or changes its severity; see {@link Fault} for what the number means. */
  public void inject(Fault fault, double severity) {
    faults.inject(fault, severity, timeS);
    changed = true;
  }

  public void clear(Fault fault) {
    faults.clear(fault);
    changed = true;
  }

  /** Power that the heater really draws now, in W; for tests and never for a controller. */
  public double heaterW() {
    return inputs.heaterW;
  }

  /** How far the oxygen valve is really open, 0 to 1; for tests and never for a controller. */
  public double oxygenOpening() {
    return inputs.oxygenOpening;
  }

  public boolean hasFault(Fault fault) {
    return faults.isOn(fault);
  }

  /** 0 while the fault is off. */
  public double severity(Fault fault) {
    return faults.severity(fault);
  }

  public Truth truth() {
    return new Truth(
        timeS,
        y[Plant.ELEMENT],
        y[Plant.WALL],
        y[Plant.VESSEL],
        y[Plant.SAMPLE],
        y[Plant.SEAL],
        plant.pressurePa(y),
        y[Plant.OXYGEN],
        y[Plant.INERT],
        plant.solid.oxygenPerUnit(y, Plant.FIRST_STEP),
        y[Plant.UPTAKE],
        plant.solid.heatW,
        plant.solid.massKg(y, Plant.FIRST_STEP));
  }

  public BenchSpec spec() {
    return spec;
  }

  Plant plant() {
    return plant;
  }

  double[] state() {
    return y;
  }

  PlantInputs inputs() {
    return inputs;
  }

  @Override
  public void close() {
    write(Outputs.OFF);
  }
}
