package tarnish.controller.control;

import java.util.Map;
import tarnish.shared.recipe.Question;

/** Takes requests: does them or refuses them with a reason, and records which. */
final class RequestDesk {
  private final TickWork work;
  private final String by;

  private RequestDesk(TickWork work, String by) {
    this.work = work;
    this.by = by;
  }

  static void take(Request request, TickWork work) {
    RequestDesk desk = new RequestDesk(work, request.by());
    if (request instanceof Request.Start) {
      desk.start();
    } else if (request instanceof Request.Pause) {
      desk.pause();
    } else if (request instanceof Request.Resume) {
      desk.resume();
    } else if (request instanceof Request.Restart) {
      desk.restart();
    } else if (request instanceof Request.Stop) {
      desk.stop();
    } else if (request instanceof Request.Abort) {
      desk.abort();
    } else if (request instanceof Request.Acknowledge acknowledge) {
      desk.acknowledge(acknowledge.alarm());
    } else if (request instanceof Request.Reset reset) {
      desk.reset(reset);
    } else if (request instanceof Request.Answer answer) {
      desk.answer(answer);
    } else if (Ledger.takes(request)) {
      Ledger.enter(request, work);
    } else if (request instanceof Request.PowerReturned returned) {
      desk.powerReturned(returned.outageS());
    } else if (ChangeDesk.take(request, work) || NoteDesk.take(request, work)) {
      return;
    } else if (PresenceDesk.take(request, work) || AlarmDesk.take(request, work)) {
      return;
    } else if (request instanceof Request.Expect expect) {
      work.expectation = work.expectation.expecting(ExpectedCourse.parse(expect.course()));
      work.event(new Event.Advisory("Compared with its rehearsal from now on."));
    } else if (request instanceof Request.ShellTrouble trouble) {
      desk.shellTrouble(trouble);
    }
  }

  private void start() {
    if (work.phase != BatchState.IDLE) {
      refuse("start", "The batch is " + work.phase.words() + ", not idle.");
      return;
    }
    int row = work.alarms.holding(work.plan.interlocks());
    if (row >= 0) {
      refuse("start", "A trip is up or latched: " + work.plan.interlocks().get(row).what());
      return;
    }
    done("start");
    work.enter(BatchState.RUNNING, "started by " + by);
  }

  private void pause() {
    change(work.phase.mayPause(), "pause", BatchState.PAUSING, "paused by " + by);
  }

  private void resume() {
    if (!work.phase.mayResume()) {
      refuse("resume", "The batch is " + work.phase.words() + ", not paused.");
      return;
    }
    if (needsPersonNow()) {
      refuse("resume", PresenceDesk.CHECK_IN_FIRST);
      return;
    }
    done("resume");
    Phases.goOn(work, "resumed by " + by);
  }

  private void restart() {
    int row = work.alarms.holding(work.plan.interlocks());
    if (work.phase.mayRestart() && row >= 0) {
      refuse("restart", "Reset first: " + work.plan.interlocks().get(row).what());
      return;
    }
    if (work.phase.mayRestart() && needsPersonNow()) {
      refuse("restart", PresenceDesk.CHECK_IN_FIRST);
      return;
    }
    change(work.phase.mayRestart(), "restart", BatchState.RESTARTING, "restarted by " + by);
  }

  /** Whether the step that would go on may only run with a person there, and none is. */
  private boolean needsPersonNow() {
    return work.run != null
        && work.doing() != null
        && !work.presence.attended()
        && Presences.needsPerson(work.doing().step());
  }

  private void stop() {
    change(work.phase.mayStop(), "stop", BatchState.STOPPING, "stopped by " + by);
    forgetQuestionIfEnding();
  }

  private void abort() {
    change(work.phase.mayAbort(), "abort", BatchState.ABORTING, "aborted by " + by);
    forgetQuestionIfEnding();
  }

  private void forgetQuestionIfEnding() {
    if (work.phase == BatchState.STOPPING || work.phase == BatchState.ABORTING) {
      work.question = null;
    }
  }

  private void change(boolean allowed, String what, BatchState next, String why) {
    if (!allowed) {
      refuse(what, "The batch is " + work.phase.words() + ".");
      return;
    }
    done(what);
    work.enter(next, why);
  }

  private void acknowledge(String alarm) {
    int row = AlarmBoard.indexOf(alarm, work.plan.interlocks());
    if (row < 0 || !work.alarms.state(row).isUnacknowledged()) {
      refuse("acknowledge '" + alarm + "'", "No such alarm waits for it.");
      return;
    }
    work.alarms = work.alarms.acknowledge(row, work.plan.interlocks().get(row), by, work);
  }

  private void reset(Request.Reset reset) {
    String what = "reset '" + reset.alarm() + "'";
    int row = AlarmBoard.indexOf(reset.alarm(), work.plan.interlocks());
    if (row < 0 || work.alarms.state(row) == AlarmState.NORMAL) {
      refuse(what, "No such alarm is latched.");
    } else if (!work.alarms.state(row).isLatchedOnly()) {
      refuse(what, "Its cause is still there.");
    } else if (!work.presence.attended()) {
      refuse(what, PresenceDesk.CHECK_IN_FIRST);
    } else if (reset.reason().isBlank()) {
      refuse(what, "A reset needs a reason for the record.");
    } else {
      done(what);
      String why = "reset by " + by + ": " + reset.reason();
      work.alarms = work.alarms.reset(row, work.plan.interlocks().get(row), why, work);
    }
  }

  private void powerReturned(double outageS) {
    if (!work.presence.by().isEmpty()) {
      work.presence = Presence.NOBODY;
    }
    work.event(PowerReturn.outage(outageS, work));
    String whyNot = PowerReturn.whyNotResumed(outageS, work);
    if (whyNot.isEmpty()) {
      work.event(new Event.Advisory("The batch goes on by itself, as its recipe allows."));
      Phases.goOn(work, "power is back within what the recipe allows");
      return;
    }
    work.report(
        InterlockTable.POWER_RETURNED,
        "Nobody was in control for " + Words.duration(outageS) + ". " + whyNot);
  }

  /** An alarm that the table does not know is a defect of the shell, but must not end the loop. */
  private void shellTrouble(Request.ShellTrouble trouble) {
    if (AlarmBoard.indexOf(trouble.alarm(), work.plan.interlocks()) < 0) {
      refuse("raise '" + trouble.alarm() + "'", "The interlock table has no such row.");
      return;
    }
    work.report(trouble.alarm(), trouble.detail());
  }

  private void answer(Request.Answer answer) {
    OpenQuestion open = work.question;
    if (open == null || open.number() != answer.questionNumber()) {
      refuse("answer", "That question is not open any more.");
      return;
    }
    if (work.phase != BatchState.RUNNING) {
      refuse("answer", "The batch is " + work.phase.words() + "; let it run first.");
      return;
    }
    if (!work.presence.attended()) {
      refuse("answer", PresenceDesk.CHECK_IN_FIRST);
      return;
    }
    String missing = missing(open, answer.values());
    if (!missing.isEmpty()) {
      refuse("answer", missing);
      return;
    }
    work.event(new Event.Answered(open.number(), by, Words.answer(answer)));
    open.fields().stream()
        .filter(field -> field.kind() == Question.Kind.MASS)
        .forEach(field -> weigh(answer.values().get(field.name())));
    work.question = null;
  }

  private String missing(OpenQuestion open, Map<String, Double> values) {
    for (Question field : open.fields()) {
      if (field.kind() == Question.Kind.MASS) {
        Double massKg = values.get(field.name());
        double chargeKg = work.recipe().charge().massKg();
        if (massKg == null || !(massKg > 0.01 * chargeKg) || !(massKg < 10 * chargeKg)) {
          return "It needs '"
              + field.name()
              + "' as a mass between a hundredth of and ten times the charge.";
        }
      }
    }
    return "";
  }

  private void weigh(double massKg) {
    Ledger.weigh(massKg, work);
  }

  private void done(String what) {
    work.event(new Event.RequestDone(by, what));
  }

  private void refuse(String what, String why) {
    work.event(new Event.RequestRefused(by, what, why));
  }
}
