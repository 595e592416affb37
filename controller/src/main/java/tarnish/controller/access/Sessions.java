package tarnish.controller.access;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.security.SecureRandom;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.LongSupplier;
import java.util.function.UnaryOperator;

/**
 * Who is signed in, in memory only: a restart signs everybody out. Any thread may call.
 *
 * <p>A session ends half an hour after its page last asked for anything (an open page asks every
 * second), and after twelve hours, a long shift, in any case. Of one person the five newest are
 * kept, of all a hundred. Only hashes of the cookies are kept.
 */
public final class Sessions {
  static final long IDLE_MAX_MILLIS = 30 * 60_000L;
  static final long AGE_MAX_MILLIS = 12 * 3_600_000L;
  static final int PER_PERSON_MAX = 5;
  static final int ALL_MAX = 100;

  private static final int ID_BYTES = 32;
  private static final SecureRandom RANDOM = new SecureRandom();

  private record Kept(Session session, long bornMillis, long usedMillis) {}

  private final LongSupplier clockMillis;
  private final Map<String, Kept> kept = new LinkedHashMap<>();

  /**
   * @param clockMillis monotonic, in ms
   */
  public Sessions(LongSupplier clockMillis) {
    this.clockMillis = clockMillis;
  }

  /**
   * Signs a person in and gives the new cookie. The session that the browser had before, if any,
   * ends: an id that somebody planted is worth nothing.
   */
  public synchronized String begin(Person person, String formerCookieOrNull) {
    end(formerCookieOrNull);
    long now = clockMillis.getAsLong();
    kept.values().removeIf(each -> isOver(each, now));
    while (count(person.name()) >= PER_PERSON_MAX) {
      removeFirst(person.name());
    }
    while (kept.size() >= ALL_MAX) {
      kept.remove(kept.keySet().iterator().next());
    }
    String cookie = random();
    kept.put(hash(cookie), new Kept(new Session(person, random()), now, now));
    return cookie;
  }

  private long count(String name) {
    return kept.values().stream().filter(k -> k.session().person().name().equals(name)).count();
  }

  private void removeFirst(String name) {
    kept.entrySet().stream()
        .filter(e -> e.getValue().session().person().name().equals(name))
        .findFirst()
        .ifPresent(e -> kept.remove(e.getKey()));
  }

  /** The session of a cookie, which counts as used now; empty if there is none or it is over. */
  public synchronized Optional<Session> find(String cookieOrNull) {
    if (cookieOrNull == null || cookieOrNull.length() != 2 * ID_BYTES) {
      return Optional.empty();
    }
    String key = hash(cookieOrNull);
    Kept found = kept.get(key);
    long now = clockMillis.getAsLong();
    if (found == null || isOver(found, now)) {
      kept.remove(key);
      return Optional.empty();
    }
    kept.put(key, new Kept(found.session(), found.bornMillis(), now));
    return Optional.of(found.session());
  }

  private static boolean isOver(Kept kept, long now) {
    return now - kept.usedMillis() > IDLE_MAX_MILLIS || now - kept.bornMillis() > AGE_MAX_MILLIS;
  }

  public synchronized void end(String cookieOrNull) {
    if (cookieOrNull != null) {
      kept.remove(hash(cookieOrNull));
    }
  }

  /**
   * Holds every session against the list of people.
   *
   * @param now gives the person as listed now, or null where the session must end
   */
  public synchronized void check(UnaryOperator<Person> now) {
    kept.values().removeIf(each -> !each.session().person().equals(now.apply(person(each))));
  }

  private static Person person(Kept kept) {
    return kept.session().person();
  }

  private static String random() {
    byte[] bytes = new byte[ID_BYTES];
    RANDOM.nextBytes(bytes);
    return HexFormat.of().formatHex(bytes);
  }

  private static String hash(String cookie) {
    try {
      byte[] bytes = cookie.getBytes(StandardCharsets.UTF_8);
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
