package tarnish.controller.control.trial;

import java.util.List;
import java.util.Set;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Switch;

/**
 * Finds out whether a supply valve opens when it is told to, or the other way round. The bottle is
 * opened only while the valve is told to be open: gas that flows into a vessel whose valves are all
 * told to be shut would trip the bench, and rightly, before anything could be learnt.
 */
public record SupplyTrial(
    Switch valve,
    double noisePa,
    Stage stage,
    double stageS,
    Look open,
    Look shut,
    List<Finding> findings)
    implements Trial {
  private static final double LOOK_S = 3;

  /** What flows on through pipes and gauge after a valve has moved. */
  private static final double REST_S = 0.5;

  /** Longest time that the valve is told to be open without a word. */
  private static final double PATIENCE_S = 60;

  /** A pressure that moves slower than this is taken for standing still: leaks do that. */
  private static final double STILL_PA_PER_S = 50;

  /** Where it stands. */
  enum Stage {
    ASKING("waiting for a yes"),
    TOLD_OPEN("the valve is told to be open"),
    LOOKING_OPEN("looking, with the valve told to be open"),
    RESTING("the valve is told to be shut"),
    LOOKING_SHUT("looking, with the valve told to be shut"),
    ENDED("ended");

    final String words;

    Stage(String words) {
      this.words = words;
    }
  }

  /**
   * @param noisePa standard deviation of one value of the vessel's gauge
   */
  static SupplyTrial of(Switch valve, double noisePa) {
    return new SupplyTrial(valve, noisePa, Stage.ASKING, 0, Look.NONE, Look.NONE, List.of());
  }

  @Override
  public String title() {
    return "Sense of the " + valve.words();
  }

  @Override
  public String doing() {
    return stage.words;
  }

  @Override
  public String question() {
    return switch (stage) {
      case ASKING ->
          "Is the bottle shut and the vessel evacuated? Then tell the "
              + valve.words()
              + " to open?";
      case TOLD_OPEN ->
          "Open the bottle now, its regulator at its lowest; say yes within "
              + (int) PATIENCE_S
              + " s: is it open?";
      default -> "";
    };
  }

  @Override
  public Set<Switch> demands() {
    return stage == Stage.TOLD_OPEN || stage == Stage.LOOKING_OPEN ? Set.of(valve) : Set.of();
  }

  @Override
  public boolean expectsNoFlow() {
    return stage == Stage.TOLD_OPEN;
  }

  @Override
  public boolean hasEnded() {
    return stage == Stage.ENDED;
  }

  @Override
  public Trial confirmed() {
    return switch (stage) {
      case ASKING -> at(Stage.TOLD_OPEN, open, shut);
      case TOLD_OPEN -> at(Stage.LOOKING_OPEN, open, shut);
      default -> this;
    };
  }

  private SupplyTrial at(Stage next, Look newOpen, Look newShut) {
    return new SupplyTrial(valve, noisePa, next, 0, newOpen, newShut, findings);
  }

  private SupplyTrial after(double tickS, Look newOpen, Look newShut) {
    return new SupplyTrial(valve, noisePa, stage, stageS + tickS, newOpen, newShut, findings);
  }

  private boolean isOver(double forS, double tickS) {
    return stageS + 1.5 * tickS > forS;
  }

  @Override
  public Trial step(Readings readings, double tickS) {
    return switch (stage) {
      case ASKING, ENDED -> this;
      case TOLD_OPEN ->
          isOver(PATIENCE_S, tickS)
              ? stopped("nobody said yes for " + (int) PATIENCE_S + " s.")
              : after(tickS, open, shut);
      case LOOKING_OPEN -> {
        Look look = open.with(readings, tickS);
        yield isOver(LOOK_S, tickS) ? at(Stage.RESTING, look, shut) : after(tickS, look, shut);
      }
      case RESTING ->
          isOver(REST_S, tickS) ? at(Stage.LOOKING_SHUT, open, shut) : after(tickS, open, shut);
      case LOOKING_SHUT -> {
        Look look = shut.with(readings, tickS);
        yield isOver(LOOK_S, tickS) ? ended(found(look), look) : after(tickS, open, look);
      }
    };
  }

  private SupplyTrial ended(Finding finding, Look lastLook) {
    return new SupplyTrial(valve, noisePa, Stage.ENDED, 0, open, lastLook, List.of(finding));
  }

  private Finding found(Look lastLook) {
    ChannelLook on = open.at(Channel.VESSEL_PRESSURE);
    ChannelLook off = lastLook.at(Channel.VESSEL_PRESSURE);
    if (!on.isSteady() || !off.isSteady()) {
      return Finding.wrong("The vessel pressure gave no steady value.");
    }
    String rates =
        " (told to be open %s, told to be shut %s)"
            .formatted(Amounts.perSecond(on.slopePerS()), Amounts.perSecond(off.slopePerS()));
    boolean onFlows = flows(on);
    boolean offFlows = flows(off);
    if (onFlows && offFlows) {
      return Finding.wrong(
          "Gas flows whether the "
              + valve.words()
              + " is told to be open or shut"
              + rates
              + ": it is stuck open or leaks. Shut the bottle.");
    }
    if (offFlows) {
      return Finding.wrong(
          "Inverted: gas flows while the "
              + valve.words()
              + " is told to be shut, and not while it is told to be open"
              + rates
              + ". Shut the bottle and take it out of service: without power it stands open.");
    }
    if (on.slopePerS() < -STILL_PA_PER_S) {
      return Finding.wrong(
          "The pressure fell while the "
              + valve.words()
              + " was told to be open"
              + rates
              + ": another valve hangs on this output.");
    }
    return onFlows
        ? Finding.right("The " + valve.words() + " opens when told and shuts" + rates + ".")
        : Finding.right(
            "Nothing flowed either way"
                + rates
                + ": is the bottle open, and its pressure above the vessel's?");
  }

  private boolean flows(ChannelLook look) {
    double least = EffectJudge.CLEAR * look.slopeNoisePerS(noisePa);
    return look.slopePerS() > StrictMath.max(STILL_PA_PER_S, least);
  }

  @Override
  public Trial stopped(String why) {
    return ended(Finding.right("Ended early: " + why), shut);
  }
}
