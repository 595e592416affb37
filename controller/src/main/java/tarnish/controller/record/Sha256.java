package tarnish.controller.record;

import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.security.DigestOutputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** Fingerprints of texts as the record prints them. */
final class Sha256 {
  /** Writes a text, such as an export. */
  interface Text {
    void writeTo(Writer to) throws IOException;
  }

  private Sha256() {}

  static String of(byte[] bytes) {
    return HexFormat.of().formatHex(digest().digest(bytes));
  }

  static String of(String text) {
    return of(text.getBytes(StandardCharsets.UTF_8));
  }

  /** Writes the text on in UTF-8, without closing, and gives its fingerprint. */
  static String of(Text text, OutputStream onTo) {
    MessageDigest digest = digest();
    try {
      Writer writer =
          new OutputStreamWriter(new DigestOutputStream(onTo, digest), StandardCharsets.UTF_8);
      text.writeTo(writer);
      writer.flush();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return HexFormat.of().formatHex(digest.digest());
  }

  private static MessageDigest digest() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
