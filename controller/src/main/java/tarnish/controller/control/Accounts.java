package tarnish.controller.control;

import tarnish.shared.estimate.Estimate;
import tarnish.shared.gas.Iso6358;
import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.reading.Channel;
import tarnish.shared.rig.GasSource;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Switch;

/** Keeps the books of a tick: gas, heat, times and peaks. */
final class Accounts {
  private Accounts() {}

  /** IUPAC abridged 2021. */
  private static final double OXYGEN_KG_PER_MOL = 31.998e-3;

  private static final double NITROGEN_KG_PER_MOL = 28.014e-3;

  private static final int EXCHANGE =
      InterlockRow.bit(Switch.INERT)
          | InterlockRow.bit(Switch.VACUUM)
          | InterlockRow.bit(Switch.VENT);

  static void step(TickWork work) {
    if (work.phase == BatchState.IDLE || work.phase.isFinal()) {
      return;
    }
    if (work.believable()) {
      work.heat = work.heat.step(work);
      work.gas = gas(work);
      if (work.phase == BatchState.RUNNING) {
        work.log = work.log.step(work);
      }
    }
    work.tally = tally(work);
  }

  static Estimate oxygenPerUnit(TickWork work) {
    return work.composition.now(work.gas);
  }

  private static GasAccount gas(TickWork work) {
    Outputs before = work.outputsBefore;
    double pressurePa = work.pressurePa();
    GasView view =
        new GasView(
            pressurePa,
            work.heatOfGas(),
            work.plan.gaugeNoisePa(),
            work.leak.molPerS(pressurePa, work.roomPa()),
            work.leak.uncertaintyMolPerS(pressurePa, work.roomPa()),
            before.isOn(Switch.OXYGEN) ? flow(work.gas.source(), work) : 0,
            before.isOn(Switch.INERT) ? flow(work.plan.rig().inert(), work) : 0,
            before.isOn(Switch.PUMP) && before.isOn(Switch.VACUUM),
            before.isOn(Switch.VENT),
            work.tickS);
    return GasSigns.isDoubted(work)
        ? work.gas.doubted(view, flow(work.gas.source(), work), capacityMol(work), work)
        : work.gas.step(window(before, OpenVessel.isSaidOpen(work)), view, work);
  }

  /** Oxygen that the whole charge can take up until its target, in mol. */
  private static double capacityMol(TickWork work) {
    return work.composition.amountMol() * work.recipe().target().oxygenPerUnit() / 2;
  }

  /** Flow into the vessel by the rig file's conductance, in mol/s. */
  private static double flow(GasSource source, TickWork work) {
    double x = source.oxygenFraction();
    double kgPerMol = x * OXYGEN_KG_PER_MOL + (1 - x) * NITROGEN_KG_PER_MOL;
    return new Iso6358(source.sonicConductance(), source.criticalRatio())
        .molPerS(source.supplyPressurePa(), work.roomK(), work.pressurePa(), kgPerMol);
  }

  /** How fast the oxygen valve raises the vessel's pressure now, by the rig file, in Pa/s. */
  static double oxygenPaPerS(TickWork work) {
    return paPerS(work.gas.source(), work);
  }

  /** The same of the inert valve. */
  static double inertPaPerS(TickWork work) {
    return paPerS(work.plan.rig().inert(), work);
  }

  private static double paPerS(GasSource source, TickWork work) {
    return flow(source, work) * TwoZoneVolume.GAS_CONSTANT / work.volumeOverTemperature();
  }

  private static GasAccount.Window window(Outputs outputs, boolean saidOpen) {
    if (saidOpen || (outputs.switches() & EXCHANGE) != 0) {
      return GasAccount.Window.EXCHANGING;
    }
    return outputs.isOn(Switch.OXYGEN) ? GasAccount.Window.ADMITTING : GasAccount.Window.RESTING;
  }

  private static Tally tally(TickWork work) {
    Tally t = work.tally;
    boolean running = work.phase == BatchState.RUNNING;
    boolean heating = running && work.regulator.active();
    double sampleK = work.readings.valueOr(Channel.SAMPLE_TEMPERATURE, 0);
    return new Tally(
        t.runningS() + (running ? work.tickS : 0),
        t.ovenS() + (heating ? work.tickS : 0),
        t.equivalentS() + equivalentS(sampleK, work),
        t.peaks()
            .with(
                sampleK,
                work.readings.valueOr(Channel.OVEN_TEMPERATURE, 0),
                work.readings.valueOr(Channel.VESSEL_PRESSURE, 0)),
        t.trips(),
        t.alarms());
  }

  /** t exp(-Ea/R (1/T - 1/Tref)), Tref the recipe's highest soak: time there that does the same. */
  private static double equivalentS(double sampleK, TickWork work) {
    if (sampleK <= 0 || work.plan.equivalent() == null) {
      return 0;
    }
    return work.tickS * work.plan.equivalent().factor(sampleK);
  }
}
