package tarnish.controller.control.trial;

/**
 * What a trial found, in a sentence for the person.
 *
 * @param fault whether something is wired or set wrong
 */
public record Finding(String sentence, boolean fault) {
  static Finding right(String sentence) {
    return new Finding(sentence, false);
  }

  static Finding wrong(String sentence) {
    return new Finding(sentence, true);
  }
}
