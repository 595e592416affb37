package tarnish.controller.service;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import tarnish.controller.access.PasswordHash;
import tarnish.controller.access.Person;
import tarnish.controller.access.Role;
import tarnish.controller.access.Session;
import tarnish.controller.access.Throttle;

/** Signing in and out, and what a page must know about it. */
final class LoginRoutes {
  private static final int BODY_BYTES_MAX = 2048;

  /** From one address: three slips are free, then 1 s, 2 s, 4 s and so on up to a quarter hour. */
  private static final int FREE_PER_ADDRESS = 3;

  private static final long LONGEST_PER_ADDRESS_MILLIS = 15 * 60_000L;

  /** Of one name from anywhere: never long, so that nobody can lock somebody else out. */
  private static final int FREE_PER_NAME = 10;

  private static final long LONGEST_PER_NAME_MILLIS = 30_000L;
  private static final long HASHING_WAIT_MILLIS = 3000;

  private final Access access;
  private final Guard guard;
  private final WebSettings settings;
  private final Throttle addresses;
  private final Throttle names;

  /** One hash at a time: each costs memory and a good part of a second. */
  private final Semaphore hashing = new Semaphore(1);

  /** Compared with where the name is not known, so that the time tells nothing. */
  private final String nobodysHash = PasswordHash.of("nobody has this one".toCharArray());

  LoginRoutes(Access access, Guard guard, WebSettings settings) {
    this.access = access;
    this.guard = guard;
    this.settings = settings;
    addresses = new Throttle(settings.clockMillis(), FREE_PER_ADDRESS, LONGEST_PER_ADDRESS_MILLIS);
    names = new Throttle(settings.clockMillis(), FREE_PER_NAME, LONGEST_PER_NAME_MILLIS);
  }

  void addTo(RoutesConfig routes) {
    routes.get("/api/session", context -> Reads.answer(context, session(context)));
    if (settings.needsSignIn()) {
      routes.post("/api/login", this::login);
      routes.post("/api/logout", this::logout);
    }
  }

  private Map<String, Object> session(Context context) {
    Optional<Session> session = Access.visitor(context).session();
    if (settings.needsSignIn() && session.isEmpty()) {
      return Map.of("signIn", true);
    }
    return told(session);
  }

  private Map<String, Object> told(Optional<Session> session) {
    Map<String, Object> all = new LinkedHashMap<>();
    all.put("signIn", settings.needsSignIn());
    all.put("token", session.map(Session::token).orElse(guard.token()));
    all.put("person", session.map(it -> it.person().name()).orElse(null));
    all.put("role", session.map(it -> it.person().role()).orElse(Role.OPERATE).words());
    return all;
  }

  private void login(Context context) {
    Fields fields =
        Fields.of(Json.read(Bodies.read(context, BODY_BYTES_MAX)), Set.of("name", "password"));
    String name = fields.line("name", RequestReader.NAME_LENGTH_MAX);
    char[] password = fields.text("password", PasswordHash.LENGTH_MAX).toCharArray();
    String whence = Access.visitor(context).whence();
    Acts.say(context, "sign in as '" + name + "'");
    long waitMillis = Math.max(addresses.waitMillis(whence), names.waitMillis(name));
    if (waitMillis > 0) {
      context.header("Retry-After", String.valueOf((waitMillis + 999) / 1000));
      throw new Refused(
          429,
          "Too many failed attempts: wait " + (waitMillis + 999) / 1000 + " s, then try again.");
    }
    Person person = access.people().find(name);
    boolean right = matches(password, person == null ? nobodysHash : person.passwordHash());
    if (person == null || !right) {
      addresses.failed(whence);
      names.failed(name);
      throw new Refused(401, "Name or password is wrong.");
    }
    addresses.succeeded(whence);
    names.succeeded(name);
    String cookie = access.sessions().begin(person, context.cookie(access.cookieName()));
    setCookie(context, cookie, "");
    Reads.answer(context, told(access.sessions().find(cookie)));
  }

  private boolean matches(char[] password, String hash) {
    try {
      if (!hashing.tryAcquire(HASHING_WAIT_MILLIS, TimeUnit.MILLISECONDS)) {
        throw new Refused(429, "Others are signing in; try again in a moment.");
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new Refused(429, "Try again in a moment.");
    }
    try {
      return PasswordHash.matches(password, hash);
    } finally {
      hashing.release();
    }
  }

  private void logout(Context context) {
    Acts.say(context, "sign out");
    access.sessions().end(context.cookie(access.cookieName()));
    setCookie(context, "", "; Max-Age=0");
    Reads.answer(context, Map.of("signIn", true));
  }

  /** Written by hand, because every attribute matters. */
  private void setCookie(Context context, String value, String more) {
    context.header(
        "Set-Cookie",
        access.cookieName()
            + "="
            + value
            + "; Path=/; HttpOnly; SameSite=Strict"
            + (settings.behindTls() ? "; Secure" : "")
            + more);
  }
}
