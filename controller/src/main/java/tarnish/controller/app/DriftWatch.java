package tarnish.controller.app;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import tarnish.shared.oven.OvenDrift;
import tarnish.shared.oven.OvenModel;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Heater;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Switch;

/**
 * Follows how the oven of a batch behaves beside the rig's model, and says afterwards what has
 * changed. It changes nothing while a batch runs. One thread at a time.
 */
final class DriftWatch {
  /** From here on a change of power, of loss, or of how the sample follows is worth telling. */
  private static final double POWER_CHANGE = 0.05;

  private static final double LOSS_CHANGE = 0.15;
  private static final double FOLLOW_CHANGE = 0.2;

  /** And only if it is so many standard uncertainties. */
  private static final double SURE = 3;

  private final RigDescription rig;
  private final Optional<OvenDrift> drift;
  private Outputs given = Outputs.OFF;

  DriftWatch(RigDescription rig) {
    this.rig = rig;
    drift =
        rig.regulation()
            .model()
            .map(oven -> new OvenDrift(oven.model(), rig.tickMillis() / 1000.0));
  }

  /** Takes the readings of a tick and what the outputs are from now on. */
  void look(Readings readings, Outputs outputs) {
    if (drift.isPresent()) {
      boolean relay = rig.heater().actuator() == Heater.Actuator.RELAY;
      double share = relay ? 1 : given.heaterPerMille() / 1000.0;
      boolean closed = readings.valueOr(Channel.DOOR, 1) > 0.5;
      drift
          .get()
          .tick(
              given.isOn(Switch.HEATER) ? share : 0,
              closed ? readings.valueOr(Channel.OVEN_TEMPERATURE, Double.NaN) : Double.NaN,
              readings.valueOr(Channel.SAMPLE_TEMPERATURE, Double.NaN),
              readings.valueOr(Channel.ROOM_TEMPERATURE, 295));
    }
    given = outputs;
  }

  boolean isEnough() {
    return drift.isPresent() && drift.get().found().isEnough();
  }

  /** What has changed, a sentence each; empty where nothing has, or too little was seen. */
  List<String> sentences() {
    List<String> sentences = new ArrayList<>();
    if (!isEnough()) {
      return sentences;
    }
    OvenDrift.Found found = drift.get().found();
    if (changed(found.power(), found.powerUncertainty(), POWER_CHANGE)) {
      sentences.add(
          "The heater gives "
              + percent(found.power(), found.powerUncertainty())
              + " of the power it was identified with: an ageing element, another mains voltage,"
              + " or a lost heating zone.");
    }
    if (changed(found.loss(), found.lossUncertainty(), LOSS_CHANGE)) {
      sentences.add(
          "The oven loses "
              + percent(found.loss(), found.lossUncertainty())
              + " of the heat it lost when it was identified: look at door, plugs and insulation.");
    }
    if (changed(found.follow(), found.followUncertainty(), FOLLOW_CHANGE)) {
      sentences.add(
          "The sample follows the oven "
              + percent(found.follow(), found.followUncertainty())
              + " as fast as when it was identified: another vessel or boat, or a thermocouple that"
              + " has moved.");
    }
    return sentences;
  }

  private static boolean changed(double factor, double uncertainty, double allowed) {
    double away = Math.abs(factor - 1);
    return away > allowed && away > SURE * uncertainty;
  }

  private static String percent(double factor, double uncertainty) {
    return String.format(
        Locale.ROOT, "%.0f %% ± %.0f %%", 100 * factor, Math.max(1, 100 * uncertainty));
  }

  /** All three factors, for people. */
  String figures() {
    if (!isEnough()) {
      return "too little was seen of the oven to compare it with its model";
    }
    OvenDrift.Found f = drift.get().found();
    return "power "
        + percent(f.power(), f.powerUncertainty())
        + ", loss "
        + percent(f.loss(), f.lossUncertainty())
        + ", sample follows "
        + percent(f.follow(), f.followUncertainty())
        + " of what was identified ("
        + f.windows()
        + " windows of 5 min)";
  }

  OvenModel adapted() {
    return drift.orElseThrow().adapted();
  }
}
