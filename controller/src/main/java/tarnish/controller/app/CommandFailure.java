package tarnish.controller.app;

/** A command cannot be done; the message is for the person and goes to standard error. */
final class CommandFailure extends RuntimeException {
  private static final long serialVersionUID = 1L;

  CommandFailure(String message) {
    super(message);
  }
}
