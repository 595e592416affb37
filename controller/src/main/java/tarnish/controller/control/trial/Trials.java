package tarnish.controller.control.trial;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;
import tarnish.shared.rig.Switch;

/** The trials that a rig can have, by name, in the order in which they are best done. */
public final class Trials {
  /** Warms an oven of a few kg by less than a kelvin. Common practice. */
  private static final double PULSE_ENERGY_MAX_J = 1_000;

  /** What a guided heat pulse may bring, and how often: 10 kJ in all. */
  private static final double HEAT_ENERGY_MAX_J = 2_000;

  private static final int HEAT_PULSES_MAX = 5;
  private static final double HEAT_WAIT_S = 45;

  private static final double HEATER_MAX_S = 3;
  private static final double VALVE_S = 0.5;
  private static final double PUMP_S = 2;
  private static final double LOOK_S = 5;
  private static final double FLOW_S = 2;

  /** Short: a pump empties a small vessel in seconds, and then nothing flows any more. */
  private static final double FLOW_LOOK_S = 1.5;

  private static final double EVACUATE_S = 180;
  private static final Set<Switch> NOTHING = Set.of();

  private final RigDescription rig;
  private final Map<String, Trial> byName = new LinkedHashMap<>();

  private Trials(RigDescription rig) {
    this.rig = rig;
  }

  /** Fresh trials by name: a pulse of every output, the guided ones, and evacuating. */
  public static Map<String, Trial> of(RigDescription rig) {
    Trials trials = new Trials(rig);
    for (Switch each : Switch.values()) {
      if (each != Switch.HEARTBEAT) {
        trials.byName.put("pulse " + each.words(), trials.pulse(each));
      }
    }
    trials.byName.put("which thermocouple", trials.heat());
    for (Switch valve : new Switch[] {Switch.VACUUM, Switch.VENT}) {
      trials.byName.put("sense of " + valve.words(), trials.valve(valve));
    }
    for (Switch valve : new Switch[] {Switch.INERT, Switch.OXYGEN}) {
      trials.byName.put(
          "sense of " + valve.words(),
          SupplyTrial.of(valve, EffectJudge.statedNoise(rig, Channel.VESSEL_PRESSURE)));
    }
    for (SensorDescription sensor : rig.sensors()) {
      if (sensor.element().words().startsWith("thermocouple")
          && rig.sensor(ColdJunctionTrial.atRest(rig)).isPresent()) {
        trials.byName.put(
            "cold junction of " + sensor.channel().words(),
            ColdJunctionTrial.of(rig, sensor.channel()));
      }
    }
    trials.byName.put(
        "evacuate",
        HoldTrial.asking(
            "Evacuate, for a gauge's zero",
            "Run the vacuum pump with its valve open for %.0f s, then shut both?"
                .formatted(EVACUATE_S),
            Set.of(Switch.PUMP, Switch.VACUUM),
            EVACUATE_S));
    return trials.byName;
  }

  private double heaterS(double energyJ) {
    return StrictMath.min(HEATER_MAX_S, energyJ / rig.heater().ratedPowerW());
  }

  private double wholeTicks(double seconds) {
    double tickS = rig.tickMillis() / 1000.0;
    return StrictMath.max(tickS, StrictMath.floor(seconds / tickS + 1e-9) * tickS);
  }

  private String heatWords(double forS) {
    return String.format(
        Locale.ROOT,
        "Pulse the heater for %.2f s (%.0f J)?",
        forS,
        forS * rig.heater().ratedPowerW());
  }

  private Trial pulse(Switch which) {
    double forS =
        wholeTicks(
            switch (which) {
              case HEATER -> heaterS(PULSE_ENERGY_MAX_J);
              case PUMP -> PUMP_S;
              default -> VALVE_S;
            });
    String what =
        which == Switch.HEATER
            ? heatWords(forS)
            : String.format(Locale.ROOT, "Pulse the %s for %.2f s?", which.words(), forS);
    return PulseTrial.of(
        new Pulse("Pulse of the " + which.words(), "", what, NOTHING, which, forS, LOOK_S, 0.5, 1),
        new EffectJudge(rig, which));
  }

  private Trial heat() {
    double forS = wholeTicks(heaterS(HEAT_ENERGY_MAX_J));
    return PulseTrial.of(
        new Pulse(
            "Which thermocouple is which, and which way round",
            "The oven must be cold and shut, the vessel in place.",
            heatWords(forS),
            NOTHING,
            Switch.HEATER,
            forS,
            LOOK_S,
            HEAT_WAIT_S,
            HEAT_PULSES_MAX),
        new HeatJudge(rig));
  }

  private Trial valve(Switch valve) {
    String preparation =
        valve == Switch.VENT
            ? "The vessel must stand clearly above the room's pressure."
            : "The vessel must hold gas.";
    Set<Switch> alongside = valve == Switch.VACUUM ? Set.of(Switch.PUMP) : NOTHING;
    String pump = valve == Switch.VACUUM ? ", with the pump running" : "";
    return PulseTrial.of(
        new Pulse(
            "Sense of the " + valve.words(),
            preparation,
            String.format(Locale.ROOT, "Open the %s for %.2f s%s?", valve.words(), FLOW_S, pump),
            alongside,
            valve,
            wholeTicks(FLOW_S),
            FLOW_LOOK_S,
            0.5,
            2),
        new ValveJudge(rig, valve));
  }

  /** Whether the channel is one that a person can calibrate at two points. */
  public static boolean canBeCalibrated(Channel channel) {
    return channel.kind() != Channel.Kind.CONTACT;
  }
}
