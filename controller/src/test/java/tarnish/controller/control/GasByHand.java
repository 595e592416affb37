package tarnish.controller.control;

import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.rig.GasSource;

/** An account of the gas whose vessel does what a test says, seen by a gauge without an error. */
final class GasByHand {
  private static final double TICK_S = 0.25;

  final TickWork work;
  GasAccount account;
  double gasMol;
  double noisePa = 10;
  double leakMolPerS;
  GasModel.Heat heat = new GasModel.Heat(295, 295, 295);

  /** A vessel with so much gas of which nobody knows what it is. */
  GasByHand(Plan plan, double gasMol) {
    work = new TickWork(plan, ControlState.initial(plan));
    account = work.gas;
    this.gasMol = gasMol;
  }

  /** The same pumped empty and filled with oxygen from the source, which all passes the valve. */
  static GasByHand filledWithOxygen(Plan plan, double gasMol) {
    GasByHand gas = new GasByHand(plan, 1e-3);
    gas.tick(GasAccount.Window.EXCHANGING, -1e-3 + 1e-7, 0, 0, true, false);
    gas.tick(GasAccount.Window.EXCHANGING, 0, 0, 0, true, false);
    gas.tick(GasAccount.Window.ADMITTING, gasMol, gasMol / TICK_S, 0, false, false);
    return gas;
  }

  /** From now on the oxygen valve passes a gas like air, (20.0 ± 0.1) % of it oxygen. */
  void fromAir() {
    double conductance = account.source().sonicConductance();
    GasSource air = new GasSource("air", 0.2, 0.001, 150_000, conductance, 0.3);
    account = account.withSource(air, HeatBalance.NONE);
  }

  double pressurePa() {
    TwoZoneVolume volume = account.model().volume();
    return gasMol
        * TwoZoneVolume.GAS_CONSTANT
        / volume.volumeOverTemperature(heat.sampleK(), heat.roomK());
  }

  /** One tick in which the gas changes by an amount, with flows by the rig file in mol/s. */
  GasByHand tick(
      GasAccount.Window window,
      double changeMol,
      double oxygenMolPerS,
      double inertMolPerS,
      boolean pumping,
      boolean venting) {
    gasMol += changeMol;
    GasView view =
        new GasView(
            pressurePa(),
            heat,
            noisePa,
            leakMolPerS,
            leakMolPerS / 2,
            oxygenMolPerS,
            inertMolPerS,
            pumping,
            venting,
            TICK_S);
    account = account.step(window, view, work);
    work.gas = account;
    return this;
  }

  /** Every valve is shut while the solid takes up oxygen at a rate. */
  GasByHand rest(double seconds, double uptakeMolPerS) {
    for (int i = 0; i < StrictMath.round(seconds / TICK_S); i++) {
      tick(GasAccount.Window.RESTING, -uptakeMolPerS * TICK_S, 0, 0, false, false);
    }
    return this;
  }

  /** A pulse of oxygen within a time; {@code told} of it by the rig file's conductance. */
  GasByHand pulse(double mol, double seconds, double told) {
    long ticks = StrictMath.round(seconds / TICK_S);
    for (int i = 0; i < ticks; i++) {
      tick(GasAccount.Window.ADMITTING, mol / ticks, told * mol / seconds, 0, false, false);
    }
    return this;
  }
}
