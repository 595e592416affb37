package tarnish.shared.ledger;

import tarnish.shared.estimate.Estimate;

/**
 * Something that happened to the solid or its surroundings. {@code atS} is the time since the batch
 * began, in s; entries follow each other in time.
 */
public sealed interface LedgerEntry {
  double atS();

  /**
   * The whole solid was weighed.
   *
   * @param massKg corrected for buoyancy, with its random uncertainty
   * @param meaning what the mass tells
   */
  record Weighing(double atS, Estimate massKg, Meaning meaning) implements LedgerEntry {
    public Weighing {
      if (!(massKg.value() > 0) || !(massKg.standardUncertainty() > 0)) {
        throw new IllegalArgumentException(
            "a weighing needs a mass and an uncertainty above 0 kg, got " + massKg);
      }
    }
  }

  /** What a weighing tells. */
  enum Meaning {
    /** All of the solid is there: the gain since the reference mass is oxygen. */
    COMPOSITION,
    /**
     * An unknown part is missing, the composition is that of before: the mass is a new reference.
     */
    AMOUNT
  }

  /** Solid was spilled, dusted away or left behind, at the composition of that moment. */
  record Loss(double atS, Estimate massKg) implements LedgerEntry {
    public Loss {
      PartCheck.check("a loss", massKg);
    }
  }

  /**
   * The solid was moved into another boat or vessel.
   *
   * @param to where
   * @param leftBehindKg 0 if all of it went over
   */
  record Transfer(double atS, String to, Estimate leftBehindKg) implements LedgerEntry {
    public Transfer {
      PartCheck.check("what is left behind", leftBehindKg);
    }
  }

  /**
   * Another vessel: its volumes, and with them the systematic error of the gas account, are new.
   */
  record VesselChange(double atS, String to) implements LedgerEntry {}

  /**
   * Another source of oxygen.
   *
   * @param oxygenFraction amount fraction of O₂ from then on
   */
  record SourceChange(double atS, String to, Estimate oxygenFraction) implements LedgerEntry {
    public SourceChange {
      if (!(oxygenFraction.value() >= 0 && oxygenFraction.value() <= 1)) {
        throw new IllegalArgumentException(
            "an oxygen fraction lies between 0 and 1, got " + oxygenFraction.value());
      }
    }
  }

  /**
   * Solid was added.
   *
   * @param massKg of what was added
   * @param oxygenPerUnit its oxygen gained per formula unit of the charge; 0 for fresh charge
   */
  record Addition(double atS, Estimate massKg, Estimate oxygenPerUnit) implements LedgerEntry {
    public Addition {
      PartCheck.check("an addition", massKg);
    }
  }

  /** A sample was taken out, at the composition of that moment. */
  record SampleTaken(double atS, Estimate massKg) implements LedgerEntry {
    public SampleTaken {
      PartCheck.check("a sample", massKg);
    }
  }

  /**
   * Oxygen that the gas account says was taken up since its last entry.
   *
   * @param oxygenMol O₂ in mol, with the random part of its uncertainty
   * @param systematicRelative standard uncertainty of volumes, gauge and thermocouple as a share;
   *     it is the same for all uptake in one vessel
   */
  record Uptake(double atS, Estimate oxygenMol, double systematicRelative) implements LedgerEntry {
    public Uptake {
      if (!(systematicRelative >= 0) || Double.isInfinite(systematicRelative)) {
        throw new IllegalArgumentException(
            "a relative uncertainty is finite and at least 0, got " + systematicRelative);
      }
      if (oxygenMol.standardUncertainty() == 0 && systematicRelative == 0) {
        throw new IllegalArgumentException("an uptake of gas is never exact; give its uncertainty");
      }
    }
  }

  /** Words for the record; they change nothing. */
  record Remark(double atS, String text) implements LedgerEntry {}
}
