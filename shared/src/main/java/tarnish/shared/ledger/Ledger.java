package tarnish.shared.ledger;

import java.util.List;
import java.util.Optional;
import tarnish.shared.chemistry.AtomicWeights;
import tarnish.shared.chemistry.Formula;
import tarnish.shared.estimate.Estimate;
import tarnish.shared.estimate.JointEstimate;
import tarnish.shared.estimate.Witnesses;

/**
 * Follows composition and amount of a solid through uptake, weighings, losses and additions.
 *
 * <p>With the molar mass M of the charge and M_O of oxygen, a reference mass m_ref at the oxygen
 * content x_ref stands for n formula units, and a later mass m of all of them for the content x:
 *
 * <pre>
 *   n = m_ref / (M + x_ref M_O)
 *   x = ((m/m_ref) (M + x_ref M_O) - M) / M_O
 * </pre>
 *
 * A loss or sample takes m_ref down in proportion, so n falls and no x changes. Only the ratio of
 * two masses enters x: a balance that is wrong by a factor does no harm.
 *
 * <p>At a weighing the best x joins gas and mass; both lean on x_ref, and that is taken into
 * account. A weighing supersedes the one before, since both compare with the same reference mass.
 */
public final class Ledger {
  private static final double OXYGEN_KG_PER_MOL = AtomicWeights.of("O").value() * 1e-3;

  private final double chargeKgPerMol;
  private double atS;
  private Estimate referenceKg;
  private Estimate referenceOxygen;
  private GasGain sinceReference = GasGain.NONE;
  private boolean gasSeen;
  private Estimate lastBest;
  private GasGain sinceBest = GasGain.NONE;
  private Optional<Estimate> byMass = Optional.empty();
  private Optional<Witnesses> witnesses = Optional.empty();

  private Ledger(Formula charge, Estimate chargeKg) {
    if (!(chargeKg.value() > 0)) {
      throw new IllegalArgumentException(
          "the mass of the charge must be above 0 kg, got " + chargeKg.value());
    }
    chargeKgPerMol = charge.molarMassKgPerMol().value();
    referenceKg = chargeKg;
    referenceOxygen = Estimate.exact(0);
    lastBest = referenceOxygen;
  }

  /**
   * The state after all entries.
   *
   * @param charge formula of the charge
   * @param chargeKg its mass, corrected for buoyancy
   * @throws IllegalArgumentException if entries go back in time or take out more than there is
   */
  public static LedgerState follow(Formula charge, Estimate chargeKg, List<LedgerEntry> entries) {
    Ledger ledger = new Ledger(charge, chargeKg);
    for (LedgerEntry entry : entries) {
      if (!(entry.atS() >= ledger.atS)) {
        throw new IllegalArgumentException(
            "entries follow each other in time, but "
                + entry.atS()
                + " s comes after "
                + ledger.atS
                + " s");
      }
      ledger.atS = entry.atS();
      ledger.enter(entry);
    }
    return ledger.state();
  }

  private void enter(LedgerEntry entry) {
    if (entry instanceof LedgerEntry.Uptake uptake) {
      take(uptake);
    } else if (entry instanceof LedgerEntry.Weighing weighing) {
      weigh(weighing);
    } else if (entry instanceof LedgerEntry.Loss loss) {
      remove(loss.massKg());
    } else if (entry instanceof LedgerEntry.SampleTaken sample) {
      remove(sample.massKg());
    } else if (entry instanceof LedgerEntry.Transfer transfer) {
      remove(transfer.leftBehindKg());
    } else if (entry instanceof LedgerEntry.Addition addition) {
      add(addition);
    } else if (entry instanceof LedgerEntry.VesselChange) {
      sinceReference = sinceReference.closed();
      sinceBest = sinceBest.closed();
    }
    // A change of source and a remark stand in the record and change nothing here.
  }

  private void take(LedgerEntry.Uptake uptake) {
    Estimate units = unitsMol();
    double perMol = 2 / units.value();
    double gained = uptake.oxygenMol().value() * perMol;
    double random = uptake.oxygenMol().standardUncertainty() * perMol;
    double common =
        gained
            * StrictMath.hypot(
                uptake.systematicRelative(), units.standardUncertainty() / units.value());
    sinceReference = sinceReference.plus(gained, random, common);
    sinceBest = sinceBest.plus(gained, random, common);
    gasSeen = true;
  }

  private void weigh(LedgerEntry.Weighing weighing) {
    if (weighing.meaning() == LedgerEntry.Meaning.AMOUNT) {
      Estimate oxygen = oxygen();
      referenceKg = weighing.massKg();
      referenceOxygen = oxygen;
      settle(oxygen);
      sinceReference = GasGain.NONE;
      gasSeen = false;
      return;
    }
    Estimate mass = weighing.massKg();
    double ratio = mass.value() / referenceKg.value();
    double unitKg = kgPerMol(referenceOxygen.value());
    double oxygen = (ratio * unitKg - chargeKgPerMol) / OXYGEN_KG_PER_MOL;
    double relative = StrictMath.hypot(relative(mass), relative(referenceKg));
    double own = ratio * unitKg / OXYGEN_KG_PER_MOL * relative;
    double shared = referenceOxygen.standardUncertainty();
    Estimate massAlone = new Estimate(oxygen, StrictMath.hypot(own, ratio * shared));
    byMass = Optional.of(massAlone);
    witnesses = Optional.empty();
    if (!gasSeen) {
      settle(massAlone);
      return;
    }
    double gasVariance = shared * shared + sinceReference.variance();
    double both = ratio * shared * shared;
    double massVariance = own * own + ratio * ratio * shared * shared;
    Witnesses joined =
        Witnesses.join(
            JointEstimate.of(
                new double[] {referenceOxygen.value() + sinceReference.value(), oxygen},
                new double[][] {{gasVariance, both}, {both, massVariance}}));
    witnesses = Optional.of(joined);
    // Witnesses that contradict each other are both doubted: widened by √χ² (one degree of
    // freedom).
    double widened = joined.agree() ? 1 : StrictMath.sqrt(joined.chiSquare());
    Estimate best = joined.joined();
    settle(new Estimate(best.value(), best.standardUncertainty() * widened));
  }

  private void settle(Estimate best) {
    lastBest = best;
    sinceBest = GasGain.NONE;
  }

  private void remove(Estimate partKg) {
    double present = massKg().value();
    if (!(partKg.value() < present)) {
      throw new IllegalArgumentException(
          "there are " + present + " kg of solid; " + partKg.value() + " kg cannot leave it");
    }
    double kept = 1 - partKg.value() / present;
    double keptUncertainty = partKg.standardUncertainty() / present;
    referenceKg =
        new Estimate(
            referenceKg.value() * kept,
            StrictMath.hypot(
                referenceKg.standardUncertainty() * kept, referenceKg.value() * keptUncertainty));
  }

  private void add(LedgerEntry.Addition addition) {
    Estimate more = addition.oxygenPerUnit();
    double before = unitsMol().value();
    double added = addition.massKg().value() / kgPerMol(more.value());
    double share = before / (before + added);
    // The share itself is uncertain, which matters only as far as the compositions differ.
    double shareUncertainty =
        added == 0
            ? 0
            : share
                * (1 - share)
                * StrictMath.hypot(relative(addition.massKg()), relative(referenceKg));
    referenceOxygen = mixed(referenceOxygen, more, share, shareUncertainty);
    lastBest = mixed(lastBest, more, share, shareUncertainty);
    sinceReference = sinceReference.scaled(share);
    sinceBest = sinceBest.scaled(share);
    referenceKg = referenceKg.plusIndependent(addition.massKg());
  }

  private static Estimate mixed(Estimate old, Estimate more, double share, double uncertainty) {
    double byShare = (old.value() - more.value()) * uncertainty;
    return old.times(share)
        .plusIndependent(more.times(1 - share))
        .plusIndependent(new Estimate(0, StrictMath.abs(byShare)));
  }

  private LedgerState state() {
    return new LedgerState(
        atS,
        unitsMol(),
        massKg(),
        oxygen(),
        gasSeen ? Optional.of(sinceReference.from(referenceOxygen)) : Optional.empty(),
        byMass,
        witnesses);
  }

  private Estimate oxygen() {
    return sinceBest.from(lastBest);
  }

  private Estimate unitsMol() {
    double unitKg = kgPerMol(referenceOxygen.value());
    double byOxygen = OXYGEN_KG_PER_MOL * referenceOxygen.standardUncertainty() / unitKg;
    double units = referenceKg.value() / unitKg;
    return new Estimate(units, units * StrictMath.hypot(relative(referenceKg), byOxygen));
  }

  private Estimate massKg() {
    Estimate units = unitsMol();
    Estimate oxygen = oxygen();
    double unitKg = kgPerMol(oxygen.value());
    return new Estimate(
        units.value() * unitKg,
        StrictMath.hypot(
            units.standardUncertainty() * unitKg,
            units.value() * OXYGEN_KG_PER_MOL * oxygen.standardUncertainty()));
  }

  private double kgPerMol(double oxygenPerUnit) {
    return chargeKgPerMol + oxygenPerUnit * OXYGEN_KG_PER_MOL;
  }

  private static double relative(Estimate estimate) {
    return estimate.standardUncertainty() / estimate.value();
  }
}
