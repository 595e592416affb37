package tarnish.controller.notify;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The short version of {@code .ci/benches}. */
class ManyBenchesIT {
  @Test
  void twoBenchesShareOneBrokerAndOneStoreAndAreToldApart(@TempDir Path folder) throws Exception {
    ManyBenches.Result result = ManyBenches.run(folder, 2, 2);
    assertEquals(2, result.states().size(), result.states()::toString);
    for (int i = 1; i <= 2; i++) {
      assertTrue(result.messages().get("lab/bench-" + i + "/readings") >= 2);
      String ticks = "tarnish_loop_ticks_total{bench=\"bench-" + i + "\"} ";
      assertTrue(result.metrics().contains(ticks), result.metrics());
    }
    long families =
        result.metrics().lines().map(line -> line.replaceAll("[{ ].*", "")).distinct().count();
    assertTrue(families > 10, result.metrics());
  }
}
