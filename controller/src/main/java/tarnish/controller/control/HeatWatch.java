package tarnish.controller.control;

/**
 * Watches the heat of an oxygen pulse: how far the sample runs ahead of its course, measured
 * against the oven so that a drift of both does not count.
 *
 * @param sampleK sample temperature behind a filter, in K
 * @param ovenK oven temperature behind a filter, in K
 * @param referenceK difference of the two when the last pulse began, in K
 */
record HeatWatch(double sampleK, double ovenK, double referenceK) {
  static final HeatWatch NONE = new HeatWatch(0, 0, 0);

  private static final double FILTER_S = 10;

  HeatWatch step(double newSampleK, double newOvenK, double tickS) {
    if (sampleK == 0) {
      return new HeatWatch(newSampleK, newOvenK, newSampleK - newOvenK);
    }
    double share = tickS / (FILTER_S + tickS);
    return new HeatWatch(
        sampleK + share * (newSampleK - sampleK), ovenK + share * (newOvenK - ovenK), referenceK);
  }

  HeatWatch marked() {
    return new HeatWatch(sampleK, ovenK, sampleK - ovenK);
  }

  /** Excess of the sample over its course since the last mark, in K. */
  double excessK() {
    return sampleK - ovenK - referenceK;
  }
}
