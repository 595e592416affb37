package tarnish.controller.app;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Option;
import tarnish.controller.service.WebSettings;

/** Options about where the page is served and to whom. */
final class Serving {
  @Option(
      names = "--listen",
      defaultValue = "127.0.0.1",
      paramLabel = "ADDRESS",
      description =
          "address to serve the page at (default: ${DEFAULT-VALUE}, this machine only). Any other"
              + " needs --people.")
  private String listen;

  @Option(
      names = "--people",
      paramLabel = "FILE",
      description = "people who must sign in, as written by 'tarnish people'")
  private Path people;

  @Option(
      names = "--name",
      paramLabel = "HOST",
      description = "a further name under which browsers ask for the page; may be repeated")
  private List<String> names = new ArrayList<>();

  @Option(
      names = "--behind-tls",
      description =
          "a proxy with TLS stands in front: the page is asked for by https only. Needs --people"
              + " and --name.")
  private boolean behindTls;

  WebSettings settings(int port) {
    if (behindTls && names.isEmpty()) {
      throw new CommandFailure("--behind-tls needs --name, the name that browsers ask for.");
    }
    try {
      return new WebSettings(
          listen, port, names, behindTls, Optional.ofNullable(people), true, WebSettings::millis);
    } catch (IllegalArgumentException e) {
      throw new CommandFailure("Not started: " + e.getMessage() + ".");
    }
  }

  /** What must be told at the start, or empty. */
  static String warning(WebSettings settings) {
    boolean open = !java.util.Set.of("127.0.0.1", "localhost", "::1").contains(settings.host());
    return open && !settings.behindTls()
        ? "Warning: passwords and everything else cross the network readable by others. Put a"
            + " proxy with TLS in front and start with --behind-tls."
        : "";
  }
}
