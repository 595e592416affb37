package tarnish.controller.app;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

class PackagedTest {
  private static final Path DEB = Path.of("src/deb");

  @Test
  void theFiguresAreTakenWithTheOptionsOfTheUnitAndOfItsClassArchive() throws IOException {
    for (String file : new String[] {"tarnish.service", "control/postinst"}) {
      String text = Files.readString(DEB.resolve(file));
      for (String option : Packaged.OPTIONS) {
        assertTrue(text.contains(option), option + " in " + file);
      }
    }
  }

  @Test
  void theUnitGivesTheLoopItsPriorityByTheScriptOfThePackage() throws IOException {
    String unit = Files.readString(DEB.resolve("tarnish.service"));
    assertTrue(unit.contains("\nExecStartPost=-+/usr/share/tarnish/loop-first $MAINPID\n"), unit);
    assertTrue(Files.isExecutable(DEB.resolve("loop-first")));
  }
}
