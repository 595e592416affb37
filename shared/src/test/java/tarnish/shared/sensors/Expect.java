package tarnish.shared.sensors;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;

import tarnish.shared.reading.BadReason;
import tarnish.shared.reading.Reading;

/** Unpacks readings in tests. */
final class Expect {
  private Expect() {}

  static double good(Reading reading) {
    return assertInstanceOf(Reading.Good.class, reading).value();
  }

  static void bad(BadReason reason, Reading reading) {
    assertEquals(new Reading.Bad(reason), reading);
  }
}
