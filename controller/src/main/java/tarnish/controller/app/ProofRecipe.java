package tarnish.controller.app;

import java.util.Locale;
import java.util.Optional;
import tarnish.controller.files.RecipeReader;
import tarnish.shared.quantity.Quantities;
import tarnish.shared.quantity.Unit;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.Limits;
import tarnish.shared.rig.RigDescription;

/** The invented recipe of a proof test, within the limits of the rig. */
final class ProofRecipe {
  /** So far stays the course below a limit, in K and Pa. */
  private static final double BELOW_K = 30;

  private static final double OVER_ROOM_PA = 3500;
  private static final double KELVIN = 273.15;

  private final RigDescription rig;
  private final int soakC;

  /**
   * @param rig whose limits it keeps
   * @param soakC wished temperature of its soak, in °C
   */
  ProofRecipe(RigDescription rig, int soakC) {
    this.rig = rig;
    this.soakC = Math.min(soakC, hottestC());
  }

  private int hottestC() {
    return (int) (rig.unattended().sampleMaxK() - KELVIN - BELOW_K);
  }

  Recipe of(ProofTrial.Course course) {
    String text =
        """
        recipe: Proof test
        invented: yes
        charge: {formula: Cu, mass: 4.000 g ± 1 mg}
        series: [Cu, Cu2O, CuO]
        target: CuO
        reaction enthalpy: -312 kJ/mol
        """
            + "vessel: "
            + rig.vessel().name()
            + "\noxygen source: "
            + rig.oxygen().name()
            + "\nsteps:\n"
            + steps(course);
    RigDescription against = course == ProofTrial.Course.OVERPRESSURE ? roomy(rig) : rig;
    return LoadedFiles.value(RecipeReader.read("proof test", text, Optional.of(against)));
  }

  /** The rig with pressure limits that let its vent be tried. */
  static RigDescription roomy(RigDescription rig) {
    return rig.withLimits(roomy(rig.attended(), rig), roomy(rig.unattended(), rig));
  }

  private static Limits roomy(Limits l, RigDescription rig) {
    double pressurePa = Math.max(l.pressureMaxPa(), rig.roomPressurePa() + 3 * OVER_ROOM_PA);
    return ProofBench.limits(l, l.sampleMaxK(), l.ovenMaxK(), l.sealMaxK(), pressurePa);
  }

  private String steps(ProofTrial.Course course) {
    return switch (course) {
      case OVERPRESSURE -> overpressure();
      case UNFILLED ->
          """
            - evacuate: {to: 1 mbar}
            - ramp: {to: 35 °C, rate: 0.5 K/min, hold: 900 mbar}
          """;
      case HEATED, ALONE -> heated(3, soakC);
      case STAGED -> staged();
    };
  }

  /** The lag of the sample is learnt in one ramp, and looked at again in another. */
  private String staged() {
    return String.format(
        Locale.ROOT,
        """
          - evacuate: {to: 1 mbar}
          - ramp: {to: 90 °C, rate: 3 K/min}
          - soak: {at: 90 °C, for: 40 min, band: 3 K}
          - ramp: {to: %d °C, rate: 3 K/min}
        """,
        hottestC());
  }

  private String overpressure() {
    double toPa = rig.roomPressurePa() + OVER_ROOM_PA;
    return "  - backfill: {with: inert, to: "
        + Quantities.print(toPa, Unit.MILLIBAR, 0)
        + ", evacuate to: 5 mbar, who: attended}\n"
        + "  - open: {below: 60 °C, purge cycles: 1, purge to: 900 mbar, evacuate to: 5 mbar}\n";
  }

  private String heated(double wishedKPerMin, int toC) {
    double rate = Math.min(wishedKPerMin, rig.unattended().rampMaxKPerS() * 60);
    double pulsePa = Math.min(1500, rig.unattended().pulseMaxPa());
    return String.format(
        Locale.ROOT,
        """
          - evacuate: {to: 1 mbar, time limit: 1 min}
          - backfill: {with: inert, to: 500 mbar, evacuate to: 5 mbar}
          - evacuate: {to: 1 mbar, time limit: 2 min}
          - leak test: {settle: 1 min, watch: 3 min, rise at most: 0.1 mbar/min}
          - dose: {pulse: %.0f mbar, to: 250 mbar, at most: 100 pulses, heat settled: 1 K, uptake slowed: 1 mbar/min, wait: 20 s to 20 min}
          - ramp: {to: %d °C, rate: %.2f K/min, hold: 400 mbar}
          - soak: {at: %d °C, for: 3 h, band: 3 K, hold: 400 mbar}
        """,
        Math.floor(pulsePa / 100),
        toC,
        Math.floor(rate * 100 + 1e-6) / 100,
        toC);
  }
}
