package tarnish.controller.files;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import org.junit.jupiter.api.Test;
import tarnish.shared.oven.IdentifiedOven;
import tarnish.shared.oven.OvenModel;
import tarnish.shared.rig.RigDescription;

class OvenModelFileTest {
  private static final OvenModel SOME =
      new OvenModel(0.5123, 21.25, 3.75, 1700, 0.0125, 130.5, 0.735, 60.25, 0.64, 8000, 0.0725);

  private static final IdentifiedOven OVEN =
      new IdentifiedOven(
          SOME,
          new double[] {0.01, 1, 0.5, 10, 0.01, 2, 0.02, 2, 0.03, 100, 0.01},
          "quartz tube A",
          LocalDate.of(2026, 3, 4),
          0.25);

  private static String demo() throws Exception {
    return Files.readString(Path.of("../sim/demo/bench.rig.yaml"));
  }

  private static ReadResult<RigDescription> read(String text) {
    return RigReader.read("rig", text);
  }

  @Test
  void whatIsWrittenIsReadBack() throws Exception {
    String text = OvenModelText.into(demo(), OVEN).orElseThrow();
    ReadResult<RigDescription> read = read(text);
    assertTrue(read.isGood(), () -> read.faults().toString());
    assertEquals(OVEN, read.value().regulation().model().orElseThrow());
    assertEquals(
        text, OvenModelText.into(text, OVEN).orElseThrow(), "writing again changes nothing");
  }

  @Test
  void everythingElseInTheFileStays() throws Exception {
    String text = OvenModelText.into(demo(), OVEN).orElseThrow();
    RigDescription before = read(demo()).value();
    RigDescription after = read(text).value();
    assertEquals(before.withRegulation(after.regulation()), after);
  }

  @Test
  void aModelOfAnotherVesselIsRefused() throws Exception {
    String text = OvenModelText.into(demo(), OVEN).orElseThrow();
    String other = text.replace("    vessel: quartz tube A", "    vessel: quartz tube B");
    ReadResult<RigDescription> read = read(other);
    assertFalse(read.isGood());
    assertTrue(read.faults().toString().contains("run identify again"), read.faults().toString());
  }

  @Test
  void aModelWithoutAParameterADayOrSenseIsRefused() throws Exception {
    String text = OvenModelText.into(demo(), OVEN).orElseThrow();
    for (String[] change :
        new String[][] {
          {"    dead time: ", "    deed time: "},
          {"identified: 2026-03-04", "identified: March"},
          {"heating: 0.51230 K/s", "heating: 51230 K/s"},
          {"vessel by radiation: 73.500 %", "vessel by radiation: 173.500 %"}
        }) {
      assertTrue(text.contains(change[0]), change[0]);
      assertFalse(read(text.replace(change[0], change[1])).isGood(), change[1]);
    }
  }

  @Test
  void anOldModelIsKnownToBeOld() {
    assertFalse(OVEN.isOld(LocalDate.of(2026, 8, 31)));
    assertTrue(OVEN.isOld(LocalDate.of(2026, 9, 1)));
  }
}
