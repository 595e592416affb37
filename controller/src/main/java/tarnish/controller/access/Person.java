package tarnish.controller.access;

/**
 * One person who may sign in.
 *
 * @param name as it stands in the record
 * @param passwordHash see {@link PasswordHash}
 */
public record Person(String name, Role role, String passwordHash) {
  private static final int NAME_LENGTH_MAX = 60;

  public Person {
    if (!isName(name)) {
      throw new IllegalArgumentException(
          "a name must be 1 to " + NAME_LENGTH_MAX + " characters that can be printed, no tab");
    }
  }

  /** Whether the text can be a person's name. */
  public static boolean isName(String name) {
    return !name.isBlank()
        && name.equals(name.strip())
        && name.length() <= NAME_LENGTH_MAX
        && name.codePoints().allMatch(Person::isPrintable);
  }

  private static boolean isPrintable(int c) {
    int type = Character.getType(c);
    return type != Character.CONTROL
        && type != Character.SURROGATE
        && type != Character.FORMAT
        && type != Character.LINE_SEPARATOR
        && type != Character.PARAGRAPH_SEPARATOR;
  }
}
