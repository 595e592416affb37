package tarnish.controller.service;

import io.javalin.http.Context;
import java.io.IOException;

/** Reads what was sent, up to a limit. */
final class Bodies {
  private Bodies() {}

  /**
   * @throws Refused if it is longer or breaks off
   */
  static byte[] read(Context context, int bytesMax) {
    byte[] body;
    try {
      body = context.req().getInputStream().readNBytes(bytesMax + 1);
    } catch (IOException e) {
      throw Refused.malformed("The request broke off.");
    }
    if (body.length > bytesMax) {
      context.header("Connection", "close");
      throw new Refused(413, "The request is longer than " + bytesMax / 1024 + " KiB.");
    }
    return body;
  }
}
