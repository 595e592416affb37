package tarnish.controller.control.trial;

import java.util.List;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Switch;

/**
 * Tells from the slope of the pressure whether a vent or vacuum valve opens when it is told to,
 * when it is told not to (inverted), always, or never.
 */
record ValveJudge(RigDescription rig, Switch valve) implements Judge {
  /** A pressure that moves slower than this is taken for standing still: leaks do that. */
  private static final double STILL_PA_PER_S = 20;

  /** A flow that is less than this much of another one is none. */
  private static final double NONE_SHARE = 0.3;

  @Override
  public Verdict judge(Look before, Look during, Look after) {
    ChannelLook still = before.at(Channel.VESSEL_PRESSURE);
    ChannelLook open = during.at(Channel.VESSEL_PRESSURE);
    ChannelLook again = after.at(Channel.VESSEL_PRESSURE);
    if (!still.isSteady() || !open.isSteady() || !again.isSteady()) {
      return told(Finding.wrong("The vessel pressure gave no steady value."));
    }
    double endPa = valve == Switch.VENT ? roomPa(before) : 0;
    double way = still.mean() > endPa ? -1 : 1;
    double noise = EffectJudge.statedNoise(rig, Channel.VESSEL_PRESSURE);
    double off = share(still, endPa);
    double on = share(open, endPa);
    boolean offFlows = flows(way * still.slopePerS(), still, noise);
    boolean onFlows = flows(way * open.slopePerS(), open, noise);
    String rates =
        " (off %s, on %s, off again %s)"
            .formatted(
                Amounts.perSecond(still.slopePerS()),
                Amounts.perSecond(open.slopePerS()),
                Amounts.perSecond(again.slopePerS()));
    if (offFlows && on < NONE_SHARE * off) {
      return told(
          Finding.wrong(
              "Inverted: gas flows while the "
                  + valve.words()
                  + " is told to be shut, and stops when it is told to open"
                  + rates
                  + ". Take it out of service: without power it would stand open."));
    }
    if (offFlows && onFlows) {
      return told(
          Finding.wrong(
              "Gas flows whether the "
                  + valve.words()
                  + " is told to open or not"
                  + rates
                  + ": it is stuck open, leaks, or is not the valve that flows."));
    }
    if (flows(-way * open.slopePerS(), open, noise) && !offFlows) {
      return told(
          Finding.wrong(
              "The pressure goes the wrong way when the "
                  + valve.words()
                  + " is told to open"
                  + rates
                  + ": another valve hangs on this output."));
    }
    return onFlows
        ? told(Finding.right("The " + valve.words() + " opens when told and shuts" + rates + "."))
        : new Verdict(
            false,
            List.of(
                Finding.right(
                    "Nothing flowed either way"
                        + rates
                        + ": is there gas behind the valve, and a difference of pressure?")));
  }

  private static Verdict told(Finding finding) {
    return new Verdict(true, List.of(finding));
  }

  private static boolean flows(double ratePaPerS, ChannelLook look, double noise) {
    double least = EffectJudge.CLEAR * look.slopeNoisePerS(noise);
    return ratePaPerS > StrictMath.max(STILL_PA_PER_S, least);
  }

  /**
   * How fast the pressure goes to its end, as a share per s of what is left: steady while a valve
   * stays open, however much has flowed already.
   */
  private static double share(ChannelLook look, double endPa) {
    return look.slopePerS() / (endPa - look.mean());
  }

  private double roomPa(Look look) {
    double roomPa = look.at(Channel.ROOM_PRESSURE).mean();
    return Double.isNaN(roomPa) ? rig.roomPressurePa() : roomPa;
  }
}
