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

  /** Nothing but what this service sends, no markup in line, no frame, no form; styles apart. */
  static final String POLICY =
      "default-src 'none'; script-src 'self'; connect-src 'self'; img-src 'self';"
          + " object-src 'none'; base-uri 'none'; frame-ancestors 'none'; form-action 'none'";

  /** On every answer, errors included. */
  static final Map<String, String> HEADERS =
      Map.of(
          "Content-Security-Policy",
          POLICY + "; style-src 'self'",
          "X-Content-Type-Options",
          "nosniff",
          "Referrer-Policy",
          "no-referrer",
          "Cross-Origin-Resource-Policy",
          "same-origin",
          "Cross-Origin-Opener-Policy",
          "same-origin",
          "Cache-Control",
          "no-store");

  private static final int TOKEN_BYTES = 32;

  private final WebSettings settings;
  private final String token;
  private volatile Set<String> hosts = Set.of();

  Guard(WebSettings settings) {
    this.settings = settings;
    byte[] random = new byte[TOKEN_BYTES];
    new SecureRandom().nextBytes(random);
    token = HexFormat.of().formatHex(random);
  }

  /** What writes carry where nobody signs in. */
  String token() {
    return token;
  }

  /** Headers of every answer. */
  void addHeaders(Context context) {
    HEADERS.forEach(context::header);
    if (settings.behindTls()) {
      context.header("Strict-Transport-Security", "max-age=31536000");
    }
  }

  /** Names this machine by the port that was bound; until then every request is refused. */
  void boundTo(int port) {
    hosts = HostNames.of(settings, port);
  }

  /** Checked for every request. */
  void checkAddressee(Context context) {
    String host = context.header("Host");
    if (host == null || !hosts.contains(host.toLowerCase(Locale.ROOT))) {
      throw Refused.forbidden(
          settings.isLocal()
              ? "This service answers only as 127.0.0.1 or localhost with its own port number;"
                  + " over a tunnel, use the same port number at both ends."
              : "This service answers only under its own names; add this one with --name where it"
                  + " is right.");
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
    if (origin != null && !isOwn(origin, context.header("Host"))) {
      throw Refused.forbidden("A page of another site may not change anything here.");
    }
    if (context.header(TOKEN_HEADER) == null) {
      throw Refused.forbidden("A change needs the header " + TOKEN_HEADER + ".");
    }
  }

  private boolean isOwn(String origin, String host) {
    return origin.equalsIgnoreCase((settings.behindTls() ? "https://" : "http://") + host);
  }

  void checkToken(Context context, String wanted) {
    if (!MessageDigest.isEqual(bytes(context.header(TOKEN_HEADER)), bytes(wanted))) {
      throw Refused.forbidden(
          "The page was loaded before the service last started: load it again.");
    }
  }

  /** What an HTML form of another site cannot send without being asked first. */
  void checkType(Context context) {
    String type = context.contentType();
    String plain = type == null ? "" : type.split(";", 2)[0].strip().toLowerCase(Locale.ROOT);
    boolean photo = context.path().equals(PhotoRoutes.UPLOAD);
    if (photo ? !PhotoRoutes.TYPES.contains(plain) : !plain.equals("application/json")) {
      throw new Refused(
          415,
          photo
              ? "A photo must be sent as image/jpeg or image/png."
              : "A change must be sent as application/json.");
    }
  }

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
