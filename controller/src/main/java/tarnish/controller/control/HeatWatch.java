package tarnish.controller.control;

/**
 * Watches the heat of an oxygen pulse: how far the sample has run ahead since the pulse.
 *
 * <p>Heat of reaction raises the sample both against where it was and against the oven. A warming
 * oven does only the first, an oven whose lead dies away after a ramp only the second; the smaller
 * of the two is taken, so that neither passes for a reaction.
 *
 * @param sampleK sample temperature behind a filter, in K
 * @param ovenK oven temperature behind a filter, in K
 * @param markedSampleK {@code sampleK} when the last pulse began
 * @param markedOvenK {@code ovenK} when the last pulse began
 * @param balance of the sample's heat, over the whole batch
 */
record HeatWatch(
    double sampleK, double ovenK, double markedSampleK, double markedOvenK, HeatBalance balance) {
  static final HeatWatch NONE = new HeatWatch(0, 0, 0, 0, HeatBalance.NONE);

  private static final double FILTER_S = 10;

  HeatWatch step(TickWork work) {
    double newSampleK = work.sampleK();
    double newOvenK = work.ovenK();
    boolean oxygenFree = work.gas.pulses() == 0;
    HeatBalance balanced =
        balance.step(newSampleK, newOvenK, work.roomK(), work.tickS, oxygenFree, work.plan);
    if (sampleK == 0) {
      return new HeatWatch(newSampleK, newOvenK, newSampleK, newOvenK, balanced);
    }
    double share = work.tickS / (FILTER_S + work.tickS);
    return new HeatWatch(
        sampleK + share * (newSampleK - sampleK),
        ovenK + share * (newOvenK - ovenK),
        markedSampleK,
        markedOvenK,
        balanced);
  }

  HeatWatch marked() {
    return new HeatWatch(sampleK, ovenK, sampleK, ovenK, balance);
  }

  /** Excess of the sample since the last mark, in K. */
  double excessK() {
    double risenK = sampleK - markedSampleK;
    double ovenRisenK = ovenK - markedOvenK;
    return StrictMath.min(risenK, risenK - ovenRisenK);
  }
}
