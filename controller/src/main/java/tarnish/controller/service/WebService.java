package tarnish.controller.service;

import io.javalin.Javalin;
import io.javalin.compression.CompressionStrategy;
import io.javalin.config.JavalinConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpResponseException;
import io.javalin.util.JavalinBindException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The page and its interface, on this machine only unless there are people to sign in. Its threads
 * touch no output: they read the newest {@link Status} and put requests into the bench's queue.
 */
public final class WebService implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(WebService.class);

  private final Javalin server;

  private WebService(Javalin server) {
    this.server = server;
  }

  /**
   * Serves on this machine only, without people, limits on calls or recipes: for trials.
   *
   * @param host 127.0.0.1 or localhost; nothing else is bound
   * @param port to listen on, or 0 for any that is free: ask {@link #port}
   * @throws IllegalArgumentException if {@code host} is not an address of this machine alone
   * @throws IllegalStateException if the port cannot be had
   */
  public static WebService start(Bench bench, String host, int port) {
    return start(
        bench,
        Optional.empty(),
        new WebSettings(
            host, port, List.of(), false, Optional.empty(), false, WebSettings::millis));
  }

  /**
   * Starts to serve.
   *
   * @throws IllegalArgumentException if the people cannot be read, or there are none
   * @throws IllegalStateException if the port cannot be had
   */
  public static WebService start(Bench bench, Optional<Workshop> workshop, WebSettings settings) {
    Guard guard = new Guard(settings);
    Access access = new Access(settings, guard);
    Javalin server =
        Javalin.create(config -> configure(config, bench, workshop, settings, guard, access));
    try {
      server.start();
    } catch (JavalinBindException e) {
      throw new IllegalStateException(
          "the page cannot be served on port "
              + settings.port()
              + " of "
              + settings.host()
              + ": another program has it, it is below 1024, or this machine has no such address;"
              + " choose another port",
          e);
    }
    guard.boundTo(server.port());
    return new WebService(server);
  }

  /** The port that is really bound. */
  public int port() {
    return server.port();
  }

  /** Every address that is answered, such as "POST /api/requests": for tests that walk them all. */
  List<String> routes() {
    return server.unsafe.internalRouter.allHttpHandlers().stream()
        .map(each -> each.endpoint.method.name() + " " + each.endpoint.path)
        .toList();
  }

  @Override
  public void close() {
    server.stop();
  }

  private static void configure(
      JavalinConfig config,
      Bench bench,
      Optional<Workshop> workshop,
      WebSettings settings,
      Guard guard,
      Access access) {
    config.startup.showJavalinBanner = false;
    config.startup.showOldJavalinVersionWarning = false;
    config.startup.startupWatcherEnabled = false;
    config.http.compressionStrategy = CompressionStrategy.NONE;
    config.http.prefer405over404 = true;
    config.jetty.threadPool = JettySettings.threads();
    config.jetty.addConnector(
        (jetty, http) ->
            JettySettings.connector(jetty, http, listening(settings), settings.port()));
    config.jetty.modifyServer(JettySettings::limit);

    Acts acts = new Acts(bench, settings);
    config.routes.before(
        context -> {
          guard.addHeaders(context);
          access.check(context);
        });
    config.routes.after(acts::record);
    new StaticFiles()
        .byPath()
        .forEach(
            (path, asset) ->
                config.routes.get(
                    path,
                    context -> context.contentType(asset.contentType()).result(asset.bytes())));
    new LoginRoutes(access, guard, settings).addTo(config.routes);
    new Reads(bench).addTo(config.routes);
    Writes writes = new Writes(bench, workshop);
    writes.addTo(config.routes);
    new BenchPages(bench, writes).addTo(config.routes);
    new ProofRoutes(bench, writes).addTo(config.routes);
    new Sheets().addTo(config.routes);
    workshop.ifPresent(
        it -> {
          new LibraryRoutes(it, writes).addTo(config.routes);
          new ChangeRoutes(it, writes).addTo(config.routes);
          new PhotoRoutes(it, writes).addTo(config.routes);
        });
    config.routes.exception(Exception.class, WebService::explain);
    // Javalin answers its own refusals itself unless it is told by name.
    config.routes.exception(HttpResponseException.class, WebService::explain);
  }

  private static String listening(WebSettings settings) {
    return settings.isLocal() && !settings.host().equals("::1") ? "127.0.0.1" : settings.host();
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
    Acts.refused(context, sentence);
    Guard.HEADERS.forEach(context::header);
    context.status(status);
    Reads.answer(context, Map.of("error", sentence));
  }
}
