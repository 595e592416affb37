package tarnish.sim;

/** Which faults are on, and how badly. */
final class FaultPanel {
  private final double[] severity = new double[Fault.COUNT];
  private final double[] sinceS = new double[Fault.COUNT];
  private final boolean[] on = new boolean[Fault.COUNT];
  private int count;

  void inject(Fault fault, double howBadly, double nowS) {
    double least = fault == Fault.OVEN_THERMOCOUPLE_DRIFT ? -1 : 0;
    if (!(howBadly >= least && howBadly <= 1)) {
      throw new IllegalArgumentException(
          fault.words() + ": severity must be from " + least + " to 1, got " + howBadly);
    }
    if (!on[fault.ordinal()]) {
      on[fault.ordinal()] = true;
      sinceS[fault.ordinal()] = nowS;
      count++;
    }
    severity[fault.ordinal()] = howBadly;
  }

  void takeFrom(FaultPanel other) {
    System.arraycopy(other.severity, 0, severity, 0, Fault.COUNT);
    System.arraycopy(other.sinceS, 0, sinceS, 0, Fault.COUNT);
    System.arraycopy(other.on, 0, on, 0, Fault.COUNT);
    count = other.count;
  }

  void clear(Fault fault) {
    if (on[fault.ordinal()]) {
      on[fault.ordinal()] = false;
      count--;
    }
    severity[fault.ordinal()] = 0;
  }

  boolean any() {
    return count > 0;
  }

  boolean isOn(Fault fault) {
    return on[fault.ordinal()];
  }

  /** 0 while the fault is off. */
  double severity(Fault fault) {
    return severity[fault.ordinal()];
  }

  double sinceS(Fault fault) {
    return sinceS[fault.ordinal()];
  }
}
