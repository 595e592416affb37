package tarnish.controller.control;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static tarnish.controller.control.AlarmState.ACKNOWLEDGED;
import static tarnish.controller.control.AlarmState.LATCHED_ACKNOWLEDGED;
import static tarnish.controller.control.AlarmState.LATCHED_UNACKNOWLEDGED;
import static tarnish.controller.control.AlarmState.NORMAL;
import static tarnish.controller.control.AlarmState.RETURNED_UNACKNOWLEDGED;
import static tarnish.controller.control.AlarmState.UNACKNOWLEDGED;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The alarm states of IEC 62682 / ISA-18.2-2016 (state diagram from memory). */
class AlarmStateTest {

  @ParameterizedTest(name = "{0}: raised {1}, returned {2}, latching {3}, ack {4}, reset {5}")
  @CsvSource({
    "NORMAL, UNACKNOWLEDGED, NORMAL, NORMAL, NORMAL, NORMAL",
    "UNACKNOWLEDGED, UNACKNOWLEDGED, RETURNED_UNACKNOWLEDGED, LATCHED_UNACKNOWLEDGED,"
        + " ACKNOWLEDGED, UNACKNOWLEDGED",
    "ACKNOWLEDGED, ACKNOWLEDGED, NORMAL, LATCHED_ACKNOWLEDGED, ACKNOWLEDGED, ACKNOWLEDGED",
    "RETURNED_UNACKNOWLEDGED, UNACKNOWLEDGED, RETURNED_UNACKNOWLEDGED, RETURNED_UNACKNOWLEDGED,"
        + " NORMAL, RETURNED_UNACKNOWLEDGED",
    "LATCHED_UNACKNOWLEDGED, UNACKNOWLEDGED, LATCHED_UNACKNOWLEDGED, LATCHED_UNACKNOWLEDGED,"
        + " LATCHED_ACKNOWLEDGED, NORMAL",
    "LATCHED_ACKNOWLEDGED, UNACKNOWLEDGED, LATCHED_ACKNOWLEDGED, LATCHED_ACKNOWLEDGED,"
        + " LATCHED_ACKNOWLEDGED, NORMAL",
  })
  void everyEventLeadsWhereTheStandardSays(
      AlarmState from,
      AlarmState raised,
      AlarmState returned,
      AlarmState returnedLatching,
      AlarmState acknowledged,
      AlarmState reset) {
    assertEquals(raised, from.raised());
    assertEquals(returned, from.returned(false));
    assertEquals(returnedLatching, from.returned(true));
    assertEquals(acknowledged, from.acknowledged());
    assertEquals(reset, from.reset());
  }

  @Test
  void theUnacknowledgedAndTheLatchedAreTold() {
    assertTrue(UNACKNOWLEDGED.isUnacknowledged());
    assertTrue(RETURNED_UNACKNOWLEDGED.isUnacknowledged());
    assertTrue(LATCHED_UNACKNOWLEDGED.isUnacknowledged());
    assertFalse(NORMAL.isUnacknowledged());
    assertFalse(ACKNOWLEDGED.isUnacknowledged());
    assertFalse(LATCHED_ACKNOWLEDGED.isUnacknowledged());
    for (AlarmState each : AlarmState.values()) {
      boolean latched = each == LATCHED_UNACKNOWLEDGED || each == LATCHED_ACKNOWLEDGED;
      assertEquals(latched, each.isLatchedOnly(), each.words());
    }
  }
}
