package tarnish.controller.service;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** Runs axe-core, as it came from its makers, in an open page. */
public final class Axe {
  private static final String SCRIPT = script();

  /** WCAG 2.2 A and AA whatever the impact, best practice where the impact is serious. */
  private static final String RUN =
      """
      const done = arguments[arguments.length - 1];
      const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
      const options = { runOnly: { type: 'tag', values: tags }, resultTypes: ['violations'], rules: { 'target-size': { enabled: true } } };
      axe.run(document, options).then(
        (found) =>
          done(
            found.violations
              .filter((each) => each.tags.some((tag) => tag.startsWith('wcag')) || /serious|critical/.test(each.impact))
              .map((each) => `${each.impact} ${each.id}: ${each.help}: ${each.nodes.slice(0, 5).map((node) => node.target.join(' ') + ' ' + (node.any[0] ? node.any[0].message : '')).join(' | ')}`)
              .concat(found.passes.length < 15 ? [`only ${found.passes.length} rules were passed: did it run?`] : []),
          ),
        (failure) => done([String(failure)]),
      );
      """;

  private Axe() {}

  /** Violations, each in a line; empty where there are none. */
  public static List<?> violations(Browser browser) {
    if (!Boolean.TRUE.equals(browser.run("return typeof axe === 'object'"))) {
      browser.run(SCRIPT);
    }
    return (List<?>) browser.runAsync(RUN);
  }

  private static String script() {
    try (InputStream in = Axe.class.getResourceAsStream("/axe.min.js")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
