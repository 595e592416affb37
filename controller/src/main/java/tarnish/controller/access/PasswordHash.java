package tarnish.controller.access;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.bouncycastle.crypto.generators.Argon2BytesGenerator;
import org.bouncycastle.crypto.params.Argon2Parameters;

/**
 * Passwords as Argon2id hashes (RFC 9106) in the usual text form, {@code
 * $argon2id$v=19$m=7168,t=5,p=1$salt$hash}.
 *
 * <p>7 MiB and 5 passes are one of the equal choices of the OWASP Password Storage Cheat Sheet
 * (from memory); the least memory of them, because the service runs with a small heap. The figures
 * stand in each hash, so that they can grow later.
 */
public final class PasswordHash {
  /** Long rather than colourful: NIST SP 800-63B and ASVS 5.0 6.2.1, 6.2.5, 6.2.9. */
  public static final int LENGTH_MIN = 12;

  public static final int LENGTH_MAX = 128;

  private static final int MEMORY_KIB = 7168;
  private static final int PASSES = 5;
  private static final int LANES = 1;
  private static final int SALT_BYTES = 16;
  private static final int HASH_BYTES = 32;

  /** A hash from a file that asks for more than this is damaged or hostile. */
  private static final int MEMORY_MAX_KIB = 64 * 1024;

  private static final int PASSES_MAX = 20;
  private static final Pattern FORM =
      Pattern.compile(
          "\\$argon2id\\$v=19\\$m=(\\d{1,6}),t=(\\d{1,3}),p=(\\d{1,2})"
              + "\\$([A-Za-z0-9+/]{8,86})\\$([A-Za-z0-9+/]{16,86})");

  private static final SecureRandom RANDOM = new SecureRandom();

  private PasswordHash() {}

  /** A new hash with a salt of its own. */
  public static String of(char[] password) {
    byte[] salt = new byte[SALT_BYTES];
    RANDOM.nextBytes(salt);
    byte[] hash = hash(password, salt, MEMORY_KIB, PASSES, LANES, HASH_BYTES);
    Base64.Encoder base64 = Base64.getEncoder().withoutPadding();
    return "$argon2id$v=19$m="
        + MEMORY_KIB
        + ",t="
        + PASSES
        + ",p="
        + LANES
        + "$"
        + base64.encodeToString(salt)
        + "$"
        + base64.encodeToString(hash);
  }

  /** Whether the text is a hash that {@link #matches} can work with. */
  public static boolean isWellFormed(String hash) {
    Matcher parts = FORM.matcher(hash);
    return parts.matches()
        && between(parts.group(1), 8, MEMORY_MAX_KIB)
        && between(parts.group(2), 1, PASSES_MAX)
        && between(parts.group(3), 1, 4);
  }

  private static boolean between(String number, int least, int greatest) {
    int value = Integer.parseInt(number);
    return value >= least && value <= greatest;
  }

  /** Whether the password belongs to the hash; the time does not tell how much of it fits. */
  public static boolean matches(char[] password, String hash) {
    Matcher parts = FORM.matcher(hash);
    if (!isWellFormed(hash) || !parts.matches()) {
      return false;
    }
    byte[] wanted = Base64.getDecoder().decode(parts.group(5));
    byte[] given =
        hash(
            password,
            Base64.getDecoder().decode(parts.group(4)),
            Integer.parseInt(parts.group(1)),
            Integer.parseInt(parts.group(2)),
            Integer.parseInt(parts.group(3)),
            wanted.length);
    return MessageDigest.isEqual(wanted, given);
  }

  private static byte[] hash(
      char[] password, byte[] salt, int memoryKib, int passes, int lanes, int length) {
    Argon2BytesGenerator generator = new Argon2BytesGenerator();
    generator.init(
        new Argon2Parameters.Builder(Argon2Parameters.ARGON2_id)
            .withVersion(Argon2Parameters.ARGON2_VERSION_13)
            .withMemoryAsKB(memoryKib)
            .withIterations(passes)
            .withParallelism(lanes)
            .withSalt(salt)
            .build());
    byte[] bytes = new String(password).getBytes(StandardCharsets.UTF_8);
    byte[] hash = new byte[length];
    generator.generateBytes(bytes, hash);
    java.util.Arrays.fill(bytes, (byte) 0);
    return hash;
  }

  /** Why a new password will not do, or empty. */
  public static String complaint(char[] password, String name) {
    String text = new String(password);
    int length = text.codePointCount(0, text.length());
    if (length < LENGTH_MIN || length > LENGTH_MAX) {
      return "A password must have " + LENGTH_MIN + " to " + LENGTH_MAX + " characters.";
    }
    String plain = text.toLowerCase(java.util.Locale.ROOT);
    if (text.codePoints().distinct().count() < 5) {
      return "A password must have at least five different characters.";
    }
    String without =
        plain
            .replace(name.toLowerCase(java.util.Locale.ROOT), "")
            .replace("tarnish", "")
            .replace("password", "")
            .replace("operate", "");
    return without.length() < LENGTH_MIN / 2
        ? "A password must be more than the name of the person, of this program or of the role."
        : "";
  }
}
