package tarnish.controller.files;

/**
 * One thing wrong with a file, and where. Prints as {@code file:line:column: message}.
 *
 * @param file name as the person gave it
 * @param line from 1
 * @param column from 1, in characters
 * @param message "found …, expected …", at times with the word that was probably meant
 */
public record Fault(String file, int line, int column, String message) {
  @Override
  public String toString() {
    return file + ":" + line + ":" + column + ": " + message;
  }
}
