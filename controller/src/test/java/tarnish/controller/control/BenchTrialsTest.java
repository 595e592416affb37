package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import tarnish.controller.control.trial.Finding;
import tarnish.controller.control.trial.Trial;
import tarnish.controller.control.trial.Trials;
import tarnish.controller.files.RigFile;
import tarnish.controller.files.RigReader;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.recipe.Charge;
import tarnish.shared.recipe.OxideMember;
import tarnish.shared.recipe.Recipe;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.RigDescription;
import tarnish.shared.rig.Switch;
import tarnish.sim.Fault;
import tarnish.sim.Miswiring;
import tarnish.sim.SimulatedRig;
import tarnish.sim.WiredRig;

/** Guided experiments on the bench in equations, wired rightly and wrongly. */
class BenchTrialsTest {
  private static final Request HERE = new Request.CheckIn("Ann Example", 12);

  private RigDescription rig;
  private Recipe nothing;
  private Plan plan;
  private SimulatedRig bench;
  private WiredRig wired;
  private ControlState state;
  private Readings readings;
  private long millis;
  private double heaterJ;
  private final List<Outputs> given = new ArrayList<>();

  @BeforeEach
  void standAtTheBench() throws IOException {
    String text = Files.readString(Path.of("../sim/demo/bench.rig.yaml"));
    rig = RigReader.read("bench.rig.yaml", text).value();
    OxideMember copper = new OxideMember("Cu", 0);
    OxideMember oxide = new OxideMember("CuO", 1);
    nothing =
        new Recipe(
            "No batch",
            true,
            new Charge("Cu", 1e-3, 1e-6),
            63.546e-3,
            List.of(copper, oxide),
            oxide,
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            rig.vessel().name(),
            rig.oxygen().name(),
            List.of(),
            List.of());
    plan = Plan.of(nothing, rig);
    wire();
  }

  private void wire(Miswiring... mistakes) {
    bench = new SimulatedRig(rig, nothing, 1);
    wired = new WiredRig(bench, mistakes);
    wired.write(Outputs.OFF);
    state = ControlState.initial(plan);
    readings = new Readings(rig.resolutions());
    millis = 0;
    heaterJ = 0;
    given.clear();
  }

  private Trial tick(Trial trial, List<Request> requests) {
    millis += rig.tickMillis();
    bench.advance(rig.tickMillis() / 1000.0);
    heaterJ += bench.heaterW() * rig.tickMillis() / 1000.0;
    wired.read(readings);
    BenchTrials.Result result = BenchTrials.tick(plan, state, trial, readings, requests, millis);
    state = result.turn().state();
    wired.write(result.turn().outputs());
    given.add(result.turn().outputs());
    return result.trial();
  }

  /** Says yes whenever asked, after five idle seconds of every question. */
  private Trial run(String name) {
    Trial trial = Trials.of(rig).get(name);
    trial = tick(trial, List.of(HERE));
    for (int i = 0; i < 4 * 1200 && !trial.hasEnded(); i++) {
      if (!trial.question().isEmpty()) {
        for (int wait = 0; wait < 20; wait++) {
          trial = tick(trial, List.of());
          boolean confirmedBefore = trial.question().startsWith("Open the bottle now");
          assertEquals(confirmedBefore, on(last()) != 0, "on before a yes: " + trial.question());
        }
        prepare(trial.question());
        trial = trial.confirmed();
      }
      trial = tick(trial, List.of());
    }
    assertTrue(trial.hasEnded(), trial.doing());
    trial = tick(trial, List.of());
    assertEquals(0, on(last()), "something is still on");
    return trial;
  }

  private void prepare(String question) {
    if (question.startsWith("Open the bottle now")) {
      bench.clear(Fault.OXYGEN_SUPPLY_EMPTY);
      bench.clear(Fault.INERT_SUPPLY_EMPTY);
    }
    if (question.contains("crushed ice")) {
      wired.place(Channel.SAMPLE_TEMPERATURE, 273.15);
    }
  }

  private void evacuateWithBottlesShut() {
    bench.inject(Fault.OXYGEN_SUPPLY_EMPTY, 1);
    bench.inject(Fault.INERT_SUPPLY_EMPTY, 1);
    run("evacuate");
  }

  private Outputs last() {
    return given.get(given.size() - 1);
  }

  private static int on(Outputs outputs) {
    return outputs.with(Switch.HEARTBEAT, false).switches();
  }

  private static String words(Trial trial) {
    return String.join(" ", trial.findings().stream().map(Finding::sentence).toList());
  }

  private static boolean isFault(Trial trial) {
    return trial.findings().stream().anyMatch(Finding::fault);
  }

  @Test
  void aHeatPulseFindsThermocouplesWhereTheyShouldBe() {
    Trial trial = run("which thermocouple");
    assertFalse(isFault(trial), words(trial));
    assertTrue(words(trial).contains("each is where it should be"), words(trial));
  }

  @Test
  void aHeatPulseFindsSwappedThermocouples() {
    wire(Miswiring.SAMPLE_AND_OVEN_SWAPPED);
    Trial trial = run("which thermocouple");
    assertTrue(words(trial).contains("these two are swapped"), words(trial));
  }

  @Test
  void aHeatPulseFindsAnOvenThermocoupleWithReversedPolarity() {
    wire(Miswiring.OVEN_REVERSED);
    Trial trial = run("which thermocouple");
    assertTrue(words(trial).contains("The oven temperature fell by"), words(trial));
    assertTrue(words(trial).contains("reversed polarity"), words(trial));
    assertFalse(words(trial).contains("swapped"), words(trial));
  }

  @Test
  void aReversedSampleThermocoupleIsFoundInIce() {
    wire(Miswiring.SAMPLE_REVERSED);
    Trial trial = run("cold junction of sample temperature");
    assertTrue(words(trial).startsWith("Reversed polarity"), words(trial));
  }

  @Test
  void swappedAndReversedAtOnceAreBothFound() {
    wire(Miswiring.SAMPLE_AND_OVEN_SWAPPED, Miswiring.SAMPLE_REVERSED);
    Trial trial = run("which thermocouple");
    assertTrue(words(trial).contains("The sample temperature fell"), words(trial));
    assertTrue(words(trial).contains("swapped"), words(trial));
  }

  @Test
  void theEnergyOfAHeatPulseIsLimited() {
    bench.inject(Fault.HEATER_DEAD, 1);
    Trial trial = run("which thermocouple");
    assertEquals(5, given.stream().filter(each -> each.isOn(Switch.HEATER)).count() / 10);
    assertTrue(words(trial).contains("Nothing has moved clearly yet"), words(trial));
    wire();
    run("which thermocouple");
    assertEquals(2.5 * bench.spec().heaterRatedW(), heaterJ, 1);
    wire();
    run("pulse heater");
    assertEquals(1.25 * bench.spec().heaterRatedW(), heaterJ, 1);
  }

  @Test
  void aColdJunctionThatIsRightIsFoundRight() {
    Trial trial = run("cold junction of sample temperature");
    assertFalse(isFault(trial), words(trial));
  }

  @Test
  void aWrongColdJunctionIsFoundWithItsSize() {
    wire(Miswiring.SAMPLE_COLD_JUNCTION);
    Trial trial = run("cold junction of sample temperature");
    assertTrue(words(trial).startsWith("Wrong cold junction"), words(trial));
    // 12 K, and what the thermocouple itself is off: 1.5 K standard uncertainty in the rig file.
    assertTrue(words(trial).matches(".*for (9|1[0-4])\\.[0-9] K warmer.*"), words(trial));
  }

  @ParameterizedTest
  @EnumSource(
      value = Switch.class,
      names = {"OXYGEN", "INERT"})
  void aSupplyValveThatOpensWhenToldIsFoundRight(Switch valve) {
    evacuateWithBottlesShut();
    Trial trial = run("sense of " + valve.words());
    assertFalse(isFault(trial), words(trial));
    assertTrue(words(trial).contains("opens when told and shuts"), words(trial));
  }

  @Test
  void aVacuumValveThatOpensWhenToldIsFoundRight() {
    Trial trial = run("sense of vacuum valve");
    assertTrue(words(trial).contains("opens when told and shuts"), words(trial));
  }

  @Test
  void aVentThatOpensWhenToldIsFoundRight() {
    fill();
    Trial trial = run("sense of vent valve");
    assertTrue(words(trial).contains("opens when told and shuts"), words(trial));
  }

  /** Stands the vessel a little above the room, as a person with the inert valve would. */
  private void fill() {
    bench.write(Outputs.of(0, Switch.INERT));
    bench.advance(0.75);
    wired.write(Outputs.OFF);
  }

  @Test
  void anInvertedOxygenValveIsFound() {
    wire(Miswiring.OXYGEN_INVERTED);
    evacuateWithBottlesShut();
    Trial trial = run("sense of oxygen valve");
    assertTrue(words(trial).startsWith("Inverted"), words(trial));
  }

  @Test
  void anInvertedInertValveIsFound() {
    wire(Miswiring.INERT_INVERTED);
    evacuateWithBottlesShut();
    Trial trial = run("sense of inert gas valve");
    assertTrue(words(trial).startsWith("Inverted"), words(trial));
  }

  @Test
  void anInvertedVacuumValveIsFound() {
    wire(Miswiring.VACUUM_INVERTED);
    Trial trial = run("sense of vacuum valve");
    assertTrue(words(trial).startsWith("Inverted"), words(trial));
  }

  @Test
  void anotherValveOnTheOxygenOutputIsFound() {
    wire(Miswiring.OXYGEN_AND_VACUUM_SWAPPED);
    // The pump has been left running by hand, or nothing would flow.
    Trial trial = run("sense of vacuum valve");
    assertTrue(words(trial).contains("another valve hangs on this output"), words(trial));
  }

  @Test
  void aStuckValveIsNotTakenForAnInvertedOne() {
    bench.inject(Fault.OXYGEN_VALVE_STUCK_OPEN, 1);
    evacuateWithBottlesShut();
    Trial trial = run("sense of oxygen valve");
    assertTrue(
        words(trial).contains("whether the oxygen valve is told to be open or shut"), words(trial));
  }

  @Test
  void aBottleThatIsNeverSaidToBeOpenShutsTheValveAgain() {
    evacuateWithBottlesShut();
    Trial trial = tick(Trials.of(rig).get("sense of oxygen valve").confirmed(), List.of());
    for (int i = 0; i < 4 * 61 && !trial.hasEnded(); i++) {
      trial = tick(trial, List.of());
    }
    assertTrue(words(trial).contains("nobody said yes for 60 s"), words(trial));
    assertEquals(0, on(last()));
  }

  @Test
  void anEmptyBottleIsSaidAndNotTakenForAFault() {
    evacuateWithBottlesShut();
    bench.changeOxygenSource(0.995, 0);
    Trial trial = run("sense of oxygen valve");
    assertFalse(isFault(trial), words(trial));
    assertTrue(words(trial).contains("is the bottle open"), words(trial));
  }

  @ParameterizedTest
  @ValueSource(strings = {"which thermocouple", "pulse oxygen valve", "evacuate"})
  void nothingIsSwitchedWhileNobodyIsCheckedIn(String name) {
    Trial trial = tick(Trials.of(rig).get(name).confirmed(), List.of());
    for (int i = 0; i < 400; i++) {
      trial = tick(trial, List.of());
      assertEquals(0, on(last()));
    }
    assertTrue(trial.hasEnded());
    assertTrue(words(trial).contains("check in first"), words(trial));
  }

  @Test
  void aPressedStopEndsATrialWithEverythingOff() {
    Trial trial = tick(Trials.of(rig).get("evacuate").confirmed(), List.of(HERE));
    trial = tick(trial, List.of());
    assertTrue(last().isOn(Switch.PUMP));
    bench.pressEmergencyStop(true);
    for (int i = 0; i < 4; i++) {
      trial = tick(trial, List.of());
    }
    assertEquals(0, on(last()));
    assertTrue(words(trial).contains("emergency stop"), words(trial));
  }

  @Test
  void askingForTheSafeStateEndsATrialInTheSameTick() {
    Trial trial = tick(Trials.of(rig).get("evacuate").confirmed(), List.of(HERE));
    trial = tick(trial, List.of());
    assertTrue(last().isOn(Switch.PUMP));
    trial = tick(trial, List.of(new Request.Abort("Ben Example")));
    assertEquals(0, on(last()));
    assertTrue(trial.hasEnded());
  }

  @Test
  void aWarmOvenIsNotHeated() {
    wired.place(Channel.OVEN_TEMPERATURE, 330);
    Trial trial = run("pulse heater");
    assertEquals(0, heaterJ);
    assertTrue(words(trial).contains("below 50 °C"), words(trial));
  }

  @Test
  void everyTrialOfEveryOutputSwitchesOnlyWhatItSays() {
    Trials.of(rig)
        .forEach(
            (name, fresh) -> {
              wire();
              run(name);
              for (Outputs outputs : given) {
                for (Switch each : outputs.with(Switch.HEARTBEAT, false).on()) {
                  assertTrue(says(name, each), name + " switched the " + each.words());
                }
              }
            });
  }

  private static boolean says(String name, Switch each) {
    return name.contains(each.words())
        || name.equals("which thermocouple") && each == Switch.HEATER
        || name.equals("evacuate") && (each == Switch.PUMP || each == Switch.VACUUM)
        || name.equals("sense of vacuum valve") && each == Switch.PUMP;
  }

  @Test
  void theRigOfTheNotesHasItsTrialsToo() throws IOException {
    String text = Files.readString(Path.of("../hardware-notes/reference-bench.rig.yaml"));
    RigFile file = RigReader.readFile("reference-bench.rig.yaml", text).value();
    assertTrue(Trials.of(file.rig()).containsKey("cold junction of oven temperature"));
  }
}
