package tarnish.controller.control.trial;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Switch;

/**
 * Asks, looks, pulses one output, waits, looks again and judges; asks again where nothing was
 * clear.
 *
 * @param stageS time in the present stage
 * @param given pulses so far
 */
public record PulseTrial(
    Pulse pulse,
    Judge judge,
    Stage stage,
    double stageS,
    Look before,
    Look during,
    Look after,
    int given,
    List<Finding> findings)
    implements Trial {

  /** Where it stands. */
  enum Stage {
    ASKING("waiting for a yes"),
    BEFORE("looking, with the output off"),
    PULSING("the output is on"),
    WAITING("waiting for the effect"),
    AFTER("looking, with the output off again"),
    ENDED("ended");

    final String words;

    Stage(String words) {
      this.words = words;
    }
  }

  static PulseTrial of(Pulse pulse, Judge judge) {
    return new PulseTrial(
        pulse, judge, Stage.ASKING, 0, Look.NONE, Look.NONE, Look.NONE, 0, List.of());
  }

  @Override
  public String title() {
    return pulse.title();
  }

  @Override
  public String doing() {
    return stage.words;
  }

  @Override
  public String question() {
    if (stage != Stage.ASKING) {
      return "";
    }
    String which =
        pulse.most() > 1 ? " Pulse %d of at most %d.".formatted(given + 1, pulse.most()) : "";
    String first = pulse.preparation().isEmpty() || given > 0 ? "" : pulse.preparation() + " ";
    return first + pulse.what() + which;
  }

  @Override
  public Set<Switch> demands() {
    Set<Switch> on = EnumSet.noneOf(Switch.class);
    if (stage != Stage.ASKING && stage != Stage.ENDED) {
      on.addAll(pulse.alongside());
    }
    if (stage == Stage.PULSING) {
      on.add(pulse.on());
    }
    return on;
  }

  @Override
  public boolean hasEnded() {
    return stage == Stage.ENDED;
  }

  @Override
  public Trial confirmed() {
    return stage == Stage.ASKING ? at(Stage.BEFORE, Look.NONE, Look.NONE, Look.NONE) : this;
  }

  private PulseTrial at(Stage next, Look newBefore, Look newDuring, Look newAfter) {
    int count = next == Stage.PULSING ? given + 1 : given;
    return new PulseTrial(pulse, judge, next, 0, newBefore, newDuring, newAfter, count, findings);
  }

  private PulseTrial looked(double tickS, Look newBefore, Look newDuring, Look newAfter) {
    return new PulseTrial(
        pulse, judge, stage, stageS + tickS, newBefore, newDuring, newAfter, given, findings);
  }

  @Override
  public Trial step(Readings readings, double tickS) {
    return switch (stage) {
      case ASKING, ENDED -> this;
      case BEFORE -> {
        Look look = before.with(readings, tickS);
        yield isOver(pulse.lookS(), tickS)
            ? at(Stage.PULSING, look, Look.NONE, Look.NONE)
            : looked(tickS, look, during, after);
      }
      case PULSING -> pulsing(readings, tickS);
      case WAITING ->
          isOver(pulse.waitS(), tickS)
              ? at(Stage.AFTER, before, during, Look.NONE)
              : looked(tickS, before, during, after);
      case AFTER -> {
        Look look = after.with(readings, tickS);
        yield isOver(pulse.lookS(), tickS) ? judged(look) : looked(tickS, before, during, look);
      }
    };
  }

  /** Ends before the tick that would make it longer than allowed. */
  private Trial pulsing(Readings readings, double tickS) {
    Look look = during.with(readings, tickS);
    boolean longEnough = stageS + 2 * tickS > pulse.pulseS() + 1e-6;
    return longEnough
        ? at(Stage.WAITING, before, look, Look.NONE)
        : looked(tickS, before, look, after);
  }

  private boolean isOver(double forS, double tickS) {
    return stageS + 1.5 * tickS > forS;
  }

  private Trial judged(Look lastLook) {
    Judge.Verdict verdict = judge.judge(before, during, lastLook);
    boolean again = !verdict.clear() && given < pulse.most();
    return new PulseTrial(
        pulse,
        judge,
        again ? Stage.ASKING : Stage.ENDED,
        0,
        before,
        during,
        lastLook,
        given,
        verdict.findings());
  }

  @Override
  public Trial stopped(String why) {
    List<Finding> all = new ArrayList<>(findings);
    all.add(Finding.right("Ended early: " + why));
    return new PulseTrial(
        pulse, judge, Stage.ENDED, 0, before, during, after, given, List.copyOf(all));
  }
}
