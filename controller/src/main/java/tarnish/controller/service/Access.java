package tarnish.controller.service;

import io.javalin.http.Context;
import io.javalin.http.HandlerType;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import tarnish.controller.access.RateLimit;
import tarnish.controller.access.Role;
import tarnish.controller.access.Session;
import tarnish.controller.access.Sessions;

/**
 * Stands before every route, so that none can forget it: who asks, how often, and whether a change
 * comes from this page and from somebody who may.
 */
final class Access {
  static final String COOKIE = "tarnish";

  /** With TLS: only ever sent to the host that set it, and only over https. */
  static final String COOKIE_TLS = "__Host-tarnish";

  private static final String LOGIN = "/api/login";
  private static final String ABORT = "/api/abort";

  /** What may be read before signing in: it says nothing of the bench. */
  private static final Set<String> OPEN_READS = Set.of("/api/session");

  /** Asked with a body, and yet nothing is changed by them. */
  private static final Set<String> HARMLESS =
      Set.of("/api/logout", "/api/recipes/check", "/api/changes/preview");

  private final WebSettings settings;
  private final Guard guard;
  private final Sessions sessions;
  private final PeopleList people;
  private final RateLimit reads;
  private final RateLimit writes;
  private final RateLimit strangers;

  Access(WebSettings settings, Guard guard) {
    this.settings = settings;
    this.guard = guard;
    sessions = new Sessions(settings.clockMillis());
    people =
        settings
            .people()
            .map(it -> new PeopleList(it, sessions, settings.clockMillis()))
            .orElse(null);
    reads = new RateLimit(settings.clockMillis(), 300, 600);
    writes = new RateLimit(settings.clockMillis(), 10, 40);
    strangers = new RateLimit(settings.clockMillis(), 20, 150);
  }

  Sessions sessions() {
    return sessions;
  }

  PeopleList people() {
    return people;
  }

  String cookieName() {
    return settings.behindTls() ? COOKIE_TLS : COOKIE;
  }

  static Visitor visitor(Context context) {
    Visitor visitor = context.attribute(Visitor.ATTRIBUTE);
    return visitor != null ? visitor : new Visitor(Optional.empty(), address(context));
  }

  /** Before everything else. */
  void check(Context context) {
    guard.checkAddressee(context);
    Optional<Session> session = Optional.empty();
    if (people != null) {
      people.look();
      session = sessions.find(context.cookie(cookieName()));
    }
    Visitor visitor = new Visitor(session, whence(context));
    context.attribute(Visitor.ATTRIBUTE, visitor);
    String path = context.path();
    boolean write = isWrite(context);
    brake(visitor, write);
    if (write && path.equals(LOGIN)) {
      guard.checkOrigin(context);
      guard.checkType(context);
    } else if (write) {
      checkWrite(context, visitor, path);
    } else if (people != null && session.isEmpty() && isData(path)) {
      throw new Refused(401, "Please sign in first.");
    }
  }

  static boolean isWrite(Context context) {
    HandlerType method = context.method();
    return !method.equals(HandlerType.GET) && !method.equals(HandlerType.HEAD);
  }

  /** The files of the page say nothing of the bench; everything else does. */
  private static boolean isData(String path) {
    boolean data = path.startsWith("/api/") || path.equals("/metrics");
    return data && !OPEN_READS.contains(path);
  }

  private void checkWrite(Context context, Visitor visitor, String path) {
    if (people == null && path.equals(ABORT)) {
      guard.checkOrigin(context);
      return;
    }
    guard.checkOrigin(context);
    if (people != null && visitor.session().isEmpty()) {
      throw new Refused(401, "Please sign in first.");
    }
    guard.checkToken(context, visitor.session().map(Session::token).orElse(guard.token()));
    if (!path.equals(ABORT) || context.contentType() != null) {
      guard.checkType(context);
    }
    boolean mayAct =
        people == null || visitor.session().orElseThrow().person().role() == Role.OPERATE;
    if (!mayAct && !HARMLESS.contains(path)) {
      throw Refused.forbidden(
          "Your role is 'look': you see everything and change nothing. Ask whoever keeps the list"
              + " of people for the role 'operate'.");
    }
  }

  private void brake(Visitor visitor, boolean write) {
    if (!settings.limited()) {
      return;
    }
    boolean known = people == null || visitor.session().isPresent();
    String key = visitor.name() + " " + visitor.whence();
    boolean granted = (write ? writes : reads).take(key) && (known || strangers.take(key));
    if (!granted) {
      throw new Refused(429, "Too many calls in a short time; wait a second.");
    }
  }

  private String whence(Context context) {
    String direct = address(context);
    String forwarded = context.header("X-Forwarded-For");
    if (!settings.behindTls() || forwarded == null || !isLoopback(direct)) {
      return direct;
    }
    // The proxy adds what it saw at the end; what stands before may be invented.
    String last = forwarded.substring(forwarded.lastIndexOf(',') + 1).strip();
    return last.matches("[0-9a-fA-F.:]{2,45}") ? last.toLowerCase(Locale.ROOT) : direct;
  }

  private static boolean isLoopback(String address) {
    return address.startsWith("127.")
        || address.equals("[::1]")
        || address.equals("0:0:0:0:0:0:0:1");
  }

  private static String address(Context context) {
    String address = context.req().getRemoteAddr();
    return address == null ? "" : address;
  }
}
