package tarnish.controller.app;

import io.javalin.Javalin;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.Statement;

/**
 * The least that Javalin and SQLite can be: one route, and one durable row of twelve numbers each
 * 250 ms. What the service costs beyond it is its own doing.
 */
final class BareService {
  private static final int TICK_MILLIS = 250;
  private static final int NUMBERS = 12;

  private BareService() {}

  /** With an argument it ends by itself after so many rows, for a class archive. */
  public static void main(String[] arguments) throws Exception {
    long rows = arguments.length > 0 ? Long.parseLong(arguments[0]) : Long.MAX_VALUE;
    Path file = Files.createTempDirectory("bare").resolve("bare.db");
    Javalin server =
        Javalin.create(
            config -> {
              config.startup.showJavalinBanner = false;
              config.routes.get(
                  "/api/status", context -> context.result("{\"loop\":{\"ticks\":1}}"));
            });
    server.start("127.0.0.1", 0);
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = connection.createStatement()) {
      statement.execute("PRAGMA journal_mode = WAL");
      statement.execute("PRAGMA synchronous = FULL");
      statement.execute("CREATE TABLE sample (a, b, c, d, e, f, g, h, i, j, k, l)");
      System.out.println("Bare service at http://127.0.0.1:" + server.port() + "/");
      for (long row = 0; row < rows; row++) {
        insert(connection, row);
        if (row == 0) {
          long age = ProcessAge.millis().orElseThrow();
          System.err.println("First tick " + age + " ms after the process began.");
        }
        Thread.sleep(TICK_MILLIS);
      }
    }
    server.stop();
  }

  private static void insert(Connection connection, long row) throws Exception {
    String command = "INSERT INTO sample VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)";
    try (PreparedStatement insert = connection.prepareStatement(command)) {
      for (int i = 1; i <= NUMBERS; i++) {
        insert.setDouble(i, row * 0.1 + i);
      }
      insert.executeUpdate();
    }
  }
}
