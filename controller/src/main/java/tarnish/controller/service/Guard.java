package tarnish.controller.service;

import io.javalin.http.Context;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.HexFormat;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/**
 * Who may ask at all. A page of another site, or another site's name pointed at this machine (DNS
 * rebinding), gets nothing; only a page loaded from here can learn the token that writes need.
 */
final class Guard {
  static final String TOKEN_HEADER = "X-Tarnish-Token";

  /** On every answer, errors included. */
  static final Map<String, String> HEADERS =
      Map.of(
          "Content-Security-Policy",
              "default-src 'self'; object-src 'none'; base-uri 'none'; frame-ancestors 'none';"
                  + " form-action 'none'",
          "X-Content-Type-Options", "nosniff",
          "Referrer-Policy", "no-referrer",
          "Cross-Origin-Resource-Policy", "same-origin",
          "Cross-Origin-Opener-Policy", "same-origin",
          "Cache-Control", "no-store");

  private static final int TOKEN_BYTES = 32;

  private final String token;
  private volatile Set<String> hosts = Set.of();

  Guard() {
    byte[] random = new byte[TOKEN_BYTES];
    new SecureRandom().nextBytes(random);
    token = HexFormat.of().formatHex(random);
  }

  String token() {
    return token;
  }

  /** Names this machine by the port that was bound; until then every request is refused. */
  void boundTo(int port) {
    hosts =
        port == 80
            ? Set.of("127.0.0.1", "localhost", "127.0.0.1:80", "localhost:80")
            : Set.of("127.0.0.1:" + port, "localhost:" + port);
  }

  /** Checked for every request. */
  void checkAddressee(Context context) {
    String host = context.header("Host");
    if (host == null || !hosts.contains(host.toLowerCase(Locale.ROOT))) {
      throw Refused.forbidden(
          "This service answers only as 127.0.0.1 or localhost with its own port number;"
              + " over a tunnel, use the same port number at both ends.");
    }
    String site = context.header("Sec-Fetch-Site");
    boolean api = context.path().startsWith("/api/");
    if (api && site != null && !site.equals("same-origin") && !site.equals("none")) {
      throw Refused.forbidden("A page of another site may not ask here.");
    }
  }

  /** Checked for everything that changes anything, the emergency included. */
  void checkOrigin(Context context) {
    String origin = context.header("Origin");
    if (origin != null && !origin.equalsIgnoreCase("http://" + context.header("Host"))) {
      throw Refused.forbidden("A page of another site may not change anything here.");
    }
    if (context.header(TOKEN_HEADER) == null) {
      throw Refused.forbidden("A change needs the header " + TOKEN_HEADER + ".");
    }
  }

  /** Checked for everything that changes anything, except the emergency. */
  void checkWrite(Context context) {
    checkOrigin(context);
    String given = context.header(TOKEN_HEADER);
    if (!MessageDigest.isEqual(bytes(given), bytes(token))) {
      throw Refused.forbidden(
          "The page was loaded before the service last started: load it again.");
    }
    String type = context.contentType();
    String plain = type == null ? "" : type.split(";", 2)[0].strip().toLowerCase(Locale.ROOT);
    if (!plain.equals("application/json")) {
      throw new Refused(415, "A change must be sent as application/json.");
    }
  }

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
