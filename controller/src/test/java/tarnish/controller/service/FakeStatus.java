package tarnish.controller.service;

import java.util.List;
import tarnish.controller.service.Status.AlarmLine;
import tarnish.controller.service.Status.AskLine;
import tarnish.controller.service.Status.CourseLine;
import tarnish.controller.service.Status.FieldLine;
import tarnish.controller.service.Status.InterlockLine;
import tarnish.controller.service.Status.LoopLine;
import tarnish.controller.service.Status.OutputLine;
import tarnish.controller.service.Status.OxygenLine;
import tarnish.controller.service.Status.PairLine;
import tarnish.controller.service.Status.PermitLine;
import tarnish.controller.service.Status.ReadingLine;
import tarnish.controller.service.Status.SoakLine;
import tarnish.controller.service.Status.StepLine;

/** Invented pictures of a bench, one for each scene. */
final class FakeStatus {
  private FakeStatus() {}

  static Status of(Scene scene, long ticks) {
    boolean idle = scene == Scene.IDLE;
    boolean heating = scene == Scene.RUNNING;
    return new Status(
        "0.1.0",
        "Invented bench",
        true,
        true,
        60,
        "2026-01-05T13:33:20+01:00",
        idle ? null : 2,
        idle ? null : "Copper to copper(II) oxide",
        FakeJournal.NOW_MILLIS,
        scene.state.words(),
        scene.sentence,
        why(scene),
        idle ? null : "Then the oven cools to 60 °C and the vessel may be opened.",
        idle ? null : "In about 9 h, at 22:40, if nothing is paused.",
        idle ? List.of() : steps(),
        readings(),
        List.of(
            new OutputLine("heater", heating, heating ? "duty 31.4 %" : ""),
            new OutputLine("oxygen valve", false, ""),
            new OutputLine("inert gas valve", scene == Scene.ASKING, ""),
            new OutputLine("vacuum valve", false, ""),
            new OutputLine("vent valve", false, ""),
            new OutputLine("vacuum pump", false, "")),
        List.of(
            new PermitLine("heater", heating, heating ? "" : withheldBy(scene)),
            new PermitLine("oxygen", heating, heating ? "" : withheldBy(scene))),
        idle ? List.of() : soaks(),
        idle
            ? null
            : new OxygenLine(
                "9.84 ± 0.12 mmol",
                "15.74 mmol",
                "0.625 ± 0.008 O per Cu",
                "1 O per Cu",
                "62.5 % ± 0.8 %",
                0.625,
                0.008,
                9.84e-3,
                0.12e-3,
                List.of(new PairLine("Oxygen in the gas", "(98.9 ± 0.4) %")),
                List.of()),
        scene == Scene.TRIPPED ? alarms() : List.of(),
        scene == Scene.ASKING ? ask() : null,
        idle
            ? List.of()
            : List.of(
                new CourseLine(20_000, 523.15),
                new CourseLine(35_600, 523.15),
                new CourseLine(42_000, 333.15)),
        interlocks(scene),
        scene.mayAsk,
        List.of(
            "Oxygen under pressure feeds fire: no grease, no open flame.",
            "The oven and the glass are hot (250 °C).",
            "The vessel stands under gas pressure (912 mbar).",
            "Mains voltage at the heater: the plug must be pulled before touching it."),
        new LoopLine(ticks, 0, 3.1, 250),
        new Status.PresenceLine("Ada", true, false, 5400, "attended", false),
        List.of(),
        idle ? List.of() : needs(scene));
  }

  private static List<Status.NeedLine> needs(Scene scene) {
    Status.NeedLine checkIn =
        new Status.NeedLine(
            "presence",
            "Ada: check in again, hand over or check out.",
            "by 15:03 on 5 Jan, in 1 h 30 min",
            5400.0);
    return switch (scene) {
      case ASKING ->
          List.of(
              new Status.NeedLine("question", "Answer: Grind the cake, weigh it.", "now", null),
              checkIn);
      case TRIPPED ->
          List.of(
              new Status.NeedLine("alarm", "Acknowledge oven-too-hot: look at it.", "now", null),
              checkIn);
      default ->
          List.of(
              checkIn,
              new Status.NeedLine(
                  "visit",
                  "Be at the bench: Open, grind, weigh.",
                  "about 22:10 on 5 Jan, in 8 h 37 min",
                  31_020.0));
    };
  }

  private static String why(Scene scene) {
    return switch (scene) {
      case IDLE -> "No batch was started since the service began.";
      case RUNNING -> "The sample is within 3 K of its setpoint, so the soak clock counts.";
      case PAUSED -> "Ada paused it.";
      case ASKING -> "The recipe asks for a weighing after every pass.";
      case TRIPPED -> "The oven passed 480 °C; it must stay below 450 °C.";
      case ABORTED -> "A person asked for everything off at once.";
    };
  }

  private static String withheldBy(Scene scene) {
    return scene == Scene.TRIPPED ? "oven too hot (latched)" : "the step does not need it";
  }

  private static List<StepLine> steps() {
    return List.of(
        new StepLine(1, 0, "Pump down", "done", "3 min 10 s"),
        new StepLine(2, 0, "Prove the vessel is tight", "done", "0.012 mbar/min"),
        new StepLine(3, 0, "Repeat until 99 % converted", "now", "pass 2 of at most 8"),
        new StepLine(4, 1, "Dose oxygen", "done", "6 pulses"),
        new StepLine(5, 1, "Heat to 250 °C", "done", "at 1 K/min"),
        new StepLine(6, 1, "Soak at 250 °C", "now", "1 h 40 min of 6 h"),
        new StepLine(7, 1, "Open, grind, weigh", "to come", ""),
        new StepLine(8, 0, "Cool to room temperature", "to come", ""));
  }

  private static List<ReadingLine> readings() {
    return List.of(
        new ReadingLine("sample temperature", "250.4 °C", 523.55, ""),
        new ReadingLine("oven temperature", "253.1 °C", 526.25, ""),
        new ReadingLine("second oven temperature", "—", null, "sensor or cable open"),
        new ReadingLine("seal temperature", "61.0 °C", 334.15, ""),
        new ReadingLine("vessel pressure", "912.3 mbar", 91_230.0, ""),
        new ReadingLine("room oxygen", "20.9 %", 0.209, ""),
        new ReadingLine("emergency stop circuit", "closed", 1.0, ""));
  }

  private static List<SoakLine> soaks() {
    return List.of(
        new SoakLine("200 °C", 473.15, 7200, 7200, "done"),
        new SoakLine("250 °C", 523.15, 21_600, 6000, "now", "until about 17:53 on 5 Jan"),
        new SoakLine(
            "300 °C", 573.15, 43_200, 0, "to come", "about 22:10 on 5 Jan to 10:10 on 6 Jan"));
  }

  private static List<AlarmLine> alarms() {
    return List.of(
        new AlarmLine(
            "oven-too-hot",
            "latched, unacknowledged",
            "high",
            true,
            "The oven was at 480.2 °C; its limit is 450 °C.",
            "Heater and oxygen were shut off and stay off until a reset.",
            "Look at the oven and its relay. Reset when it is below 440 °C and the cause is known.",
            true,
            true),
        new AlarmLine(
            "second-oven-sensor",
            "unacknowledged",
            "low",
            false,
            "The second oven thermocouple is open.",
            "Its value is not used; the first one still protects the oven.",
            "Check the plug and the cable.",
            true,
            false));
  }

  private static AskLine ask() {
    return new AskLine(
        4,
        "Grind the cake, weigh the whole solid, put it back and close the vessel.",
        List.of(new FieldLine("mass of the solid", "mass"), new FieldLine("look", "remark")));
  }

  private static List<InterlockLine> interlocks(Scene scene) {
    return List.of(
        new InterlockLine(
            "oven-too-hot",
            "oven temperature too high",
            "450 °C",
            "0.5 s",
            "heater off, oxygen shut",
            "latching; a person resets",
            scene == Scene.TRIPPED ? "tripped" : "ready"),
        new InterlockLine(
            "vessel-pressure-high",
            "vessel pressure too high",
            "1100 mbar",
            "0.5 s",
            "oxygen shut, vent open",
            "latching; a person resets",
            "ready"));
  }
}
