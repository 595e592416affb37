package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tarnish.shared.estimate.Estimate;

/** An opening with 1 µmol of oxygen for each K s of heat, which is known to 10 %. */
class OpenVesselTest {
  private static final Estimate MOL_PER_KS = new Estimate(1e-6, 1e-7);

  /** Of a heat with a bound of 40 K s: 9 K s at the ends, and 0.35 of the bound. */
  private static final double NOISE_MOL = 1e-6 * Math.hypot(9, 14);

  private OpenVessel vessel = OpenVessel.SHUT.step(true, 500, 40, MOL_PER_KS);

  /** Since it was opened the excess has come to this, known to that. */
  private OpenVessel heat(double excessKs, double errorKs) {
    vessel = vessel.step(true, 500 + excessKs, 40 + errorKs, MOL_PER_KS);
    return vessel;
  }

  @Test
  void whatWasThereBeforeItWasOpenedIsNotOfTheOpening() {
    assertEquals(0, vessel.mol());
    assertEquals(0, heat(0, 0).mol());
  }

  @Test
  void heatWithinItsErrorIsBookedAsNothingAndWidensTheUncertainty() {
    OpenVessel faint = heat(30, 40);
    assertEquals(0, faint.mol());
    // A tenth of the heat's noise for the scale, 30/√3 of what it may have been all the same.
    assertEquals(
        Math.hypot(Math.hypot(NOISE_MOL, NOISE_MOL / 10), 30e-6 / Math.sqrt(3)),
        faint.errorMol(),
        1e-12);
    assertFalse(faint.isClear());
  }

  @Test
  void heatFarBeyondItsErrorIsBookedInFull() {
    OpenVessel clear = heat(400, 40);
    assertEquals(400e-6, clear.mol(), 1e-12);
    // The heat's noise, 10 % of scale, 15 % of sweep and hands.
    assertEquals(Math.hypot(Math.hypot(NOISE_MOL, 40e-6), 0.15 * 400e-6), clear.errorMol(), 1e-12);
    assertTrue(clear.isClear());
  }

  @Test
  void aColdSampleGivesNothingBack() {
    assertEquals(0, heat(-300, 20).mol());
  }

  @Test
  void whatIsBookedGrowsWithTheHeatAndNeverLeaps() {
    double before = 0;
    for (double excessKs = 0; excessKs < 400; excessKs += 1) {
      double mol = heat(excessKs, 40).mol();
      assertTrue(mol >= before, "at " + excessKs + " K s");
      assertTrue(mol - before < 4e-6, "at " + excessKs + " K s it leaps by " + (mol - before));
      before = mol;
    }
  }

  @Test
  void aVesselThatIsShutBeginsAnew() {
    heat(400, 40);
    assertEquals(OpenVessel.SHUT, vessel.step(false, 900, 80, MOL_PER_KS));
  }

  @Test
  void aVesselIsSaidOpenFromTheSweepUntilAPersonSaysThatItIsClosed() {
    TickWork work = new TickByHand().at(1000);
    assertFalse(OpenVessel.isSaidOpen(work));
    work.ask(OpenQuestion.Purpose.READY_TO_OPEN, "ready?", TestSteps.open());
    assertFalse(OpenVessel.isSaidOpen(work));
    work.ask(OpenQuestion.Purpose.CLOSED_AGAIN, "closed?", TestSteps.open());
    assertTrue(OpenVessel.isSaidOpen(work));
    work.ask(OpenQuestion.Purpose.ASK, "weight?", TestSteps.ask());
    assertFalse(OpenVessel.isSaidOpen(work));
  }

  @Test
  void onlyMoreThanItsUncertaintyIsWorthTelling() {
    assertFalse(new OpenVessel(true, 0, 0, 1e-5, 1e-5).isClear());
    OpenVessel clear = new OpenVessel(true, 0, 0, 1.2e-4, 1e-5);
    assertTrue(clear.isClear());
    String amount = Words.amount(new Estimate(1.2e-4, 1e-5));
    assertTrue(clear.sentence().contains("it took up " + amount + " of oxygen"), clear.sentence());
  }
}
