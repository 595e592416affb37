package tarnish.controller.service;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;

/** What the page does, in a few lines. */
final class Client {
  private static final HttpClient HTTP = HttpClient.newHttpClient();
  private static final ObjectMapper JSON = new ObjectMapper();

  private final String base;

  Client(int port) {
    base = "http://127.0.0.1:" + port;
  }

  HttpResponse<String> get(String path) {
    return send(HttpRequest.newBuilder(URI.create(base + path)));
  }

  String token() {
    return json(get("/api/session")).get("token").textValue();
  }

  /** The count that a page would decide on now. */
  String state() {
    return get("/api/status").headers().firstValue(Writes.STATE_HEADER).orElse("0");
  }

  HttpResponse<String> post(String path, String body) {
    return send(
        write(path, body)
            .setHeader(Guard.TOKEN_HEADER, token())
            .setHeader(Writes.STATE_HEADER, state()));
  }

  /** A write without its token, to be completed. */
  HttpRequest.Builder write(String path, String body) {
    return HttpRequest.newBuilder(URI.create(base + path))
        .header("Content-Type", "application/json")
        .POST(BodyPublishers.ofString(body));
  }

  HttpResponse<String> send(HttpRequest.Builder request) {
    try {
      return HTTP.send(request.build(), BodyHandlers.ofString());
    } catch (IOException e) {
      throw new AssertionError(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new AssertionError(e);
    }
  }

  static JsonNode json(HttpResponse<String> response) {
    try {
      return JSON.readTree(response.body());
    } catch (IOException e) {
      throw new AssertionError("not JSON: " + response.body(), e);
    }
  }
}
