package tarnish.controller.notify;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/** Posts a JSON object to an address. */
final class WebhookWay implements Way {
  private static final Duration PATIENCE = Duration.ofSeconds(10);
  private static final ObjectMapper JSON = new ObjectMapper();

  private final URI address;
  private final Optional<String> secret;
  private final HttpClient client = HttpClient.newBuilder().connectTimeout(PATIENCE).build();

  WebhookWay(String address, Optional<String> secret) {
    this.address = URI.create(address);
    this.secret = secret;
  }

  @Override
  public String name() {
    return "webhook";
  }

  @Override
  public void send(String bench, Notice notice, int others) throws IOException {
    Map<String, Object> body = new LinkedHashMap<>();
    body.put("bench", bench);
    body.put("kind", notice.kind());
    body.put("subject", notice.subject());
    body.put("text", notice.text());
    body.put("at", notice.at());
    body.put("others", others);
    HttpRequest.Builder request =
        HttpRequest.newBuilder(address)
            .timeout(PATIENCE)
            .header("Content-Type", "application/json")
            .POST(HttpRequest.BodyPublishers.ofByteArray(JSON.writeValueAsBytes(body)));
    secret.ifPresent(value -> request.header("Authorization", value));
    try {
      int status =
          client.send(request.build(), HttpResponse.BodyHandlers.discarding()).statusCode();
      if (status / 100 != 2) {
        throw new IOException("the address answered with status " + status);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("interrupted", e);
    }
  }
}
