package tarnish.shared.rig;

import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import tarnish.shared.reading.Channel;

/**
 * A rig as its file describes it, in SI units.
 *
 * @param name of the bench
 * @param invented true for demonstration data
 * @param connection how the service reaches it
 * @param tickMillis period of the control loop in ms
 * @param sensors fitted sensors, at most one per channel
 * @param heater the oven heater
 * @param oxygen the oxygen source
 * @param inert the inert gas source
 * @param pumpSpeedM3PerS pumping speed at the vessel in m³/s
 * @param pumpUltimatePa lowest pressure the pump reaches
 * @param ventConductance C of ISO 6358 of the vent path, in m³/(s Pa)
 * @param roomPressurePa usual atmospheric pressure of the place
 * @param vessel the vessel and its seal
 * @param regulation temperature control settings
 * @param attended limits while a person is checked in
 * @param unattended limits while nobody is
 * @param ventOpenWhenSafe whether the safe state opens the vent
 * @param defeat which interlocks may be defeated for a while
 * @param balanceStandardUncertaintyKg of one weighing of the solid, balance and handling, in kg
 */
public record RigDescription(
    String name,
    boolean invented,
    Connection connection,
    long tickMillis,
    List<SensorDescription> sensors,
    Heater heater,
    GasSource oxygen,
    GasSource inert,
    double pumpSpeedM3PerS,
    double pumpUltimatePa,
    double ventConductance,
    double roomPressurePa,
    Vessel vessel,
    Regulation regulation,
    Limits attended,
    Limits unattended,
    boolean ventOpenWhenSafe,
    Defeat defeat,
    double balanceStandardUncertaintyKg) {

  /** Balance and handling at a small bench, where the file says nothing: common practice. */
  public static final double USUAL_BALANCE_KG = 3e-6;

  /** A rig whose interlocks cannot be defeated, with the usual balance. */
  public RigDescription(
      String name,
      boolean invented,
      Connection connection,
      long tickMillis,
      List<SensorDescription> sensors,
      Heater heater,
      GasSource oxygen,
      GasSource inert,
      double pumpSpeedM3PerS,
      double pumpUltimatePa,
      double ventConductance,
      double roomPressurePa,
      Vessel vessel,
      Regulation regulation,
      Limits attended,
      Limits unattended,
      boolean ventOpenWhenSafe) {
    this(
        name,
        invented,
        connection,
        tickMillis,
        sensors,
        heater,
        oxygen,
        inert,
        pumpSpeedM3PerS,
        pumpUltimatePa,
        ventConductance,
        roomPressurePa,
        vessel,
        regulation,
        attended,
        unattended,
        ventOpenWhenSafe,
        Defeat.NONE,
        USUAL_BALANCE_KG);
  }

  public RigDescription {
    sensors = List.copyOf(sensors);
  }

  /** How the service reaches the bench; the words are those of a rig file. */
  public enum Connection {
    SIMULATED("simulated"),
    DEVICES("devices");

    private final String words;

    Connection(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }
  }

  /** The same rig with other regulation. */
  public RigDescription withRegulation(Regulation other) {
    return with(draft -> draft.regulation = other);
  }

  /** The same rig with other sensors. */
  public RigDescription withSensors(List<SensorDescription> others) {
    return with(draft -> draft.sensors = others);
  }

  /** The same rig with other limits. */
  public RigDescription withLimits(Limits otherAttended, Limits otherUnattended) {
    return with(
        draft -> {
          draft.attended = otherAttended;
          draft.unattended = otherUnattended;
        });
  }

  /** The same rig with another oxygen source. */
  public RigDescription withOxygen(GasSource other) {
    return with(draft -> draft.oxygen = other);
  }

  /** The same rig with another vessel. */
  public RigDescription withVessel(Vessel other) {
    return with(draft -> draft.vessel = other);
  }

  /** The same rig with other interlocks that may be defeated. */
  public RigDescription withDefeat(Defeat other) {
    return with(draft -> draft.defeat = other);
  }

  public Optional<SensorDescription> sensor(Channel channel) {
    return sensors.stream().filter(s -> s.channel() == channel).findFirst();
  }

  /** Step size of each channel by ordinal, 0 where not fitted: what {@code Readings} wants. */
  public double[] resolutions() {
    double[] resolutions = new double[Channel.COUNT];
    for (SensorDescription sensor : sensors) {
      resolutions[sensor.channel().ordinal()] = sensor.resolution();
    }
    return resolutions;
  }

  /** Every output off but the vent, which stands as the rig file says. */
  public Outputs safeOutputs() {
    return Outputs.OFF.with(Switch.VENT, ventOpenWhenSafe);
  }

  private RigDescription with(Consumer<Draft> change) {
    Draft draft = new Draft(this);
    change.accept(draft);
    return draft.done();
  }

  /** What may be changed, so that the other fields are named here and not by every change. */
  private static final class Draft {
    private final RigDescription from;
    private List<SensorDescription> sensors;
    private GasSource oxygen;
    private Vessel vessel;
    private Regulation regulation;
    private Limits attended;
    private Limits unattended;
    private Defeat defeat;

    Draft(RigDescription from) {
      this.from = from;
      sensors = from.sensors;
      oxygen = from.oxygen;
      vessel = from.vessel;
      regulation = from.regulation;
      attended = from.attended;
      unattended = from.unattended;
      defeat = from.defeat;
    }

    RigDescription done() {
      return new RigDescription(
          from.name,
          from.invented,
          from.connection,
          from.tickMillis,
          sensors,
          from.heater,
          oxygen,
          from.inert,
          from.pumpSpeedM3PerS,
          from.pumpUltimatePa,
          from.ventConductance,
          from.roomPressurePa,
          vessel,
          regulation,
          attended,
          unattended,
          from.ventOpenWhenSafe,
          defeat,
          from.balanceStandardUncertaintyKg);
    }
  }
}
