package tarnish.controller.control;

/**
 * Uptake over time, sampled once a minute in the present soak, and what uptake did before: enough
 * to fit a rate law and to say why uptake stopped. Bounded: when it is full every second point goes
 * and the spacing doubles. Immutable: arrays are never changed after construction.
 *
 * @param position of the soak in the program, -1 before the first
 * @param soakS time in its band at each point, in s
 * @param uptakeMol account's uptake at each point
 * @param everyS spacing
 * @param window the last half hour, whatever the soak
 * @param course what uptake did since the vessel was last open
 */
record UptakeLog(
    int position, double[] soakS, double[] uptakeMol, double everyS, Window window, Course course) {
  private static final int CAPACITY = 120;
  private static final double FIRST_SPACING_S = 60;
  private static final double[] NONE = {};

  static final UptakeLog EMPTY =
      new UptakeLog(-1, NONE, NONE, FIRST_SPACING_S, Window.EMPTY, Course.EMPTY);

  /**
   * A sliding span of uptake and gas, one point a minute.
   *
   * @param nextS time of batch at which the next point is due
   * @param timeS of the points
   * @param uptakeMol uptake at the points
   * @param pulses pulses given until each point
   */
  record Window(double nextS, double[] timeS, double[] uptakeMol, int[] pulses) {
    static final Window EMPTY = new Window(0, NONE, NONE, new int[0]);
    private static final int POINTS = 31;

    Window with(double nowS, double mol, int pulsesNow) {
      int from = timeS.length == POINTS ? 1 : 0;
      int n = timeS.length - from;
      double[] t = new double[n + 1];
      double[] u = new double[n + 1];
      int[] p = new int[n + 1];
      System.arraycopy(timeS, from, t, 0, n);
      System.arraycopy(uptakeMol, from, u, 0, n);
      System.arraycopy(pulses, from, p, 0, n);
      t[n] = nowS;
      u[n] = mol;
      p[n] = pulsesNow;
      return new Window(nowS + FIRST_SPACING_S, t, u, p);
    }

    boolean isFull() {
      return timeS.length == POINTS;
    }

    /** Rate over the last {@code points} spans, in mol/s. */
    double rateMolPerS(int points) {
      int last = timeS.length - 1;
      int first = StrictMath.max(0, last - points);
      return last > first ? (uptakeMol[last] - uptakeMol[first]) / (timeS[last] - timeS[first]) : 0;
    }

    double rateMolPerS() {
      return rateMolPerS(POINTS);
    }

    double spanS() {
      return timeS.length < 2 ? 0 : timeS[timeS.length - 1] - timeS[0];
    }

    int pulsesGiven() {
      return pulses.length < 2 ? 0 : pulses[pulses.length - 1] - pulses[0];
    }
  }

  /**
   * What uptake did since the vessel was last open. While the temperature moves the amount of gas
   * is less sure, so most of this is watched in calm only.
   *
   * @param startMol uptake when the vessel was closed
   * @param peakMolPerS fastest ten minutes
   * @param peakK sample temperature then
   * @param takingK sample temperature when uptake was last clearly seen in calm
   * @param backMol gas that appeared in calm: oxygen given back, or a leak
   * @param backK sample temperature when it began to
   * @param heatedBackMol gas that appeared while it was heated, in excess of what came back
   * @param steepestFall largest fall of the rate in calm from one ten minutes to the next, as a
   *     share of the rate before
   * @param calmMinutes since the temperature last moved
   * @param lastK sample temperature a minute ago
   */
  record Course(
      double startMol,
      double peakMolPerS,
      double peakK,
      double takingK,
      double backMol,
      double backK,
      double heatedBackMol,
      double steepestFall,
      int calmMinutes,
      double lastK) {
    static final Course EMPTY = closedAt(0);

    private static final int TEN = 10;
    private static final double MOVING_K_PER_MINUTE = 0.3;

    static Course closedAt(double uptakeMol) {
      return new Course(uptakeMol, 0, 0, 0, 0, 0, 0, 0, 0, 0);
    }

    Course with(Window window, double sampleK, double noiseMol) {
      boolean moved = StrictMath.abs(sampleK - lastK) > MOVING_K_PER_MINUTE;
      int calm = moved ? 0 : calmMinutes + 1;
      int n = window.timeS().length;
      if (n <= 2 * TEN) {
        return new Course(
            startMol,
            peakMolPerS,
            peakK,
            takingK,
            backMol,
            backK,
            heatedBackMol,
            steepestFall,
            calm,
            sampleK);
      }
      boolean isCalm = calm > 2 * TEN;
      double clear = 4 * noiseMol / (TEN * FIRST_SPACING_S);
      double now = window.rateMolPerS(TEN);
      double before =
          (window.uptakeMol()[n - 1 - TEN] - window.uptakeMol()[n - 1 - 2 * TEN])
              / (window.timeS()[n - 1 - TEN] - window.timeS()[n - 1 - 2 * TEN]);
      double last = window.uptakeMol()[n - 1] - window.uptakeMol()[n - 2];
      boolean back = now < -clear;
      boolean faster = now > peakMolPerS;
      double fall = isCalm && before > 2 * clear ? 1 - now / before : 0;
      // In calm the books start anew: only what stays away counts as given back on heating.
      double heated = isCalm ? heatedBackMol : StrictMath.max(0, heatedBackMol - last);
      return new Course(
          startMol,
          faster ? now : peakMolPerS,
          faster ? sampleK : peakK,
          isCalm && now > 2 * clear ? sampleK : takingK,
          backMol + (isCalm && back ? StrictMath.max(0, -last) : 0),
          isCalm && back && backMol == 0 ? sampleK : backK,
          heated,
          StrictMath.max(fall, steepestFall),
          calm,
          sampleK);
    }
  }

  /** After a tick of a running batch. */
  UptakeLog step(TickWork work) {
    double nowS = work.lastMillis / 1000.0;
    UptakeLog next = this;
    if (work.run instanceof OpenRun) {
      return new UptakeLog(
          -1, NONE, NONE, FIRST_SPACING_S, Window.EMPTY, Course.closedAt(work.gas.uptakeMol()));
    }
    if (nowS >= window.nextS() && work.gas.rateIsKnown()) {
      Window moved = window.with(nowS, work.gas.uptakeMol(), work.gas.pulses());
      double noise = 3 * StrictMath.sqrt(work.gas.stepVariance());
      next =
          new UptakeLog(
              position, soakS, uptakeMol, everyS, moved, course.with(moved, work.sampleK(), noise));
    }
    return work.run instanceof SoakRun soaking && work.gas.rateIsKnown()
        ? next.soaked(work.cursor.position(), soaking.inBandS(), work.gas)
        : next;
  }

  private UptakeLog soaked(int at, double inBandS, GasAccount gas) {
    if (at != position || (soakS.length > 0 && inBandS < soakS[soakS.length - 1])) {
      return new UptakeLog(at, NONE, NONE, FIRST_SPACING_S, window, course);
    }
    double lastS = soakS.length == 0 ? -everyS : soakS[soakS.length - 1];
    if (inBandS < lastS + everyS || inBandS == 0) {
      return this;
    }
    double mol = gas.uptakeMol();
    return soakS.length < CAPACITY ? with(inBandS, mol) : thinned().with(inBandS, mol);
  }

  private UptakeLog with(double inBandS, double mol) {
    int n = soakS.length;
    double[] t = java.util.Arrays.copyOf(soakS, n + 1);
    double[] u = java.util.Arrays.copyOf(uptakeMol, n + 1);
    t[n] = inBandS;
    u[n] = mol;
    return new UptakeLog(position, t, u, everyS, window, course);
  }

  private UptakeLog thinned() {
    int n = soakS.length / 2;
    double[] t = new double[n];
    double[] u = new double[n];
    for (int i = 0; i < n; i++) {
      t[i] = soakS[2 * i + 1];
      u[i] = uptakeMol[2 * i + 1];
    }
    return new UptakeLog(position, t, u, 2 * everyS, window, course);
  }
}
