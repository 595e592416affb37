package tarnish.controller.service;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicLong;
import tarnish.controller.access.PasswordHash;
import tarnish.controller.access.PeopleFile;
import tarnish.controller.access.Person;
import tarnish.controller.access.Role;

/** A service with people to sign in, a clock that is set by hand, and a bench after a script. */
final class Doors implements AutoCloseable {
  static final String ADA = "Ada Example";
  static final String BEN = "Ben Example";
  static final String PASSWORD = "grey cake, broken twice ";
  static final String HASH = PasswordHash.of(PASSWORD.toCharArray());

  private static final HttpClient HTTP = HttpClient.newHttpClient();

  final AtomicLong clockMillis = new AtomicLong(1_000_000);
  final FakeBench bench = new FakeBench(Scene.RUNNING);
  final FakeWorkshop workshop = new FakeWorkshop(bench);
  final Path people;
  final WebService service;

  private final String host;

  Doors(boolean behindTls, boolean limited) {
    try {
      people = Files.createTempDirectory(Path.of("target"), "people").resolve("people.txt");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    write(new Person(ADA, Role.OPERATE, HASH), new Person(BEN, Role.LOOK, HASH));
    service =
        WebService.start(
            bench,
            Optional.of(workshop),
            new WebSettings(
                "127.0.0.1",
                0,
                List.of("bench.example"),
                behindTls,
                Optional.of(people),
                limited,
                clockMillis::get));
    host = "http://127.0.0.1:" + service.port();
  }

  void write(Person... all) {
    try {
      new PeopleFile(people).write(List.of(all));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  void pass(long millis) {
    clockMillis.addAndGet(millis);
  }

  /** What a browser keeps of a session. */
  record Key(String cookie, String token) {}

  HttpResponse<String> login(String name, String password, String... headers) {
    String body = Json.text(Map.of("name", name, "password", password));
    return send(
        request("POST", "/api/login", body).header(Guard.TOKEN_HEADER, "none yet"), headers);
  }

  Key signIn(String name) {
    HttpResponse<String> answer = login(name, PASSWORD);
    if (answer.statusCode() != 200) {
      throw new AssertionError(answer.body());
    }
    return new Key(cookie(answer), Client.json(answer).get("token").textValue());
  }

  /** Name and value of the cookie that was set. */
  static String cookie(HttpResponse<String> answer) {
    return answer.headers().firstValue("Set-Cookie").orElseThrow().split(";")[0];
  }

  HttpResponse<String> get(Key key, String path) {
    return send(with(request("GET", path, null), key));
  }

  HttpResponse<String> post(Key key, String path, String body) {
    String state = get(key, "/api/status").headers().firstValue(Writes.STATE_HEADER).orElse("0");
    return send(
        with(request("POST", path, body), key)
            .header(Guard.TOKEN_HEADER, key.token())
            .header(Writes.STATE_HEADER, state));
  }

  HttpRequest.Builder with(HttpRequest.Builder request, Key key) {
    return key == null ? request : request.header("Cookie", key.cookie());
  }

  HttpRequest.Builder request(String method, String path, String body) {
    return HttpRequest.newBuilder(URI.create(host + path))
        .header("Content-Type", "application/json")
        .method(method, body == null ? BodyPublishers.noBody() : BodyPublishers.ofString(body));
  }

  HttpResponse<String> send(HttpRequest.Builder request, String... headers) {
    if (headers.length > 0) {
      request.headers(headers);
    }
    try {
      return HTTP.send(request.build(), BodyHandlers.ofString());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new AssertionError(e);
    }
  }

  @Override
  public void close() {
    service.close();
  }

  /** JSON of plain maps. */
  static final class Json {
    private Json() {}

    static String text(Object value) {
      return new String(
          tarnish.controller.service.Json.write(value), java.nio.charset.StandardCharsets.UTF_8);
    }
  }
}
