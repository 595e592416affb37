package tarnish.controller.access;

/**
 * A person who has signed in with one browser.
 *
 * @param token what every write must carry beside the cookie
 */
public record Session(Person person, String token) {}
