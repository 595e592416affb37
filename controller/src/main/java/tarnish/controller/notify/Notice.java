package tarnish.controller.notify;

/**
 * Something that needs a person.
 *
 * @param kind question, alarm, end, loop or test
 * @param subject one line
 * @param text what to know and what to do
 * @param at wall-clock time at the bench, ISO 8601
 */
public record Notice(String kind, String subject, String text, String at) {}
