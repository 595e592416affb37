package tarnish.controller.control;

import tarnish.shared.estimate.Estimate;
import tarnish.shared.gas.TwoZoneVolume;
import tarnish.shared.rig.GasSource;

/** What happened to the solid, the vessel and the gas source, as told by a person. */
final class Ledger {
  private Ledger() {}

  private static final double SUPPLY_MAX_PA = 2e6;
  private static final double VOLUME_MAX_M3 = 0.1;

  /** Further apart than this many standard uncertainties the witnesses disagree. */
  private static final double DISAGREE = 3;

  /** Further apart than this a weighing is recorded and not joined. */
  private static final double ABSURD = 6;

  /** Swept up or taken solid is known to this, relative: common practice. */
  private static final double SWEPT_UNCERTAINTY = 0.05;

  static boolean takes(Request request) {
    return request instanceof Request.Loss
        || request instanceof Request.Transfer
        || request instanceof Request.VesselChange
        || request instanceof Request.SourceChange
        || request instanceof Request.Addition
        || request instanceof Request.SampleTaken;
  }

  /** Enters a line or refuses it with a reason. */
  static void enter(Request request, TickWork work) {
    String refusal = refusal(request, work);
    if (!refusal.isEmpty()) {
      work.event(new Event.RequestRefused(request.by(), "ledger", refusal));
      return;
    }
    String what =
        request instanceof Request.VesselChange change
            ? vessel(change, work)
            : request instanceof Request.SourceChange change
                ? source(change, work)
                : solid(request, work);
    work.event(new Event.LedgerEntered(request.by(), what, Accounts.oxygenPerUnit(work)));
  }

  private static String solid(Request request, TickWork work) {
    Composition c = work.composition;
    if (request instanceof Request.Loss loss) {
      if (loss.leftKg() > 0) {
        work.composition = c.rescaledTo(loss.leftKg(), work.gas);
        return "solid lost, " + mass(loss.leftKg(), work) + " left. " + loss.remark();
      }
      work.composition =
          c.reducedBy(loss.lostKg(), SWEPT_UNCERTAINTY * loss.lostKg() + balanceKg(work), work.gas);
      return "solid lost, about " + mass(loss.lostKg(), work) + ". " + loss.remark();
    }
    if (request instanceof Request.Transfer transfer) {
      work.composition = c.rescaledTo(transfer.arrivedKg(), work.gas);
      return "solid moved, " + mass(transfer.arrivedKg(), work) + " arrived. " + transfer.remark();
    }
    if (request instanceof Request.Addition addition) {
      work.composition = c.increasedBy(addition.addedKg(), balanceKg(work), work.gas);
      return "fresh charge added, " + mass(addition.addedKg(), work) + ". " + addition.remark();
    }
    Request.SampleTaken taken = (Request.SampleTaken) request;
    work.composition = c.reducedBy(taken.takenKg(), balanceKg(work), work.gas);
    return "sample taken, " + mass(taken.takenKg(), work) + ". " + taken.remark();
  }

  private static String vessel(Request.VesselChange change, TickWork work) {
    work.composition = work.composition.inVessel(work.gas);
    work.gas =
        work.gas.inVessel(
            work.gas
                .model()
                .withVolume(
                    new TwoZoneVolume(change.hotM3(), change.coldM3()),
                    change.hotUncertaintyM3(),
                    change.coldUncertaintyM3()));
    return "another vessel, gas space "
        + volume(change.hotM3())
        + " hot and "
        + volume(change.coldM3())
        + " cold. "
        + change.remark();
  }

  private static String source(Request.SourceChange change, TickWork work) {
    GasSource now = work.gas.source();
    work.gas =
        work.gas.withSource(
            new GasSource(
                now.name(),
                change.oxygenFraction(),
                change.uncertainty(),
                change.supplyPa(),
                now.sonicConductance(),
                now.criticalRatio()),
            work.heat.balance());
    return "another oxygen source, "
        + Words.percent(new Estimate(change.oxygenFraction(), change.uncertainty()))
        + " oxygen at "
        + Words.pressure(change.supplyPa())
        + ". "
        + change.remark();
  }

  private static String refusal(Request request, TickWork work) {
    if (work.phase == BatchState.IDLE || work.phase.isFinal()) {
      return "No batch is running.";
    }
    if (request instanceof Request.SourceChange change) {
      boolean sound =
          change.oxygenFraction() > 0
              && change.oxygenFraction() <= 1
              && change.uncertainty() >= 0
              && change.uncertainty() < 0.5
              && change.supplyPa() > 0
              && change.supplyPa() < SUPPLY_MAX_PA;
      return sound ? "" : "The fraction must be above 0 and at most 1, the pressure up to 20 bar.";
    }
    if (request instanceof Request.VesselChange change) {
      return vesselRefusal(change, work);
    }
    return massRefusal(request, work);
  }

  private static String vesselRefusal(Request.VesselChange change, TickWork work) {
    double sampleK =
        work.readings.valueOr(tarnish.shared.reading.Channel.SAMPLE_TEMPERATURE, Double.MAX_VALUE);
    if (!(sampleK <= Control.COOL_ENOUGH_K)) {
      return "A vessel is changed cold: the sample must be below "
          + Words.temperature(Control.COOL_ENOUGH_K)
          + ".";
    }
    boolean sound =
        change.hotM3() > 0
            && change.hotM3() < VOLUME_MAX_M3
            && change.coldM3() >= 0
            && change.coldM3() < VOLUME_MAX_M3
            && change.hotUncertaintyM3() >= 0
            && change.hotUncertaintyM3() <= change.hotM3()
            && change.coldUncertaintyM3() >= 0
            && change.coldUncertaintyM3() <= VOLUME_MAX_M3;
    return sound ? "" : "Its hot volume must be above 0 and both volumes below 100 L.";
  }

  private static String massRefusal(Request request, TickWork work) {
    double thereKg = work.composition.massKg(work.gas);
    if (request instanceof Request.Addition addition) {
      return addition.addedKg() > 0 && addition.addedKg() < 10 * thereKg
          ? ""
          : "The mass added must be above 0 and below ten times the solid.";
    }
    double gone =
        request instanceof Request.Loss loss
            ? loss.leftKg() > 0 ? thereKg - loss.leftKg() : loss.lostKg()
            : request instanceof Request.Transfer transfer
                ? thereKg - transfer.arrivedKg()
                : ((Request.SampleTaken) request).takenKg();
    // A little more than was there is the balance's error, much more is a slip of the hand.
    boolean sound = gone < 0.999 * thereKg && gone > -0.1 * thereKg;
    boolean told =
        !(request instanceof Request.Loss loss) || (loss.leftKg() > 0) != (loss.lostKg() > 0);
    return sound && told
        ? ""
        : "About "
            + mass(thereKg, work)
            + " are in the vessel; say what is left or what is gone of it.";
  }

  private static double balanceKg(TickWork work) {
    return work.plan.rig().balanceStandardUncertaintyKg();
  }

  private static String mass(double massKg, TickWork work) {
    return Words.mass(new Estimate(massKg, balanceKg(work)));
  }

  private static String volume(double m3) {
    return tarnish.shared.quantity.Quantities.print(m3, tarnish.shared.quantity.Unit.MILLILITRE, 1);
  }

  static void weigh(double massKg, TickWork work) {
    Estimate inAir = WeighedInAir.corrected(massKg, work);
    Composition.Weighing weighing =
        work.composition.weighed(inAir.value(), inAir.standardUncertainty(), work.gas);
    // Joined with a mass that belongs to something else, the gas account would only get worse.
    boolean joins = StrictMath.abs(weighing.deviations()) <= ABSURD;
    if (joins) {
      work.composition = weighing.after();
    }
    work.event(
        new Event.Weighed(new Estimate(massKg, balanceKg(work)), Accounts.oxygenPerUnit(work)));
    if (StrictMath.abs(weighing.deviations()) > DISAGREE) {
      work.event(disagreement(weighing, work));
    }
    heatAgainstGas(work);
  }

  /** The third witness: what it cannot be explained with is told, too. */
  private static void heatAgainstGas(TickWork work) {
    Report report = new Report(work.plan, work.state());
    if (!report.heatIsWitness()) {
      return;
    }
    Estimate byGas = report.uptakeMol();
    Estimate byHeat = report.uptakeByHeatMol();
    double u = StrictMath.hypot(byGas.standardUncertainty(), byHeat.standardUncertainty());
    double deviations = (byHeat.value() - byGas.value()) / StrictMath.max(1e-12, u);
    if (StrictMath.abs(deviations) > DISAGREE) {
      work.event(
          new Event.WitnessesDisagree(
              "Gas says "
                  + Words.amount(byGas)
                  + " of oxygen taken up, the heat of the sample "
                  + Words.amount(byHeat)
                  + ".",
              deviations,
              deviations > 0
                  ? "air that leaked in and was taken up unseen, or another reaction that gives off"
                      + " heat."
                  : "gas that left by a leak and passed for uptake, or a sample sensor that does not"
                      + " feel the sample."));
    }
  }

  private static Event disagreement(Composition.Weighing weighing, TickWork work) {
    Estimate byGas = weighing.byGas();
    Estimate byMass = weighing.byMass();
    String what =
        "Gas says "
            + Words.estimate(byGas)
            + " O per formula unit, the balance "
            + Words.estimate(byMass)
            + (StrictMath.abs(weighing.deviations()) > ABSURD
                ? "; the weighing is kept but not joined."
                : ".");
    double targetPerUnit = work.recipe().target().oxygenPerUnit();
    String likely =
        weighing.deviations() < 0
            ? byMass.value() < -0.02 * targetPerUnit
                ? "solid was lost and not entered, or the solid evaporates."
                : "a loss not entered, a leak out of the vessel while above room pressure, or a"
                    + " stated volume that is too large."
            : byMass.value() > 1.05 * targetPerUnit
                ? "something else was weighed too (water taken up in air, a part of the boat), or"
                    + " an addition was not entered."
                : "air leaked in and was taken up unseen, uptake went on during pulses, or a stated"
                    + " volume is too small.";
    return new Event.WitnessesDisagree(what, weighing.deviations(), likely);
  }
}
