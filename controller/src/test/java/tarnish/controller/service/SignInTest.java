package tarnish.controller.service;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tarnish.controller.access.PasswordHash;
import tarnish.controller.access.Person;
import tarnish.controller.access.Role;
import tarnish.controller.control.Request;
import tarnish.controller.journal.Journal.Act;

/**
 * Signing in, roles, sessions, headers. The numbers are those of the OWASP Application Security
 * Verification Standard 5.0.0, chapters V3, V6 and V7 read in its text; those marked "from memory"
 * are of chapters that were not.
 */
class SignInTest {
  private static final String PAUSE = "{\"type\":\"pause\",\"by\":\"somebody else\"}";

  /** Checks and previews, which a person who only looks may ask for. */
  private static final List<String> HARMLESS =
      List.of("/api/login", "/api/logout", "/api/recipes/check", "/api/changes/preview");

  private Doors doors;

  @BeforeEach
  void open() {
    doors = new Doors(false, false);
  }

  @AfterEach
  void shut() {
    doors.close();
  }

  private static String filled(String route) {
    return route
        .replace("{number}", "1")
        .replace("{name}", "copper")
        .replace("{sha256}", "ab".repeat(32))
        .replace("{id}", "cd".repeat(32));
  }

  private List<String> writes() {
    return doors.service.routes().stream()
        .filter(route -> route.matches("(POST|PUT|PATCH|DELETE|QUERY) .*"))
        .toList();
  }

  private void assertNothingDone() {
    assertEquals(List.of(), doors.bench.submitted);
    assertEquals(List.of(), doors.bench.started);
    assertEquals(2, doors.workshop.library().all().size());
  }

  /** ASVS 5.0 3.5.1, 7.2.1; 8.3.1 (from memory). */
  @Test
  void noRouteWritesWithoutSessionAndToken() {
    List<String> writes = writes();
    assertTrue(writes.size() >= 12, writes.toString());
    Doors.Key ada = doors.signIn(Doors.ADA);
    Doors.Key ben = doors.signIn(Doors.BEN);
    for (String route : writes) {
      String method = route.split(" ")[0];
      String path = filled(route.split(" ")[1]);
      if (path.equals("/api/login")) {
        continue;
      }
      HttpRequest.Builder bare = doors.request(method, path, PAUSE);
      assertEquals(403, doors.send(bare).statusCode(), route + " without anything");
      assertEquals(
          401,
          doors
              .send(doors.request(method, path, PAUSE), Guard.TOKEN_HEADER, ada.token())
              .statusCode(),
          route + " without a session");
      assertEquals(
          403,
          doors.send(doors.with(doors.request(method, path, PAUSE), ada)).statusCode(),
          route + " without a token");
      for (String wrong : List.of("", "0".repeat(64), ben.token())) {
        assertEquals(
            403,
            doors
                .send(
                    doors.with(doors.request(method, path, PAUSE), ada), Guard.TOKEN_HEADER, wrong)
                .statusCode(),
            route + " with the token '" + wrong + "'");
      }
      if (!HARMLESS.contains(path)) {
        HttpResponse<String> looker =
            doors.send(
                doors.with(doors.request(method, path, PAUSE), ben),
                Guard.TOKEN_HEADER,
                ben.token());
        assertTrue(List.of(403, 415).contains(looker.statusCode()), route + " by who only looks");
      }
    }
    assertNothingDone();
  }

  /** ASVS 5.0 7.2.1: nothing of the bench is shown to strangers either. */
  @Test
  void noRouteTellsOfTheBenchWithoutASession() {
    Doors.Key ada = doors.signIn(Doors.ADA);
    for (String route : doors.service.routes()) {
      String path = filled(route.split(" ", 2)[1]);
      boolean data = path.startsWith("/api/") || path.equals("/metrics");
      if (!route.startsWith("GET ") || !data || path.equals("/api/session")) {
        continue;
      }
      HttpResponse<String> stranger = doors.get(null, path);
      assertEquals(401, stranger.statusCode(), route);
      assertFalse(stranger.body().contains("running"), route);
      assertNotEquals(401, doors.get(ada, path).statusCode(), route);
    }
    assertEquals("{\"signIn\":true}", doors.get(null, "/api/session").body());
  }

  /** ASVS 5.0 3.5.3. */
  @Test
  void lookingChangesNothing() {
    Doors.Key ada = doors.signIn(Doors.ADA);
    for (String route : doors.service.routes()) {
      if (route.matches("(GET|POST) .*")) {
        doors.get(ada, filled(route.split(" ", 2)[1]) + "?type=abort&by=Ada");
      }
    }
    assertNothingDone();
  }

  /** ASVS 5.0 3.3.2, 3.3.4; without TLS the name says that it is not bound to a host. */
  @Test
  void theCookieIsForThisServiceAlone() {
    String cookie =
        doors.login(Doors.ADA, Doors.PASSWORD).headers().firstValue("Set-Cookie").orElseThrow();
    assertTrue(cookie.matches("tarnish=[0-9a-f]{64}; Path=/; HttpOnly; SameSite=Strict"), cookie);
  }

  /** ASVS 5.0 3.3.1, 3.3.3, 3.4.1. */
  @Test
  void behindTlsTheCookieIsForHttpsOnly() {
    try (Doors tls = new Doors(true, false)) {
      HttpResponse<String> answer = tls.login(Doors.ADA, Doors.PASSWORD);
      String cookie = answer.headers().firstValue("Set-Cookie").orElseThrow();
      assertTrue(
          cookie.matches("__Host-tarnish=[0-9a-f]{64}; Path=/; HttpOnly; SameSite=Strict; Secure"),
          cookie);
      assertEquals(
          "max-age=31536000",
          answer.headers().firstValue("Strict-Transport-Security").orElseThrow());
    }
  }

  /** ASVS 5.0 3.4.2 to 3.4.6, on answers of every kind. */
  @Test
  void everyAnswerCarriesTheHeaders() {
    Doors.Key ada = doors.signIn(Doors.ADA);
    List<HttpResponse<String>> answers =
        List.of(
            doors.get(ada, "/"),
            doors.get(ada, "/recipes.html"),
            doors.get(ada, "/api/status"),
            doors.get(null, "/api/status"),
            doors.get(ada, "/nothing"),
            doors.get(ada, "/api/batches/x"),
            doors.login(Doors.ADA, "wrong"));
    for (HttpResponse<String> answer : answers) {
      String policy = answer.headers().firstValue("Content-Security-Policy").orElse("");
      for (String part :
          List.of(
              "default-src 'none'",
              "script-src 'self'",
              "object-src 'none'",
              "base-uri 'none'",
              "frame-ancestors 'none'",
              "form-action 'none'")) {
        assertTrue(policy.contains(part), answer.uri() + ": " + policy);
      }
      assertFalse(policy.contains("unsafe"), policy);
      assertEquals("nosniff", answer.headers().firstValue("X-Content-Type-Options").orElse(""));
      assertEquals("no-referrer", answer.headers().firstValue("Referrer-Policy").orElse(""));
      assertEquals("no-store", answer.headers().firstValue("Cache-Control").orElse(""));
      assertEquals(Optional.empty(), answer.headers().firstValue("Access-Control-Allow-Origin"));
      assertEquals(Optional.empty(), answer.headers().firstValue("Server"));
    }
  }

  /** ASVS 5.0 7.2.3, 7.2.4: a new session each time, and the one before is over. */
  @Test
  void signingInAgainEndsTheSessionBefore() {
    Doors.Key first = doors.signIn(Doors.ADA);
    HttpResponse<String> again = doors.login(Doors.ADA, Doors.PASSWORD, "Cookie", first.cookie());
    assertEquals(200, again.statusCode());
    assertNotEquals(first.cookie(), Doors.cookie(again));
    assertNotEquals(first.token(), Client.json(again).get("token").textValue());
    assertEquals(401, doors.get(first, "/api/status").statusCode());
  }

  /** ASVS 5.0 7.2.4: an id that somebody planted in the browser is worth nothing afterwards. */
  @Test
  void aPlantedCookieIsNotTakenOver() {
    String planted = "tarnish=" + "ab".repeat(32);
    HttpResponse<String> answer = doors.login(Doors.ADA, Doors.PASSWORD, "Cookie", planted);
    assertNotEquals(planted, Doors.cookie(answer));
    assertEquals(401, doors.get(new Doors.Key(planted, ""), "/api/status").statusCode());
  }

  /** ASVS 5.0 7.3.1: half an hour after the page was shut. */
  @Test
  void aSessionThatIsNotUsedEnds() {
    Doors.Key ada = doors.signIn(Doors.ADA);
    doors.pass(29 * 60_000);
    assertEquals(200, doors.get(ada, "/api/status").statusCode());
    doors.pass(31 * 60_000);
    assertEquals(401, doors.get(ada, "/api/status").statusCode());
    doors.pass(-31 * 60_000);
    assertEquals(401, doors.get(ada, "/api/status").statusCode(), "over is over");
  }

  /** ASVS 5.0 7.3.2: twelve hours, however much it is used. */
  @Test
  void aSessionEndsAfterALongShift() {
    Doors.Key ada = doors.signIn(Doors.ADA);
    for (int i = 0; i < 36; i++) {
      assertEquals(200, doors.get(ada, "/api/status").statusCode(), "after " + i * 20 + " min");
      doors.pass(20 * 60_000);
    }
    doors.pass(1);
    assertEquals(401, doors.get(ada, "/api/status").statusCode());
  }

  /** ASVS 5.0 7.4.1. */
  @Test
  void signingOutEndsTheSession() {
    Doors.Key ada = doors.signIn(Doors.ADA);
    HttpResponse<String> out = doors.post(ada, "/api/logout", "{}");
    assertEquals(200, out.statusCode());
    assertTrue(out.headers().firstValue("Set-Cookie").orElse("").contains("Max-Age=0"));
    assertEquals(401, doors.get(ada, "/api/status").statusCode());
  }

  /** ASVS 5.0 7.4.2, 7.4.3, 7.4.5: whoever is taken off the list, or changed there, is out. */
  @Test
  void aPersonTakenOffTheListIsOutAtOnce() {
    Doors.Key ada = doors.signIn(Doors.ADA);
    Doors.Key ben = doors.signIn(Doors.BEN);
    doors.write(
        new Person(Doors.BEN, Role.LOOK, Doors.HASH), new Person("Cy", Role.LOOK, Doors.HASH));
    doors.pass(2500);
    assertEquals(401, doors.get(ada, "/api/status").statusCode());
    assertEquals(200, doors.get(ben, "/api/status").statusCode());
    doors.write(new Person(Doors.BEN, Role.OPERATE, Doors.HASH));
    doors.pass(2500);
    assertEquals(401, doors.get(ben, "/api/status").statusCode(), "another role");
    assertEquals(401, doors.login(Doors.ADA, Doors.PASSWORD).statusCode());
  }

  /** ASVS 5.0 6.3.1, 6.1.1: guessing gets slow, for the guesser only. */
  @Test
  void guessingIsSlowedDownAndNobodyElseIsLockedOut() {
    try (Doors tls = new Doors(true, false)) {
      String[] guesser = {"X-Forwarded-For", "192.0.2.66"};
      for (int i = 0; i < 3; i++) {
        assertEquals(401, tls.login(Doors.ADA, "guess number " + i, guesser).statusCode());
      }
      HttpResponse<String> braked = tls.login(Doors.ADA, Doors.PASSWORD, guesser);
      assertEquals(429, braked.statusCode(), "even the right one waits");
      assertEquals("1", braked.headers().firstValue("Retry-After").orElse(""));
      assertEquals(
          200,
          tls.login(Doors.ADA, Doors.PASSWORD, "X-Forwarded-For", "192.0.2.7").statusCode(),
          "from elsewhere");
      int tried = 0;
      for (int second = 0; second < 3600; second++) {
        tls.pass(1000);
        tried += tls.login(Doors.ADA, "guess", guesser).statusCode() == 401 ? 1 : 0;
      }
      assertTrue(tried >= 8 && tried <= 14, tried + " guesses in an hour");
    }
  }

  /** ASVS 5.0 6.3.8. */
  @Test
  void anUnknownNameAndAWrongPasswordAreAnsweredAlike() {
    HttpResponse<String> unknown = doors.login("Nobody Example", Doors.PASSWORD);
    HttpResponse<String> wrong = doors.login(Doors.ADA, "wrong password");
    assertEquals(401, unknown.statusCode());
    assertEquals(unknown.statusCode(), wrong.statusCode());
    assertEquals(unknown.body(), wrong.body());
    assertEquals(unknown.headers().map().keySet(), wrong.headers().map().keySet());
  }

  /** ASVS 5.0 6.2.8: not shortened, stripped or folded. */
  @Test
  void thePasswordIsTakenExactlyAsItIs() {
    for (String wrong :
        List.of(
            Doors.PASSWORD.strip(),
            Doors.PASSWORD.toUpperCase(java.util.Locale.ROOT),
            Doors.PASSWORD + "x",
            "")) {
      assertTrue(doors.login(Doors.ADA, wrong).statusCode() >= 400, wrong);
      doors.pass(60_000);
    }
    assertEquals(200, doors.login(Doors.ADA, Doors.PASSWORD).statusCode());
  }

  /** ASVS 5.0 6.2.1, 6.2.5, 6.2.9, 6.2.11. */
  @Test
  void aNewPasswordMustBeLongAndNothingElse() {
    String longOne = "copper ".repeat(10);
    assertTrue(PasswordHash.matches(longOne.toCharArray(), PasswordHash.of(longOne.toCharArray())));
    for (String good : List.of("three grey pots", "日本の銅酸化物は黒い色", "x1!x1!x2?x2?yy", longOne)) {
      boolean enough = good.codePointCount(0, good.length()) >= PasswordHash.LENGTH_MIN;
      assertEquals(enough, PasswordHash.complaint(good.toCharArray(), "Ada").isEmpty(), good);
    }
    for (String bad : List.of("short", "aaaaaaaaaaaaaaaa", "tarnish-password", "x".repeat(129))) {
      assertFalse(PasswordHash.complaint(bad.toCharArray(), "Ada").isEmpty(), bad);
    }
    assertFalse(PasswordHash.complaint("ada example 1".toCharArray(), "Ada Example").isEmpty());
  }

  /** ASVS 5.0 6.3.2: there is no account that nobody made. */
  @Test
  void onANetworkNothingIsServedWithoutNamedPeople() {
    for (String host : List.of("0.0.0.0", "192.0.2.7", "::")) {
      assertThrows(
          IllegalArgumentException.class,
          () ->
              new WebSettings(
                  host, 0, List.of(), false, Optional.empty(), true, WebSettings::millis));
    }
    WebSettings nobody =
        new WebSettings(
            "127.0.0.1",
            0,
            List.of(),
            false,
            Optional.of(Path.of("target/there-is-no-such-file")),
            true,
            WebSettings::millis);
    IllegalArgumentException e =
        assertThrows(
            IllegalArgumentException.class,
            () -> WebService.start(doors.bench, Optional.empty(), nobody));
    assertTrue(e.getMessage().contains("tarnish people add"), e.getMessage());
  }

  /**
   * Nobody acts under another's name; ASVS 5.0 16.2.1, 16.3.3 (from memory): all is written down.
   */
  @Test
  void whoeverIsSignedInActsUnderThatNameAndItIsWrittenDown() {
    Doors.Key ada = doors.signIn(Doors.ADA);
    assertEquals(202, doors.post(ada, "/api/requests", PAUSE).statusCode());
    assertEquals(List.of(new Request.Pause(Doors.ADA)), doors.bench.submitted);
    doors.login(Doors.BEN, "wrong password");
    List<Act> acts = doors.bench.audit.take();
    assertEquals(3, acts.size(), acts.toString());
    assertEquals("sign in as 'Ada Example'", acts.get(0).what());
    assertEquals(Doors.ADA, acts.get(1).by());
    assertEquals("pause", acts.get(1).what());
    assertEquals("taken", acts.get(1).outcome());
    assertEquals("127.0.0.1", acts.get(1).whence());
    assertEquals("", acts.get(2).by());
    assertTrue(acts.get(2).outcome().contains("wrong"), acts.get(2).outcome());
    assertFalse(acts.toString().contains("wrong password\""));
  }

  /** ASVS 5.0 2.4.1 (from memory): so many calls, and no more. */
  @Test
  void tooManyCallsAreRefusedForAWhile() {
    try (Doors braked = new Doors(false, true)) {
      Doors.Key ada = braked.signIn(Doors.ADA);
      int refused = 0;
      for (int i = 0; i < 100; i++) {
        refused +=
            braked.post(ada, "/api/recipes/check", "{\"recipe\":\"copper\"}").statusCode() == 429
                ? 1
                : 0;
      }
      assertTrue(refused > 50, refused + " of 100 were refused");
      braked.pass(2000);
      assertEquals(
          200, braked.post(ada, "/api/recipes/check", "{\"recipe\":\"copper\"}").statusCode());
    }
  }

  /** Whoever signs in as 'look' sees all and is told why nothing can be done. */
  @Test
  void whoLooksSeesAndMayCheck() {
    Doors.Key ben = doors.signIn(Doors.BEN);
    assertEquals(200, doors.get(ben, "/api/status").statusCode());
    assertEquals(
        200, doors.post(ben, "/api/recipes/check", "{\"recipe\":\"copper\"}").statusCode());
    HttpResponse<String> pause = doors.post(ben, "/api/requests", PAUSE);
    assertEquals(403, pause.statusCode());
    assertTrue(pause.body().contains("'look'"), pause.body());
    assertEquals(403, doors.post(ben, "/api/abort", "").statusCode());
    assertNothingDone();
  }
}
