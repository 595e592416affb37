package tarnish.controller.library;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** SHA-256 in hexadecimal digits. */
public final class Checksum {
  private Checksum() {}

  public static String of(String text) {
    return of(text.getBytes(StandardCharsets.UTF_8));
  }

  public static String of(byte[] bytes) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }

  /** Whether the text is 64 hexadecimal digits in small letters. */
  public static boolean isOne(String text) {
    return text.matches("[0-9a-f]{64}");
  }
}
