package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;

/** The run that the package's class archive is made of. */
class WarmUpTest {
  @Test
  void itServesTheDemonstrationStartsABatchAndEnds() {
    StringWriter said = new StringWriter();
    PrintWriter out = new PrintWriter(said);
    assertEquals(0, Main.run(out, out, "warm-up"), said::toString);
  }
}
