package tarnish.controller.service;

import java.util.Optional;
import tarnish.controller.access.Session;

/**
 * Who asks.
 *
 * @param session empty where nobody is signed in
 * @param whence address it came from
 */
record Visitor(Optional<Session> session, String whence) {
  static final String ATTRIBUTE = "tarnish.visitor";

  /** The name of who is signed in, or empty. */
  String name() {
    return session.map(it -> it.person().name()).orElse("");
  }
}
