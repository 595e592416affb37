package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.IntToDoubleFunction;
import org.junit.jupiter.api.Test;

/** What is remembered of the uptake: a point a minute. */
class UptakeLogTest {
  /** Noise of a span in mol; 4 of it in ten minutes are clear: 6.7 nmol/s. */
  private static final double NOISE_MOL = 1e-6;

  private static final double CLEAR_MOL_PER_S = 4 * NOISE_MOL / 600;

  private static UptakeLog.Window window(int points, IntToDoubleFunction mol) {
    UptakeLog.Window window = UptakeLog.Window.EMPTY;
    for (int i = 0; i < points; i++) {
      window = window.with(60 * i, mol.applyAsDouble(i), 2 * i);
    }
    return window;
  }

  @Test
  void theWindowKeepsTheLastHalfHour() {
    UptakeLog.Window window = window(40, i -> i * i);
    assertEquals(31, window.timeS().length);
    assertEquals(9 * 60, window.timeS()[0]);
    assertEquals(81, window.uptakeMol()[0]);
    assertEquals(18, window.pulses()[0]);
    assertEquals(39 * 60, window.timeS()[30]);
    assertEquals(39 * 39, window.uptakeMol()[30]);
    assertEquals(78, window.pulses()[30]);
    assertEquals(40 * 60, window.nextS());
    assertEquals(1800, window.spanS());
    assertEquals(60, window.pulsesGiven());
    assertEquals((39 * 39 - 29 * 29) / 600.0, window.rateMolPerS(10), 1e-12);
    assertEquals((39 * 39 - 81) / 1800.0, window.rateMolPerS(), 1e-12);
  }

  @Test
  void aWindowIsFullWithItsThirtyFirstPoint() {
    assertFalse(window(30, i -> 0).isFull());
    assertTrue(window(31, i -> 0).isFull());
    assertTrue(window(50, i -> 0).isFull());
  }

  @Test
  void oneTimeAloneTellsNoRate() {
    for (int points : new int[] {0, 1}) {
      UptakeLog.Window window = window(points, i -> 5);
      assertEquals(0, window.rateMolPerS());
      assertEquals(0, window.spanS());
      assertEquals(0, window.pulsesGiven());
    }
    UptakeLog.Window two = window(2, i -> 6 * i);
    assertEquals(0.1, two.rateMolPerS(), 1e-12);
    assertEquals(60, two.spanS());
    assertEquals(2, two.pulsesGiven());
  }

  /** A course that watched so many minutes, with the temperature of each. */
  private static UptakeLog.Course watched(
      int minutes, IntToDoubleFunction mol, IntToDoubleFunction sampleK) {
    UptakeLog.Course course = UptakeLog.Course.closedAt(0);
    UptakeLog.Window window = UptakeLog.Window.EMPTY;
    for (int i = 0; i < minutes; i++) {
      window = window.with(60 * i, mol.applyAsDouble(i), 0);
      course = course.with(window, sampleK.applyAsDouble(i), NOISE_MOL);
    }
    return course;
  }

  @Test
  void aVesselThatWasClosedBeginsANewCourse() {
    UptakeLog.Course closed = UptakeLog.Course.closedAt(0.02);
    assertEquals(0.02, closed.startMol());
    assertEquals(0, closed.peakMolPerS());
  }

  @Test
  void itIsCalmWhileTheTemperatureMovesByNoMoreThanThreeTenthsAMinute() {
    assertEquals(9, watched(10, i -> 0, i -> 500).calmMinutes(), "the first minute moves");
    assertEquals(9, watched(10, i -> 0, i -> 500 + 0.25 * i).calmMinutes());
    assertEquals(0, watched(10, i -> 0, i -> 500 + 0.3125 * i).calmMinutes());
    assertEquals(0, watched(10, i -> 0, i -> 500 - 0.3125 * i).calmMinutes());
    assertEquals(2, watched(10, i -> 0, i -> i < 7 ? 500 : 505).calmMinutes());
    assertEquals(500, watched(10, i -> 0, i -> 500).lastK());
    assertEquals(29, watched(30, i -> 0, i -> 500).calmMinutes(), "and later, too");
    assertEquals(500, watched(30, i -> 0, i -> 500).lastK());
  }

  @Test
  void beforeTwentyMinutesNothingIsSaid() {
    assertEquals(0, watched(20, i -> 1e-5 * i, i -> 500).peakMolPerS());
    assertEquals(1e-5 / 60, watched(21, i -> 1e-5 * i, i -> 500).peakMolPerS(), 1e-15);
  }

  /** 10 µmol a minute until minute 30, at 400 K + 2 K a minute, then half as much. */
  @Test
  void theFastestTenMinutesAreKeptWithTheirTemperature() {
    UptakeLog.Course course =
        watched(60, i -> 1e-5 * (i <= 30 ? i : 30 + (i - 30) / 2.0), i -> 400 + 2 * i);
    assertEquals(1e-5 / 60, course.peakMolPerS(), 1e-12);
    assertTrue(course.peakK() >= 440 && course.peakK() <= 460, "at " + course.peakK());
    UptakeLog.Course faster = watched(60, i -> 1e-7 * i * i, i -> 400 + i);
    assertEquals(459, faster.peakK(), "faster and faster: the last");
    assertEquals(1e-7 * (59 * 59 - 49 * 49) / 600, faster.peakMolPerS(), 1e-15);
  }

  @Test
  void onlyAClearUptakeInCalmCountsAsTaking() {
    double clear = 2 * CLEAR_MOL_PER_S * 60;
    assertEquals(500, watched(40, i -> 1.01 * clear * i, i -> 500).takingK());
    assertEquals(0, watched(40, i -> 0.99 * clear * i, i -> 500).takingK());
    assertEquals(0, watched(40, i -> 1.01 * clear * i, i -> 500 + i).takingK(), "it moves");
    // It was calm for 21 minutes at 500 K, and is not yet again at 510 K.
    assertEquals(500, watched(60, i -> 1.01 * clear * i, i -> i < 40 ? 500 : 510).takingK());
    assertEquals(510, watched(70, i -> 1.01 * clear * i, i -> i < 40 ? 500 : 510).takingK());
  }

  /** Calm needs more than twenty minutes: with minute 21 (the first one moved) it begins. */
  @Test
  void calmBeginsAfterTwentyMinutes() {
    double clear = 2 * CLEAR_MOL_PER_S * 60;
    assertEquals(0, watched(21, i -> 1.01 * clear * i, i -> 500).takingK());
    assertEquals(500, watched(22, i -> 1.01 * clear * i, i -> 500).takingK());
  }

  /** 1 µmol a minute comes back from minute 40 on: ten minutes later it is clear. */
  @Test
  void gasThatAppearsInCalmIsAddedUpWithTheTemperatureAtWhichItBegan() {
    IntToDoubleFunction back = i -> i < 40 ? 0 : -1e-6 * (i - 40);
    UptakeLog.Course course = watched(60, back, i -> i < 55 ? 500 : 500.25);
    // Clear is 0.4 µmol a minute: five minutes of ten are enough.
    assertEquals(15e-6, course.backMol(), 1.01e-6);
    assertEquals(500, course.backK());
    UptakeLog.Course faint = watched(60, i -> -0.39e-6 * i, i -> 500);
    assertEquals(0, faint.backMol());
    UptakeLog.Course clear = watched(60, i -> -0.41e-6 * i, i -> 500);
    assertEquals(39 * 0.41e-6, clear.backMol(), 1e-9, "from minute 21 on");
    UptakeLog.Course heated = watched(60, back, i -> 500 + i);
    assertEquals(0, heated.backMol(), "not in calm");
    assertEquals(0, heated.backK());
  }

  @Test
  void aMinuteOfUptakeAmongThemTakesNothingBackOff() {
    IntToDoubleFunction back = i -> i == 50 ? -1e-6 * 48 : -1e-6 * i;
    UptakeLog.Course course = watched(52, back, i -> 500);
    // Minute 50 gave 1 µmol to the solid; minute 51 three back again.
    assertEquals((49 - 20) * 1e-6 + 3e-6, course.backMol(), 1e-9);
  }

  @Test
  void whatComesBackWhileItIsHeatedCountsInExcessOfWhatGoesAgain() {
    IntToDoubleFunction back = i -> i < 30 ? 0 : -2e-6 * (i - 30);
    assertEquals(38e-6, watched(50, back, i -> 400 + i).heatedBackMol(), 1e-9);
    assertEquals(0, watched(50, back, i -> 400).heatedBackMol(), "that is calm");
    IntToDoubleFunction andAgain = i -> i < 40 ? back.applyAsDouble(i) : -20e-6 + 5e-6 * (i - 40);
    assertEquals(5e-6, watched(44, andAgain, i -> 400 + i).heatedBackMol(), 1e-9);
    assertEquals(0, watched(50, andAgain, i -> 400 + i).heatedBackMol(), 1e-12, "never less");
  }

  /** 10 µmol a minute until minute 40, then 1: the rate of ten minutes falls by nine tenths. */
  @Test
  void theSteepestFallOfTheRateInCalmIsKept() {
    IntToDoubleFunction breaks = i -> i < 40 ? 1e-5 * i : 4e-4 + 1e-6 * (i - 40);
    assertEquals(0.9, watched(60, breaks, i -> 500).steepestFall(), 1e-9);
    assertEquals(0.9, watched(90, breaks, i -> 500).steepestFall(), 1e-9, "it stays");
    assertEquals(0, watched(60, breaks, i -> 500 + i).steepestFall(), "it moved");
    assertEquals(0, watched(60, i -> 1e-5 * i, i -> 500).steepestFall(), 1e-9);
    // Twice the clear rate is needed before: 0.8 µmol a minute.
    assertEquals(0, watched(60, i -> 0.79e-6 * StrictMath.min(i, 40), i -> 500).steepestFall());
    assertEquals(
        1, watched(60, i -> 0.81e-6 * StrictMath.min(i, 40), i -> 500).steepestFall(), 1e-9);
  }

  private static TickWork rested(double seconds, double uptakeMolPerS) {
    Plan plan = Plan.of(TestSteps.recipe(TestSteps.soak(500, 1e6, 3)), new TestRig().build());
    GasByHand gas = new GasByHand(plan, 6e-3).rest(seconds, uptakeMolPerS);
    TickWork work = gas.work;
    work.readings = ControlBench.with(TestSteps.soak(500, 1e6, 3)).allAtK(450).readings;
    return work;
  }

  @Test
  void aPointIsTakenOnceAMinuteWhileTheRateIsKnown() {
    TickWork work = rested(60, 0);
    work.lastMillis = 90_000;
    UptakeLog first = work.log.step(work);
    assertEquals(1, first.window().timeS().length);
    assertEquals(90, first.window().timeS()[0]);
    assertEquals(work.gas.uptakeMol(), first.window().uptakeMol()[0]);
    assertEquals(450, first.course().lastK(), 0.1);
    work.lastMillis = 149_750;
    assertSame(first, first.step(work));
    work.lastMillis = 150_000;
    assertEquals(2, first.step(work).window().timeS().length);
    TickWork unknown = rested(10, 0);
    unknown.lastMillis = 90_000;
    assertSame(unknown.log, unknown.log.step(unknown), "the rate is not known yet");
  }

  /** 4 of three times the step's spread in ten minutes are clear. */
  @Test
  void theNoiseOfAPointIsThreeTimesThatOfAStep() {
    TickWork work = rested(60, 0);
    double step = StrictMath.sqrt(work.gas.stepVariance());
    double perMinute = 2 * 4 * 3 * step / 10;
    for (double share : new double[] {0.98, 1.02}) {
      UptakeLog.Window window = window(29, i -> share * perMinute * (i - 29));
      UptakeLog.Course course = new UptakeLog.Course(0, 0, 0, 0, 0, 0, 0, 0, 40, 450);
      double[] none = {};
      UptakeLog log = new UptakeLog(0, none, none, 60, window, course);
      work.lastMillis = 29 * 60_000;
      double takingK = log.step(work).course().takingK();
      assertEquals(share > 1 ? 450 : 0, takingK, 0.1);
    }
  }

  @Test
  void anOpenVesselBeginsTheLogAnew() {
    TickWork work = rested(200, 1e-6);
    work.run = OpenRun.begin(TestSteps.open());
    work.log =
        new UptakeLog(
            3, new double[] {60}, new double[] {1}, 120, window(5, i -> i), UptakeLog.Course.EMPTY);
    UptakeLog anew = work.log.step(work);
    assertEquals(-1, anew.position());
    assertEquals(0, anew.soakS().length);
    assertEquals(60, anew.everyS());
    assertSame(UptakeLog.Window.EMPTY, anew.window());
    assertEquals(work.gas.uptakeMol(), anew.course().startMol());
    assertTrue(anew.course().startMol() > 1e-4);
  }

  /** The log of a soak whose uptake at every point is the number of seconds in it. */
  private static UptakeLog soaked(TickWork work, UptakeLog log, double inBandS) {
    work.run = new SoakRun(TestSteps.soak(500, 1e6, 3), 1, inBandS);
    work.log = log;
    work.lastMillis = 0;
    return log.step(work);
  }

  private static UptakeLog upTo(TickWork work, double untilS) {
    double[] none = {};
    UptakeLog.Window never = new UptakeLog.Window(1e9, none, none, new int[0]);
    UptakeLog log = new UptakeLog(-1, none, none, 60, never, UptakeLog.Course.EMPTY);
    for (double s = 0; s <= untilS; s += 15) {
      log = soaked(work, log, s);
    }
    return log;
  }

  @Test
  void aSoakIsLoggedEveryMinuteOfItsBand() {
    TickWork work = rested(200, 1e-6);
    UptakeLog log = upTo(work, 150);
    assertEquals(0, log.position());
    assertArrayEquals(new double[] {15, 75, 135}, log.soakS(), "not at its very beginning");
    assertEquals(work.gas.uptakeMol(), log.uptakeMol()[2]);
    TickWork unknown = rested(10, 0);
    assertEquals(0, upTo(unknown, 150).soakS().length);
    work.run = new RampRun(TestSteps.ramp(500, 1));
    assertSame(log, log.step(work), "a ramp is no soak");
  }

  @Test
  void anotherSoakOrTheSameOneOnceMoreIsLoggedAnew() {
    TickWork work = rested(200, 1e-6);
    UptakeLog log = upTo(work, 150);
    assertSame(log, soaked(work, log, 150), "the same soak goes on");
    assertSame(log, soaked(work, log, 135), "at the time of the last point");
    assertEquals(0, soaked(work, log, 134).soakS().length, "time that runs back: another pass");
    work.cursor = work.cursor.at(1);
    UptakeLog next = soaked(work, log, 200);
    assertEquals(1, next.position());
    assertEquals(0, next.soakS().length);
  }

  @Test
  void aFullLogKeepsEverySecondPointAndTakesThemHalfAsOften() {
    TickWork work = rested(200, 1e-6);
    UptakeLog full = upTo(work, 15 + 119 * 60);
    assertEquals(120, full.soakS().length);
    assertEquals(60, full.everyS());
    UptakeLog thinned = soaked(work, full, 15 + 120 * 60);
    assertEquals(120, thinned.everyS());
    assertEquals(61, thinned.soakS().length);
    assertEquals(75, thinned.soakS()[0]);
    assertEquals(15 + 119 * 60, thinned.soakS()[59]);
    assertEquals(15 + 120 * 60, thinned.soakS()[60]);
    double[] amounts = new double[120];
    double[] times = new double[120];
    for (int i = 0; i < 120; i++) {
      amounts[i] = i;
      times[i] = 15 + 60 * i;
    }
    UptakeLog counted = new UptakeLog(0, times, amounts, 60, full.window(), UptakeLog.Course.EMPTY);
    UptakeLog half = soaked(work, counted, 15 + 120 * 60);
    assertEquals(1, half.uptakeMol()[0]);
    assertEquals(119, half.uptakeMol()[59]);
  }

  /** 1 µmol a minute from minute 40 on: five of ten minutes are more than 4 µmol. */
  @Test
  void theTemperatureOfWhatCameBackIsThatOfItsFirstClearMinute() {
    UptakeLog.Course course = watched(60, i -> i < 40 ? 0 : -1e-6 * (i - 40), i -> 500 + 0.01 * i);
    assertEquals(500.45, course.backK(), 1e-9);
  }
}
