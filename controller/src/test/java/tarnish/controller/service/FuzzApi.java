package tarnish.controller.service;

import java.util.Set;
import tarnish.controller.control.Request;

/** Any bytes as the body of a request, and of a start of a batch. */
public final class FuzzApi {
  private FuzzApi() {}

  public static void fuzzerTestOneInput(byte[] data) {
    try {
      Request request = RequestReader.read(Json.read(data));
      if (request.by() == null || request.by().isEmpty()) {
        throw new AssertionError("a request of nobody");
      }
      tarnish.controller.journal.FuzzRecord.roundTrip(request);
    } catch (Refused expected) {
      told(expected);
    }
    try {
      Fields fields = Fields.of(Json.read(data), Set.of("recipe", "by"));
      fields.text("recipe", 100_000);
      fields.line("by", RequestReader.NAME_LENGTH_MAX);
    } catch (Refused expected) {
      told(expected);
    }
  }

  private static void told(Refused refusal) {
    if (refusal.status() < 400 || refusal.status() > 499 || refusal.getMessage().isEmpty()) {
      throw new AssertionError("refused without words: " + refusal.status());
    }
  }
}
