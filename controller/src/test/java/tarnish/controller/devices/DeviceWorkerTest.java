package tarnish.controller.devices;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tarnish.controller.devices.DeviceHealth.Condition;
import tarnish.controller.devices.DeviceTrouble.Kind;
import tarnish.controller.devices.setup.DeviceSpec;
import tarnish.controller.devices.setup.InputPlace;
import tarnish.controller.devices.setup.InputSpec;
import tarnish.controller.devices.setup.OutputPlace;
import tarnish.controller.devices.setup.OutputSpec;
import tarnish.controller.devices.setup.Scaling;
import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Reading;
import tarnish.shared.rig.Outputs;
import tarnish.shared.rig.Switch;

/** A device's turns one by one, on a clock set by hand. */
class DeviceWorkerTest {
  private static final long SECOND = 1_000_000_000L;
  private static final InputSpec INPUT =
      new InputSpec("A", new InputPlace.Pin(1, InputPlace.Pull.DOWN), new Scaling.Contact(1), 0.25);
  private static final OutputSpec HEAT = new OutputSpec("H", new OutputPlace.Pin(2, true));
  private static final OutputSpec OXYGEN = new OutputSpec("O", new OutputPlace.Pin(3, true));
  private static final DeviceSpec SPEC =
      new DeviceSpec("fake", 0.2, new DeviceSpec.Pins(), List.of(INPUT), List.of(HEAT, OXYGEN));

  private long now = 100 * SECOND;
  private final FakeDevice device = new FakeDevice();
  private final DeviceWorker worker =
      new DeviceWorker(
          SPEC,
          device,
          List.of(
              new OutputSlot(HEAT, Switch.HEATER, now), new OutputSlot(OXYGEN, Switch.OXYGEN, now)),
          () -> now);

  private static final Reading CLOSED = new Reading.Good(1);

  private Reading reading() {
    return worker.input("A").orElseThrow().reading(now);
  }

  private void runFor(double seconds) {
    long end = now + (long) (seconds * 1e9);
    while (now < end) {
      worker.turn();
      now += 20_000_000;
    }
  }

  @Test
  void nothingIsKnownBeforeTheFirstAnswer() {
    assertEquals(new Reading.Bad(BadReason.NO_DATA), reading());
    assertEquals(Condition.NEVER_SEEN, worker.health().condition());
  }

  @Test
  void everyOutputIsToldToBeOffFirst() {
    worker.turn();
    assertEquals(List.of("open", "H=0", "O=0", "ask"), device.log);
    assertEquals(CLOSED, reading());
  }

  @Test
  void whatGoesOffIsToldBeforeWhatGoesOn() {
    worker.hand(Outputs.of(0, Switch.HEATER));
    worker.turn();
    device.log.clear();
    worker.hand(Outputs.of(0, Switch.OXYGEN));
    worker.turn();
    assertEquals(List.of("H=0", "O=1"), device.log.subList(0, 2));
  }

  @Test
  void anUnchangedOrderIsRepeatedEveryHalfSecondAndTheInputAskedByItsPeriod() {
    worker.hand(Outputs.OFF);
    runFor(1.9);
    assertEquals(4, device.log.stream().filter("H=0"::equals).count());
    assertEquals(8, device.log.stream().filter("ask"::equals).count());
  }

  @Test
  void aLoopThatHasGoneQuietForTwoSecondsIsTakenForStuckAndEverythingGoesOff() {
    worker.hand(Outputs.of(0, Switch.HEATER));
    runFor(1.9);
    assertTrue(device.heaterOn);
    runFor(0.3);
    assertFalse(device.heaterOn);
  }

  @Test
  void aValueOutlivesThreePeriodsAndTheDeadlineAndIsThenStale() {
    worker.turn();
    now += (long) (0.94 * SECOND);
    assertEquals(CLOSED, reading());
    now += (long) (0.02 * SECOND);
    assertEquals(new Reading.Bad(BadReason.STALE), reading());
  }

  @Test
  void oneSpoiltAnswerIsBorneASecondOneIsAFault() {
    InputSlot slot = new InputSlot(INPUT, 0.2);
    DeviceTrouble spoilt = new DeviceTrouble(Kind.GARBLED, "noise");
    slot.take(new Device.Answer(CLOSED, "1"), now);
    slot.trouble(spoilt, now);
    assertEquals(CLOSED, slot.reading(now));
    slot.take(new Device.Answer(CLOSED, "1"), now);
    slot.trouble(spoilt, now);
    assertEquals(CLOSED, slot.reading(now));
    slot.trouble(spoilt, now);
    assertEquals(new Reading.Bad(BadReason.DEVICE_FAULT), slot.reading(now));
  }

  @Test
  void afterEveryTroubleTheLineIsLeftQuietForADeadline() {
    worker.turn();
    device.trouble = Kind.SILENT;
    now += SECOND / 4;
    worker.turn();
    device.log.clear();
    now += SECOND / 10;
    worker.turn();
    assertEquals(List.of(), device.log);
    now += SECOND / 5;
    worker.turn();
    assertFalse(device.log.isEmpty());
  }

  @Test
  void threeTroublesInARowOpenTheWayAnewButNotWhileABoardMayStillBeStarting() {
    device.trouble = Kind.SILENT;
    runFor(2.5);
    assertEquals(1, device.openings);
    runFor(3);
    assertTrue(device.openings > 1);
    assertEquals(new Reading.Bad(BadReason.DEVICE_FAULT), reading());
  }

  @Test
  void aLostDeviceIsTriedAgainAfterEverLongerPausesAndAnswersAgain() {
    worker.turn();
    device.trouble = Kind.LOST;
    device.gone = true;
    runFor(60);
    assertEquals(Condition.LOST, worker.health().condition());
    // 0.25, 0.5, 1, 2, 4, then every 8 s.
    assertTrue(device.openings > 8 && device.openings < 15, "opened " + device.openings);
    device.trouble = null;
    device.gone = false;
    runFor(8.5);
    assertEquals(Condition.ANSWERING, worker.health().condition());
    assertEquals(CLOSED, reading());
  }

  @Test
  void aDeviceThatComesBackIsToldEverythingAnew() {
    worker.turn();
    device.trouble = Kind.LOST;
    now += SECOND / 4;
    worker.turn();
    device.trouble = null;
    device.log.clear();
    runFor(1);
    assertEquals(List.of("open", "H=0", "O=0"), device.log.subList(0, 3));
  }

  @Test
  void anOutputNobodyConfirmsIsKnownByItsAge() {
    worker.turn();
    device.refuseOrders = true;
    for (int i = 0; i < 150; i++) {
      worker.hand(Outputs.of(0, Switch.HEATER));
      worker.turn();
      now += SECOND / 50;
    }
    assertTrue(worker.health().unconfirmedMillis() > 2_000, worker.health().toString());
    device.refuseOrders = false;
    worker.hand(Outputs.OFF);
    runFor(0.5);
    assertTrue(worker.health().unconfirmedMillis() < 600, worker.health().toString());
  }

  @Test
  void aRefusalIsAFaultOfTheInputButNoLossOfTheDevice() {
    device.trouble = Kind.REFUSED;
    runFor(10);
    assertEquals(1, device.openings);
    assertEquals(new Reading.Bad(BadReason.DEVICE_FAULT), reading());
  }

  private final class FakeDevice implements Device {
    final List<String> log = new ArrayList<>();
    Kind trouble;
    boolean gone;
    boolean refuseOrders;
    boolean heaterOn;
    int openings;

    @Override
    public void open() throws DeviceTrouble {
      openings++;
      log.add("open");
      if (gone) {
        throw new DeviceTrouble(Kind.LOST, "gone");
      }
    }

    @Override
    public Answer ask(InputSpec input) throws DeviceTrouble {
      log.add("ask");
      fail();
      return new Answer(CLOSED, "1");
    }

    @Override
    public void order(OutputSpec output, int value) throws DeviceTrouble {
      log.add(output.name() + "=" + value);
      if (refuseOrders) {
        throw new DeviceTrouble(Kind.REFUSED, "no");
      }
      fail();
      if (output == HEAT) {
        heaterOn = value != 0;
      }
    }

    private void fail() throws DeviceTrouble {
      if (trouble != null) {
        throw new DeviceTrouble(trouble, trouble.toString());
      }
    }

    @Override
    public void close() {
      log.add("close");
    }
  }
}
