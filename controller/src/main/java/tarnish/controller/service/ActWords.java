package tarnish.controller.service;

import tarnish.controller.control.Request;

/** A request in a few words, for the list of acts and for others who look at the bench. */
final class ActWords {
  private ActWords() {}

  static String of(Request request) {
    if (request instanceof Request.Acknowledge acknowledge) {
      return "acknowledge '" + acknowledge.alarm() + "'";
    } else if (request instanceof Request.Reset reset) {
      return "reset '" + reset.alarm() + "': " + reset.reason();
    } else if (request instanceof Request.Shelve shelve) {
      return "shelve '" + shelve.alarm() + "': " + shelve.reason();
    } else if (request instanceof Request.Defeat defeat) {
      return "defeat '" + defeat.alarm() + "': " + defeat.reason();
    } else if (request instanceof Request.Answer answer) {
      return "answer question " + answer.questionNumber();
    } else if (request instanceof Request.HandOver over) {
      return "hand over to " + over.to();
    } else if (request instanceof Request.ChangeStep change) {
      return "change step " + (change.position() + 1) + ": " + change.reason();
    } else if (request instanceof Request.SkipSoak skip) {
      return "skip the soak of step " + (skip.position() + 1) + ": " + skip.reason();
    }
    return spaced(request.getClass().getSimpleName());
  }

  /** CheckIn becomes "check in". */
  private static String spaced(String name) {
    return name.replaceAll("(?<=[a-z])(?=[A-Z])", " ").toLowerCase(java.util.Locale.ROOT);
  }
}
