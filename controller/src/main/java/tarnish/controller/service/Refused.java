package tarnish.controller.service;

/** A web request that is not served: the status code, and a sentence for the person. */
final class Refused extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final int status;

  Refused(int status, String sentence) {
    super(sentence, null, false, false);
    this.status = status;
  }

  static Refused malformed(String sentence) {
    return new Refused(400, sentence);
  }

  static Refused forbidden(String sentence) {
    return new Refused(403, sentence);
  }

  static Refused unknown(String sentence) {
    return new Refused(404, sentence);
  }

  int status() {
    return status;
  }
}
