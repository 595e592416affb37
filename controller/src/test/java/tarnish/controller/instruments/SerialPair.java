package tarnish.controller.instruments;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Assumptions;

/** Two pseudo-terminals joined by socat, as a serial cable joins two ports. */
public final class SerialPair implements AutoCloseable {
  private static final String MISSING =
      "socat is not installed (Debian: apt-get install socat): the tests over pseudo-terminals DID"
          + " NOT RUN";

  private final Path near;
  private final Path far;
  private Process socat;

  private SerialPair(Path near, Path far) {
    this.near = near;
    this.far = far;
  }

  public static SerialPair open(Path folder, String name) throws IOException, InterruptedException {
    boolean there = Files.isExecutable(Path.of("/usr/bin/socat"));
    if (!there) {
      System.err.println(MISSING);
      Assumptions.abort(MISSING);
    }
    SerialPair pair = new SerialPair(folder.resolve(name), folder.resolve(name + "-far"));
    pair.plugIn();
    return pair;
  }

  public void plugIn() throws IOException, InterruptedException {
    socat =
        new ProcessBuilder(
                "/usr/bin/socat",
                "PTY,link=" + near + ",raw,echo=0",
                "PTY,link=" + far + ",raw,echo=0")
            .redirectErrorStream(true)
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .start();
    for (int i = 0; i < 500 && !(Files.exists(near) && Files.exists(far)); i++) {
      Thread.sleep(10);
    }
  }

  /** Both ends vanish, as when a USB cable is pulled. */
  public void pull() {
    socat.destroy();
    socat.onExit().join();
  }

  public Path near() {
    return near;
  }

  public Path far() {
    return far;
  }

  @Override
  public void close() {
    pull();
  }
}
