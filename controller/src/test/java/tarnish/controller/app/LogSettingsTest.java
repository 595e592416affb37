package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.slf4j.LoggerFactory;

class LogSettingsTest {
  /** In 550 s of fuzzing one of these wrote 1.6 GB. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "com.digitalpetri.modbus.client.ModbusRtuClient",
        "org.eclipse.jetty.http.HttpParser"
      })
  void whatOthersSendCannotFillTheLog(String logger) {
    assertFalse(LoggerFactory.getLogger(logger).isWarnEnabled());
  }

  @Test
  void ourOwnWordsAreHeard() {
    assertTrue(LoggerFactory.getLogger(LogSettings.class).isInfoEnabled());
  }
}
