package tarnish.controller.access;

import java.util.Optional;

/** What a person may do at the page. */
public enum Role {
  /** Sees everything, changes nothing. */
  LOOK("look"),
  /** May also act. */
  OPERATE("operate");

  private final String words;

  Role(String words) {
    this.words = words;
  }

  public String words() {
    return words;
  }

  public static Optional<Role> of(String words) {
    for (Role role : values()) {
      if (role.words.equals(words)) {
        return Optional.of(role);
      }
    }
    return Optional.empty();
  }
}
