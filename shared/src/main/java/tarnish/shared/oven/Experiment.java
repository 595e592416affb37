package tarnish.shared.oven;

/**
 * The guided identification of an oven: rest, a step to a low temperature, a relay around it until
 * vessel and sample have followed, the same at the top temperature, and cooling with the heater
 * off.
 *
 * <p>A pure state machine: {@link #step} takes the state and the readings of a tick and gives the
 * next state, whose {@link State#duty} is to be given to the heater. It ends by itself, done or
 * aborted with a reason, and then asks for no heat.
 *
 * @param dutyMax duty of a step and of the relay while it is on, above 0, at most 1
 * @param riseK how far the top temperature lies above the room
 * @param ovenMaxK oven temperature that aborts, in K
 * @param sampleMaxK sample temperature that aborts, in K
 */
public record Experiment(double dutyMax, double riseK, double ovenMaxK, double sampleMaxK) {
  /** Rest before anything is switched, in s. */
  public static final double REST_S = 300;

  private static final double LOW_SHARE = 0.35;
  private static final double RELAY_S = 3600;
  private static final double COOL_S = 3600;
  private static final double HYSTERESIS_K = 0.5;

  /** Longest time for a step to its temperature: an oven that needs more has a weak heater. */
  private static final double STEP_MAX_S = 3 * 3600;

  /** An oven that rises by less than this in the time below has a dead heater. */
  private static final double DEAD_RISE_K = 5;

  private static final double DEAD_AFTER_S = 900;
  private static final double REST_SPREAD_K = 6;
  private static final double REST_DRIFT_K = 1;

  public Experiment {
    if (!(dutyMax > 0 && dutyMax <= 1)) {
      throw new IllegalArgumentException("the duty must be above 0 and at most 1, got " + dutyMax);
    }
    if (!(riseK >= 50 && riseK <= 1000)) {
      throw new IllegalArgumentException(
          "the oven must rise by 50 K to 1000 K to be known, got " + riseK + " K");
    }
    if (!(ovenMaxK > 0) || !(sampleMaxK > 0)) {
      throw new IllegalArgumentException("limits must be above 0 K");
    }
  }

  /** Where an identification stands; the words are for people. */
  public enum Stage {
    REST("at rest"),
    LOW_STEP("heating to the low temperature"),
    LOW_RELAY("relay around the low temperature"),
    HIGH_STEP("heating to the top temperature"),
    HIGH_RELAY("relay around the top temperature"),
    COOL("cooling with the heater off"),
    DONE("done"),
    ABORTED("aborted");

    private final String words;

    Stage(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }

    public boolean isFinal() {
      return this == DONE || this == ABORTED;
    }
  }

  /**
   * The state after a tick.
   *
   * @param stage where it stands
   * @param stageS time in it
   * @param totalS time since the beginning
   * @param startK oven temperature at the beginning
   * @param stageStartK oven temperature when the stage began
   * @param heating whether the heater is to be on
   * @param switchings of the relay in this stage
   * @param why it was aborted; empty otherwise
   */
  public record State(
      Stage stage,
      double stageS,
      double totalS,
      double startK,
      double stageStartK,
      boolean heating,
      int switchings,
      String why) {
    public static final State BEGIN = new State(Stage.REST, 0, 0, 0, 0, false, 0, "");

    /** Duty to be given now. */
    public double duty(Experiment experiment) {
      return heating && !stage.isFinal() ? experiment.dutyMax : 0;
    }

    State in(Stage next, double ovenK) {
      boolean heats = next == Stage.LOW_STEP || next == Stage.HIGH_STEP;
      return new State(next, 0, totalS, startK, ovenK, heats, 0, "");
    }
  }

  /** Ends an identification, with everything off. */
  public static State abort(State state, String why) {
    return state.stage().isFinal()
        ? state
        : new State(
            Stage.ABORTED,
            0,
            state.totalS(),
            state.startK(),
            state.stageStartK(),
            false,
            state.switchings(),
            why);
  }

  /**
   * One tick.
   *
   * @param ovenK a believable oven temperature: the caller aborts where there is none
   * @param sampleK a believable sample temperature
   */
  public State step(State before, double ovenK, double sampleK, double tickS) {
    if (before.stage().isFinal()) {
      return before;
    }
    if (!(ovenK < ovenMaxK) || !(sampleK < sampleMaxK)) {
      return abort(before, "The oven or the sample reached the limit of the identification.");
    }
    boolean first = before.totalS() == 0;
    State state =
        new State(
            before.stage(),
            before.stageS() + tickS,
            before.totalS() + tickS,
            first ? ovenK : before.startK(),
            first ? ovenK : before.stageStartK(),
            before.heating(),
            before.switchings(),
            "");
    return switch (state.stage()) {
      case REST -> rest(state, ovenK, sampleK);
      case LOW_STEP -> rise(state, ovenK, LOW_SHARE, Stage.LOW_RELAY);
      case LOW_RELAY -> relay(state, ovenK, LOW_SHARE, Stage.HIGH_STEP);
      case HIGH_STEP -> rise(state, ovenK, 1, Stage.HIGH_RELAY);
      case HIGH_RELAY -> relay(state, ovenK, 1, Stage.COOL);
      case COOL -> state.stageS() >= COOL_S ? state.in(Stage.DONE, ovenK) : state;
      case DONE, ABORTED -> state;
    };
  }

  private static State rest(State state, double ovenK, double sampleK) {
    if (StrictMath.abs(ovenK - state.startK()) > REST_DRIFT_K
        || StrictMath.abs(ovenK - sampleK) > REST_SPREAD_K) {
      return abort(
          state,
          "Oven and sample are not at rest at one temperature: let them cool, then try again.");
    }
    return state.stageS() >= REST_S ? state.in(Stage.LOW_STEP, ovenK) : state;
  }

  private State rise(State state, double ovenK, double share, Stage next) {
    double risenK = ovenK - state.stageStartK();
    if (state.stageS() >= DEAD_AFTER_S && risenK < DEAD_RISE_K) {
      return abort(
          state, "The oven does not get warmer: see to the heater, its fuse and its relay.");
    }
    if (state.stageS() >= STEP_MAX_S) {
      return abort(state, "The oven did not reach its temperature in 3 h: ask for a lower one.");
    }
    return ovenK >= state.startK() + share * riseK ? state.in(next, ovenK) : state;
  }

  private State relay(State state, double ovenK, double share, Stage next) {
    double offK = ovenK - (state.startK() + share * riseK);
    boolean on = state.heating() ? offK < HYSTERESIS_K : offK < -HYSTERESIS_K;
    if (state.stageS() >= RELAY_S) {
      return state.in(next, ovenK);
    }
    return new State(
        state.stage(),
        state.stageS(),
        state.totalS(),
        state.startK(),
        state.stageStartK(),
        on,
        state.switchings() + (on == state.heating() ? 0 : 1),
        "");
  }

  /** A first guess of an oven: a small tube oven. The fit needs no better one. */
  public static OvenModel guess() {
    return new OvenModel(0.5, 20, 5, 1800, 0.1, 120, 0.5, 90, 0.5, 6000, 0.08);
  }
}
