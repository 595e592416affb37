package tarnish.controller.service;

import io.javalin.Javalin;
import io.javalin.compression.CompressionStrategy;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpResponseException;
import io.javalin.util.JavalinBindException;
import java.util.Map;
import java.util.Set;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The page and its interface, on this machine only. Its threads touch no output: they read the
 * newest {@link Status} and put requests into the bench's queue.
 */
public final class WebService implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(WebService.class);

  private final Javalin server;

  private WebService(Javalin server) {
    this.server = server;
  }

  /**
   * Starts to serve.
   *
   * @param host 127.0.0.1 or localhost; nothing else is bound
   * @param port to listen on, or 0 for any that is free: ask {@link #port}
   * @throws IllegalArgumentException if {@code host} is not an address of this machine alone
   * @throws IllegalStateException if the port cannot be had
   */
  public static WebService start(Bench bench, String host, int port) {
    if (!Set.of("127.0.0.1", "localhost").contains(host)) {
      throw new IllegalArgumentException(
          "the page can be served on 127.0.0.1 or localhost only, got '"
              + host
              + "'; to see it from elsewhere, tunnel to this machine (see the manual)");
    }
    Guard guard = new Guard();
    Javalin server = Javalin.create(config -> configure(config, bench, guard, port));
    try {
      server.start();
    } catch (JavalinBindException e) {
      throw new IllegalStateException(
          "the page cannot be served on port "
              + port
              + " of 127.0.0.1: another program has it, or it is below 1024; choose another port",
          e);
    }
    guard.boundTo(server.port());
    return new WebService(server);
  }

  /** The port that is really bound. */
  public int port() {
    return server.port();
  }

  @Override
  public void close() {
    server.stop();
  }

  private static void configure(JavalinConfig config, Bench bench, Guard guard, int port) {
    config.startup.showJavalinBanner = false;
    config.startup.showOldJavalinVersionWarning = false;
    config.startup.startupWatcherEnabled = false;
    config.http.compressionStrategy = CompressionStrategy.NONE;
    config.http.prefer405over404 = true;
    config.jetty.threadPool = JettySettings.threads();
    config.jetty.addConnector(
        (jetty, http) -> JettySettings.connector(jetty, http, "127.0.0.1", port));
    config.jetty.modifyServer(JettySettings::limit);

    config.routes.before(
        context -> {
          Guard.HEADERS.forEach(context::header);
          guard.checkAddressee(context);
        });
    new StaticFiles()
        .byPath()
        .forEach(
            (path, asset) ->
                config.routes.get(
                    path,
                    context -> context.contentType(asset.contentType()).result(asset.bytes())));
    config.routes.get(
        "/api/session", context -> Reads.answer(context, Map.of("token", guard.token())));
    new Reads(bench).addTo(config.routes);
    new Writes(bench, guard).addTo(config.routes);
    new Sheets(bench, guard).addTo(config.routes);
    config.routes.exception(Exception.class, WebService::explain);
    // Javalin answers its own refusals itself unless it is told by name.
    config.routes.exception(HttpResponseException.class, WebService::explain);
  }

  /** The only place where a failure becomes an answer. */
  private static void explain(Exception failure, Context context) {
    int status = 500;
    String sentence = "The service met an unexpected problem; its log says more.";
    if (failure instanceof Refused refused) {
      status = refused.status();
      sentence = refused.getMessage();
    } else if (failure instanceof HttpResponseException known && known.getStatus() < 500) {
      status = known.getStatus();
      sentence = status == 405 ? "That cannot be done to this address." : "There is nothing here.";
    } else {
      LOG.error("{} {} failed", context.method(), context.path(), failure);
    }
    Guard.HEADERS.forEach(context::header);
    context.status(status);
    Reads.answer(context, Map.of("error", sentence));
  }
}
