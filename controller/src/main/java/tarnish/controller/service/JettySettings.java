package tarnish.controller.service;

import java.nio.ByteBuffer;
import java.util.Map;
import org.eclipse.jetty.http.HttpHeader;
import org.eclipse.jetty.http.HttpStatus;
import org.eclipse.jetty.server.Connector;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.HttpConnectionFactory;
import org.eclipse.jetty.server.NetworkConnectionLimit;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.server.handler.ErrorHandler;
import org.eclipse.jetty.util.Callback;
import org.eclipse.jetty.util.thread.QueuedThreadPool;

/** The web server kept small: bounded threads, connections and headers, and plain error answers. */
final class JettySettings {
  private static final int THREADS_MAX = 10;
  private static final int THREADS_MIN = 3;
  private static final int THREAD_IDLE_MILLIS = 30_000;
  private static final int CONNECTIONS_MAX = 100;
  private static final int CONNECTION_IDLE_MILLIS = 10_000;
  private static final int HEADER_BYTES_MAX = 8 * 1024;

  private JettySettings() {}

  /** Threads with less say than the control loop, which runs at normal priority. */
  static QueuedThreadPool threads() {
    QueuedThreadPool threads = new QueuedThreadPool(THREADS_MAX, THREADS_MIN, THREAD_IDLE_MILLIS);
    threads.setName("page");
    threads.setThreadsPriority(Thread.NORM_PRIORITY - 1);
    threads.setDaemon(true);
    return threads;
  }

  static Connector connector(Server server, HttpConfiguration http, String host, int port) {
    http.setSendServerVersion(false);
    http.setRequestHeaderSize(HEADER_BYTES_MAX);
    ServerConnector connector = new ServerConnector(server, 1, 1, new HttpConnectionFactory(http));
    connector.setHost(host);
    connector.setPort(port);
    connector.setIdleTimeout(CONNECTION_IDLE_MILLIS);
    return connector;
  }

  static void limit(Server server) {
    server.addBean(new NetworkConnectionLimit(CONNECTIONS_MAX, server));
    server.setErrorHandler(new PlainErrors());
  }

  /** What the server itself refuses, such as a malformed request line, before any route sees it. */
  private static final class PlainErrors extends ErrorHandler {
    @Override
    public boolean errorPageForMethod(String method) {
      return true;
    }

    @Override
    protected void generateResponse(
        Request request,
        Response response,
        int code,
        String message,
        Throwable cause,
        Callback callback) {
      Guard.HEADERS.forEach((name, value) -> response.getHeaders().put(name, value));
      response.getHeaders().put(HttpHeader.CONTENT_TYPE, "application/json");
      boolean notHttp11 =
          code == HttpStatus.HTTP_VERSION_NOT_SUPPORTED_505
              || code == HttpStatus.NOT_IMPLEMENTED_501;
      if (notHttp11) {
        // The fault is in what was sent, so it must not look like one of the service.
        response.setStatus(HttpStatus.BAD_REQUEST_400);
      }
      String sentence =
          notHttp11 || code < 500
              ? "The request is malformed."
              : "The service met an unexpected problem.";
      response.write(true, ByteBuffer.wrap(Json.write(Map.of("error", sentence))), callback);
    }
  }
}
