package tarnish.controller.service;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.Locale;

/** One request written byte by byte, so that a test can send what no client library would. */
final class RawHttp {
  private static final int PATIENCE_MILLIS = 20_000;

  private RawHttp() {}

  /** What came back; {@code status} is 0 if the connection was closed without a word. */
  record Answer(int status, String all) {
    boolean hasHeader(String line) {
      return all.toLowerCase(Locale.ROOT).contains("\r\n" + line.toLowerCase(Locale.ROOT));
    }
  }

  static Answer send(int port, byte[] request) throws IOException {
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
      socket.setSoTimeout(PATIENCE_MILLIS);
      socket.getOutputStream().write(request);
      socket.getOutputStream().flush();
      socket.shutdownOutput();
      String all = new String(socket.getInputStream().readAllBytes(), StandardCharsets.ISO_8859_1);
      boolean spoken = all.startsWith("HTTP/1.1 ");
      return new Answer(spoken ? Integer.parseInt(all.substring(9, 12)) : 0, all);
    }
  }

  /** A whole request with a body, of which the length is told. */
  static byte[] request(String method, String path, String headers, byte[] body) {
    String head =
        method
            + " "
            + path
            + " HTTP/1.1\r\n"
            + headers
            + "Content-Length: "
            + body.length
            + "\r\nConnection: close\r\n\r\n";
    byte[] first = head.getBytes(StandardCharsets.ISO_8859_1);
    byte[] all = new byte[first.length + body.length];
    System.arraycopy(first, 0, all, 0, first.length);
    System.arraycopy(body, 0, all, first.length, body.length);
    return all;
  }
}
