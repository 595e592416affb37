package tarnish.controller.notify;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;

/** Debian's broker as a process of its own on this machine. */
final class Mosquitto implements AutoCloseable {
  private static final Path PROGRAM = Path.of("/usr/sbin/mosquitto");

  private final Process process;
  private final int port;

  private Mosquitto(Process process, int port) {
    this.process = process;
    this.port = port;
  }

  int port() {
    return port;
  }

  static int freePort() throws IOException {
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      return socket.getLocalPort();
    }
  }

  static Mosquitto start(int port, Path folder) throws IOException {
    if (!Files.isExecutable(PROGRAM)) {
      throw new IllegalStateException("this test needs " + PROGRAM + " (Debian package mosquitto)");
    }
    Path settings =
        Files.writeString(
            folder.resolve("mosquitto.conf"),
            "listener " + port + " 127.0.0.1\nallow_anonymous true\nmax_queued_messages 100000\n");
    Process process =
        new ProcessBuilder(PROGRAM.toString(), "-c", settings.toString())
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve("mosquitto.log").toFile())
            .start();
    while (!answers(port)) {
      if (!process.isAlive()) {
        throw new IllegalStateException(Files.readString(folder.resolve("mosquitto.log")));
      }
      Thread.onSpinWait();
    }
    return new Mosquitto(process, port);
  }

  private static boolean answers(int port) {
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
      return socket.isConnected();
    } catch (IOException notYet) {
      return false;
    }
  }

  @Override
  public void close() {
    process.destroyForcibly();
    try {
      process.waitFor();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
