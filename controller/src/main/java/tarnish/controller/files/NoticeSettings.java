package tarnish.controller.files;

import java.util.List;
import java.util.Optional;

/**
 * Whom to tell, and how. Nothing is told to anybody unless such a file exists.
 *
 * @param bench name of the bench in every message
 * @param leastIntervalS shortest time between two messages on one way, in s
 */
public record NoticeSettings(
    String bench,
    double leastIntervalS,
    Optional<Webhook> webhook,
    Optional<Mail> mail,
    Optional<Broker> broker) {

  /** How a connection is protected; the words are those of the file. */
  public enum Security {
    NONE("none"),
    STARTTLS("starttls"),
    TLS("tls");

    private final String words;

    Security(String words) {
      this.words = words;
    }

    String words() {
      return words;
    }
  }

  /**
   * An address that takes a JSON object by POST.
   *
   * @param secretFile whose one line goes into the header {@code Authorization}
   */
  public record Webhook(String address, Optional<String> secretFile) {}

  /** A mail server. Without a user nobody logs in. */
  public record Mail(
      String server,
      int port,
      Security security,
      Optional<String> user,
      Optional<String> secretFile,
      String from,
      List<String> to) {
    public Mail {
      to = List.copyOf(to);
    }
  }

  /**
   * An MQTT 5 broker.
   *
   * @param topic first part of every topic
   * @param readingsEveryS time between two pictures of the readings, in s
   */
  public record Broker(
      String server,
      int port,
      Security security,
      Optional<String> user,
      Optional<String> secretFile,
      String topic,
      double readingsEveryS) {}
}
