package tarnish.controller.app;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import tarnish.controller.control.Audit;
import tarnish.controller.control.BatchState;
import tarnish.controller.control.ControlState;
import tarnish.controller.control.Plan;
import tarnish.controller.control.Request;
import tarnish.sim.Fault;
import tarnish.sim.SimulatedRig;

/**
 * The people of a campaign: one who works as a rehearsal does and mends what trips, and fingers
 * that press anything at any time.
 */
final class CampaignOperator {
  private static final String MENDER = StandInOperator.NAME;
  private static final int TRIES_MAX = 4;
  private static final double TRY_AGAIN_S = 240;

  private final StandInOperator standIn;
  private final Audit audit;
  private final SimulatedRig bench;
  private final boolean mends;
  private final double walkS;
  private double actAtS = -1;
  private int tries;

  CampaignOperator(Plan plan, SimulatedRig bench, SplittableRandom random) {
    this.standIn = new StandInOperator(plan, bench);
    this.audit = new Audit(plan);
    this.bench = bench;
    this.mends = random.nextInt(3) > 0;
    this.walkS = random.nextDouble(30, 900);
  }

  /** Whether the person has given up on a batch that stays held. */
  boolean hasGivenUp() {
    return tries > TRIES_MAX;
  }

  List<Request> requests(ControlState state, double nowS) {
    boolean stands = state.phase() == BatchState.HELD || state.phase() == BatchState.PAUSED;
    if (!stands) {
      actAtS = -1;
      return standIn.requests(state, nowS);
    }
    if (actAtS < 0) {
      actAtS = nowS + walkS;
    }
    if (nowS < actAtS) {
      return List.of();
    }
    actAtS = nowS + TRY_AGAIN_S;
    tries++;
    return state.phase() == BatchState.HELD
        ? mend(state)
        : List.of(in(), new Request.Resume(MENDER));
  }

  private static Request in() {
    return new Request.CheckIn(MENDER, 8);
  }

  private List<Request> mend(ControlState state) {
    if (mends) {
      for (Fault fault : Fault.values()) {
        bench.clear(fault);
      }
    }
    if (tries > TRIES_MAX) {
      return List.of(new Request.Abort(MENDER));
    }
    List<Request> requests = new ArrayList<>();
    requests.add(in());
    audit.of(state);
    for (int i = 0; i < audit.rows(); i++) {
      if (audit.isActive(i)) {
        requests.add(new Request.Acknowledge(MENDER, audit.id(i)));
        requests.add(new Request.Reset(MENDER, audit.id(i), "campaign"));
      }
    }
    requests.add(new Request.Restart(MENDER));
    return requests;
  }

  /** Anything that a page can send, sensible or not. */
  Request press(long draw, ControlState state) {
    SplittableRandom random = new SplittableRandom(draw);
    String by = random.nextBoolean() ? MENDER : "Bo";
    String alarm = audit.id(random.nextInt(audit.rows()));
    String active = anyActive(state, random, alarm);
    return switch (random.nextInt(16)) {
      case 0 -> new Request.Start(by);
      case 1 -> new Request.Pause(by);
      case 2 -> new Request.Resume(by);
      case 3 -> new Request.Restart(by);
      case 4 -> random.nextInt(3) == 0 ? new Request.Stop(by) : new Request.Pause(by);
      case 5 -> random.nextInt(4) == 0 ? new Request.Abort(by) : new Request.Restart(by);
      case 6 -> new Request.Acknowledge(by, active);
      case 7 -> new Request.Reset(by, active, "pressed");
      case 8 -> new Request.Answer(by, random.nextInt(4), Map.of(), "pressed");
      case 9 -> new Request.CheckIn(by, random.nextDouble(0.02, 13));
      case 10 -> new Request.CheckOut(by);
      case 11 -> new Request.HandOver(by, random.nextBoolean() ? "Cy" : MENDER, 1);
      case 12 -> new Request.Shelve(by, active, random.nextDouble(0.5, 600), "pressed");
      case 13 -> new Request.Defeat(by, "door open", random.nextDouble(0.5, 60), "pressed");
      case 14 -> new Request.Defeat(by, active, 5, "pressed");
      default -> new Request.Enforce(by, "door open");
    };
  }

  private String anyActive(ControlState state, SplittableRandom random, String otherwise) {
    audit.of(state);
    int from = random.nextInt(audit.rows());
    for (int i = 0; i < audit.rows(); i++) {
      int row = (from + i) % audit.rows();
      if (audit.isActive(row)) {
        return audit.id(row);
      }
    }
    return otherwise;
  }
}
