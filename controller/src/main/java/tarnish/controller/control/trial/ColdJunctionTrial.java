package tarnish.controller.control.trial;

import java.util.List;
import java.util.Set;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.SensorDescription;
import tarnish.shared.rig.Switch;

/**
 * Finds a wrong cold junction without switching anything: the thermocouple is compared with the
 * room's sensor at rest, then with melting ice.
 *
 * <p>A thermocouple gives E(tip) - E(terminals), and its front end adds E(terminals as it takes
 * them to be). Terminals taken too warm therefore shift every reading alike, at rest and in ice; a
 * wrong type or extension wire is right where tip and terminals are equally warm, and wrong in ice;
 * a reversed pair shows the terminals' temperature twice less the tip's.
 */
public record ColdJunctionTrial(
    RigDescription rig,
    Channel channel,
    Stage stage,
    double stageS,
    Look rest,
    Look ice,
    List<Finding> findings)
    implements Trial {
  private static final double LOOK_S = 10;
  private static final double ICE_K = 273.15;

  /** Of stirred crushed ice in water, and of a tip that is not quite at the room's temperature. */
  private static final double PLACE_K = 0.3;

  /** Two standard uncertainties: common practice. */
  private static final double COVERAGE = 2;

  /** How far two offsets may be apart and still be one. */
  private static final double SAME_K = 1.5;

  /** Where it stands. */
  enum Stage {
    ASKING_REST("waiting for a yes"),
    REST("looking, all at rest"),
    ASKING_ICE("waiting for a yes"),
    ICE("looking, tip in ice"),
    ENDED("ended");

    final String words;

    Stage(String words) {
      this.words = words;
    }
  }

  static ColdJunctionTrial of(RigDescription rig, Channel channel) {
    return new ColdJunctionTrial(
        rig, channel, Stage.ASKING_REST, 0, Look.NONE, Look.NONE, List.of());
  }

  /** The sensor it is compared with at rest: the room's, or one near it. */
  static Channel atRest(RigDescription rig) {
    return rig.sensor(Channel.ROOM_TEMPERATURE).isPresent()
        ? Channel.ROOM_TEMPERATURE
        : Channel.SEAL_TEMPERATURE;
  }

  @Override
  public String title() {
    return "Cold junction of the " + channel.words();
  }

  @Override
  public String doing() {
    return stage.words;
  }

  @Override
  public String question() {
    return switch (stage) {
      case ASKING_REST ->
          "Nothing is switched. Has the bench been off overnight, so that the tip of the "
              + channel.words()
              + " is as warm as the "
              + atRest(rig).words()
              + " sensor?";
      case ASKING_ICE ->
          "Take the tip out, put it 5 cm deep into stirred crushed ice in water, and wait until the"
              + " reading is steady. Is it?";
      default -> "";
    };
  }

  @Override
  public Set<Switch> demands() {
    return Set.of();
  }

  @Override
  public boolean hasEnded() {
    return stage == Stage.ENDED;
  }

  @Override
  public Trial confirmed() {
    return switch (stage) {
      case ASKING_REST -> at(Stage.REST, rest, ice);
      case ASKING_ICE -> at(Stage.ICE, rest, ice);
      default -> this;
    };
  }

  private ColdJunctionTrial at(Stage next, Look newRest, Look newIce) {
    return new ColdJunctionTrial(rig, channel, next, 0, newRest, newIce, findings);
  }

  @Override
  public Trial step(Readings readings, double tickS) {
    double nowS = stageS + tickS;
    boolean over = nowS + tickS / 2 > LOOK_S;
    if (stage == Stage.REST) {
      Look look = rest.with(readings, tickS);
      return over
          ? at(Stage.ASKING_ICE, look, ice)
          : new ColdJunctionTrial(rig, channel, stage, nowS, look, ice, findings);
    }
    if (stage == Stage.ICE) {
      Look look = ice.with(readings, tickS);
      return over
          ? new ColdJunctionTrial(rig, channel, Stage.ENDED, 0, rest, look, List.of(found(look)))
          : new ColdJunctionTrial(rig, channel, stage, nowS, rest, look, findings);
    }
    return this;
  }

  @Override
  public Trial stopped(String why) {
    return new ColdJunctionTrial(
        rig, channel, Stage.ENDED, 0, rest, ice, List.of(Finding.right("Ended early: " + why)));
  }

  private Finding found(Look inIce) {
    Channel reference = atRest(rig);
    if (!rest.at(channel).isSteady()
        || !rest.at(reference).isSteady()
        || !inIce.at(channel).isSteady()) {
      return Finding.wrong("A sensor gave no steady value.");
    }
    double roomK = rest.at(reference).mean();
    double restK = rest.at(channel).mean() - roomK;
    double iceK = inIce.at(channel).mean() - ICE_K;
    double slackK = COVERAGE * StrictMath.hypot(uncertaintyK(channel), uncertaintyK(reference));
    String offsets =
        " (off by %s at rest, by %s in ice)".formatted(Amounts.kelvin(restK), Amounts.kelvin(iceK));
    boolean restOff = StrictMath.abs(restK) > slackK;
    boolean iceOff = StrictMath.abs(iceK) > slackK;
    if (!restOff && !iceOff) {
      return Finding.right("The cold junction is right" + offsets + ".");
    }
    if (StrictMath.abs(iceK - 2 * (roomK - ICE_K)) < slackK + SAME_K) {
      return Finding.wrong("Reversed polarity: it went up in ice" + offsets + ".");
    }
    if (StrictMath.abs(restK - iceK) < SAME_K) {
      return Finding.wrong(
          "Wrong cold junction: the front end takes its terminals for "
              + Amounts.kelvin(StrictMath.abs((restK + iceK) / 2))
              + (restK > 0 ? " warmer" : " colder")
              + " than they are"
              + offsets
              + ". Look where the extension wire ends and whether something warms the terminals.");
    }
    return restOff
        ? Finding.wrong(
            "More than one thing is wrong, or the bench was not at rest" + offsets + ".")
        : Finding.wrong(
            "Right at rest and wrong in ice"
                + offsets
                + ": another type of thermocouple or extension wire than the rig file says.");
  }

  private double uncertaintyK(Channel which) {
    SensorDescription sensor = rig.sensor(which).orElseThrow();
    return StrictMath.hypot(sensor.standardUncertainty(), PLACE_K);
  }
}
