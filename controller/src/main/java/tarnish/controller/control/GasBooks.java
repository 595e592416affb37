package tarnish.controller.control;

import tarnish.shared.estimate.Estimate;
import tarnish.shared.rig.GasSource;

/**
 * The part of a {@link GasAccount} that changes only when a valve moves or the gauge has come to
 * rest: what is booked, and what is remembered of the last pulse, exchange and pump-down. The
 * account alone writes to it, and only in a copy that is not shared yet.
 */
final class GasBooks implements Cloneable {
  static final Estimate NOTHING = new Estimate(0, 0);

  final GasModel firstModel;
  GasModel model;
  GasAccount.Window window = GasAccount.Window.EXCHANGING;

  double takenMol;
  double[] settled = new double[GasModel.ERRORS];
  double filledErrorMol;

  /** Of what was taken up while nothing could be counted: past the valves, from the air. */
  double awayErrorMol;

  double variance;
  double stepVariance;
  double unseenS;
  double openS;

  double baselineMol;
  double[] baselineErrors = new double[GasModel.ERRORS];
  int baselineSamples;

  GasSource source;
  int sources;
  ValveFlow valve = ValveFlow.UNKNOWN;
  int pulses;
  boolean pulseOpen;
  boolean pulseCold;
  double pulseFlowMol;
  boolean rateWasKnown;
  double oxygenBeforeMol;
  double beforeMol;
  double beforePa;
  double admittedMol;

  int exchanges;
  Estimate exchangeFrom = NOTHING;
  double removedMol;
  OpenVessel vessel = OpenVessel.SHUT;

  double zeroPa;
  double zeroUncertaintyPa;
  double zeroFastPa;
  double zeroSlowPa;

  GasBooks(GasModel model, GasSource source) {
    this.firstModel = model;
    this.model = model;
    this.source = source;
    this.zeroUncertaintyPa = model.gaugeZeroPa();
  }

  GasBooks copy() {
    try {
      return (GasBooks) clone();
    } catch (CloneNotSupportedException impossible) {
      throw new AssertionError(impossible);
    }
  }
}
