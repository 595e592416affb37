package tarnish.controller.control;

/**
 * Tops up oxygen in small pulses to keep a pressure, but never into a sample that runs ahead of the
 * oven.
 */
final class PressureKeeper {
  private PressureKeeper() {}

  /** Share of the wanted pressure that may be missing before it is topped up. */
  private static final double DEADBAND = 0.015;

  /** Shortest time between two top-ups, in s. */
  private static final double SPACING_S = 30;

  /**
   * Sample running ahead of the hotter of oven and setpoint by more than this gets no oxygen, in K.
   */
  private static final double AHEAD_MAX_K = 5;

  static void step(double wantedPa, TickWork work) {
    if (work.pulse.open() || work.pulse.sinceS() < SPACING_S) {
      return;
    }
    double missingPa = wantedPa - work.pressurePa();
    if (missingPa < DEADBAND * wantedPa || ahead(work) > AHEAD_MAX_K) {
      return;
    }
    double stepPa = StrictMath.min(missingPa, work.limits().pulseMaxPa());
    work.pulse = work.pulse.begin(work.pressurePa(), stepPa);
    work.heat = work.heat.marked();
  }

  private static double ahead(TickWork work) {
    return work.heat.sampleK() - StrictMath.max(work.heat.ovenK(), work.setpointK);
  }
}
