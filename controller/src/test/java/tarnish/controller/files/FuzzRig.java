package tarnish.controller.files;

import java.nio.charset.StandardCharsets;

/** Any bytes as a rig file with its devices. */
public final class FuzzRig {
  private FuzzRig() {}

  public static void fuzzerTestOneInput(byte[] data) {
    ReadResult<String> decoded = FileText.decode("f", data);
    String text =
        decoded.isGood() ? decoded.value() : new String(data, StandardCharsets.ISO_8859_1);
    HarmlessResult.check(RigReader.readFile("f", text), text, text);
  }
}
