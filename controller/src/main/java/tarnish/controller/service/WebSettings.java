package tarnish.controller.service;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.LongSupplier;

/**
 * Where the page is served and who may come in.
 *
 * @param host address to listen on
 * @param port to listen on, 0 for any free one
 * @param names further host names under which the page may be asked for
 * @param behindTls whether a proxy with TLS stands in front, so that cookies are for https only
 * @param people file of those who may sign in; empty: nobody signs in
 * @param limited whether calls per second are limited
 * @param clockMillis monotonic, in ms
 */
public record WebSettings(
    String host,
    int port,
    List<String> names,
    boolean behindTls,
    Optional<Path> people,
    boolean limited,
    LongSupplier clockMillis) {
  private static final Set<String> THIS_MACHINE = Set.of("127.0.0.1", "localhost", "::1");

  public WebSettings {
    names = List.copyOf(names);
    if (people.isEmpty() && (!isThisMachine(host) || behindTls)) {
      throw new IllegalArgumentException(
          "the page can be served on 127.0.0.1 or localhost only, got '"
              + host
              + (behindTls ? "' behind TLS" : "'")
              + ", unless there are named people to sign in: write them with 'tarnish people add',"
              + " or tunnel to this machine (see the manual)");
    }
  }

  /** This machine only, without people, for any page. */
  public static WebSettings local(int port) {
    return new WebSettings(
        "127.0.0.1", port, List.of(), false, Optional.empty(), true, WebSettings::millis);
  }

  /** A monotonic clock in ms. */
  public static long millis() {
    return System.nanoTime() / 1_000_000;
  }

  static boolean isThisMachine(String host) {
    return THIS_MACHINE.contains(host);
  }

  boolean isLocal() {
    return isThisMachine(host);
  }

  boolean needsSignIn() {
    return people.isPresent();
  }
}
