package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Set;
import java.util.SplittableRandom;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;

class TableGlanceTest {
  private static final long SEED = 20261125;
  private static final int DRAWS = 20_000;

  private final Plan plan =
      ControlBench.seeing(new TestRig().build(), TestSteps.soak(500, 3600, 3)).plan;
  private final SplittableRandom random = new SplittableRandom(SEED);

  private TickWork atRest(boolean attended) {
    TickWork work = new TickWork(plan, ControlState.initial(plan));
    work.readings = new Readings(plan.rig().resolutions());
    work.tickS = 0.25;
    work.phase = BatchState.RUNNING;
    work.presence = attended ? new Presence("Ada", Long.MAX_VALUE, false) : Presence.NOBODY;
    for (Channel channel : Channel.values()) {
      if (work.readings.isFitted(channel)) {
        work.readings.good(channel, ControlBench.restValue(channel));
      }
    }
    return work;
  }

  /** A bench on which one or two things are otherwise, a little or much. */
  private TickWork drawn() {
    TickWork work = atRest(random.nextBoolean());
    for (int i = random.nextInt(3); i > 0; i--) {
      Channel channel = Channel.values()[random.nextInt(Channel.COUNT)];
      if (work.readings.isFitted(channel)) {
        disturb(channel, work.readings);
      }
    }
    work.tickS = random.nextInt(10) == 0 ? 3 : 0.25;
    work.symptoms = random.nextInt(4) == 0 ? 1 << random.nextInt(Symptom.values().length) : 0;
    return work;
  }

  private void disturb(Channel channel, Readings readings) {
    if (random.nextInt(5) == 0) {
      readings.bad(channel, BadReason.STALE);
    } else {
      double most = channel.kind() == Channel.Kind.PRESSURE ? 20 : 4;
      readings.good(channel, ControlBench.restValue(channel) * most * random.nextDouble());
    }
  }

  @Test
  void aBenchOnWhichNothingIsWrongIsQuietWhetherSomebodyIsThereOrNot() {
    assertTrue(plan.glance().isQuiet(atRest(true)));
    assertTrue(plan.glance().isQuiet(atRest(false)));
  }

  @Test
  void behindAQuietGlanceNoRowOfTheTableShowsAndEachRowCanEndTheQuiet() {
    Set<String> shown = new TreeSet<>();
    int quiet = 0;
    for (int draw = 0; draw < DRAWS; draw++) {
      TickWork work = drawn();
      boolean isQuiet = plan.glance().isQuiet(work);
      quiet += isQuiet ? 1 : 0;
      for (InterlockRow row : plan.interlocks()) {
        Verdict verdict = row.cause().look(work, false);
        assertTrue(
            !isQuiet || verdict == Verdict.ABSENT,
            row.id() + " shows behind a quiet glance, seed " + SEED + ", draw " + draw);
        if (verdict == Verdict.PRESENT) {
          shown.add(row.id());
        }
      }
    }
    Set<String> canShow =
        plan.interlocks().stream()
            .filter(row -> !(row.cause() instanceof Cause.Reported))
            .map(InterlockRow::id)
            .collect(Collectors.toCollection(TreeSet::new));
    assertEquals(canShow, shown, "seed " + SEED);
    assertTrue(quiet > DRAWS / 10, quiet + " quiet draws of " + DRAWS + ", seed " + SEED);
  }

  /** The table acts above a limit and below another, not at them. */
  @Test
  void aValueJustAtItsLimitIsStillQuiet() {
    double limitPa = plan.rig().unattended().pressureMaxPa();
    TickWork work = atRest(false);
    work.readings.good(Channel.VESSEL_PRESSURE, limitPa);
    work.readings.good(Channel.VESSEL_PRESSURE_PAIR, limitPa);
    assertEquals(limitPa, work.readings.value(Channel.VESSEL_PRESSURE));
    assertTrue(plan.glance().isQuiet(work));
    work.readings.good(Channel.VESSEL_PRESSURE, limitPa + 10);
    assertFalse(plan.glance().isQuiet(work));
    work.presence = new Presence("Ada", Long.MAX_VALUE, false);
    assertTrue(plan.glance().isQuiet(work), "more is allowed where somebody is");
  }

  @Test
  void aContactThatJustClosesIsQuiet() {
    TickWork work = atRest(false);
    work.readings.good(Channel.DOOR, 1);
    assertTrue(plan.glance().isQuiet(work));
    work.readings.good(Channel.DOOR, 0);
    assertFalse(plan.glance().isQuiet(work));
  }
}
