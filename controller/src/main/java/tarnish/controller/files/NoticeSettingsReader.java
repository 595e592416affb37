package tarnish.controller.files;

import java.net.URI;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import tarnish.controller.files.NoticeSettings.Broker;
import tarnish.controller.files.NoticeSettings.Mail;
import tarnish.controller.files.NoticeSettings.Security;
import tarnish.controller.files.NoticeSettings.Webhook;
import tarnish.shared.quantity.Unit;

/** Reads the file that says whom to tell, as strictly as a rig file. */
public final class NoticeSettingsReader {
  private static final Pattern MAIL_ADDRESS = Pattern.compile("[^\\s@,<>]+@[^\\s@,<>]+");
  private static final Pattern TOPIC = Pattern.compile("[^#+/\\s]+(/[^#+/\\s]+)*");
  private static final int PORT_MAX = 65_535;
  private static final double LEAST_INTERVAL_S = 60;
  private static final Bound INTERVAL = Bound.of(Unit.SECOND, 1, 86_400);

  private final Faults faults;

  private NoticeSettingsReader(Faults faults) {
    this.faults = faults;
  }

  /**
   * Reads the settings.
   *
   * @param fileName for messages only
   */
  public static ReadResult<NoticeSettings> read(String fileName, String text) {
    return FileText.check(fileName, text)
        .then(
            checked -> {
              Faults faults = new Faults(fileName);
              Optional<Node> root = NodeReader.read(checked, faults);
              if (root.isEmpty()) {
                return ReadResult.faulty(faults.list());
              }
              NoticeSettings settings = new NoticeSettingsReader(faults).read(root.get());
              return faults.result(() -> settings);
            });
  }

  private NoticeSettings read(Node root) {
    Fields top =
        new Fields(
            root,
            "the file",
            faults,
            List.of("bench", "least interval", "webhook", "mail", "mqtt"));
    return new NoticeSettings(
        top.text("bench", "Tube oven bench"),
        top.quantityOr("least interval", INTERVAL, LEAST_INTERVAL_S),
        group(top, "webhook", "address", "secret file").map(this::webhook),
        group(top, "mail", "server", "port", "security", "user", "secret file", "from", "to")
            .map(this::mail),
        group(
                top,
                "mqtt",
                "server",
                "port",
                "security",
                "user",
                "secret file",
                "topic",
                "readings every")
            .map(this::broker));
  }

  private Optional<Fields> group(Fields top, String key, String... known) {
    return top.optionalNode(key)
        .map(node -> new Fields(node, "'" + key + "'", faults, Arrays.asList(known)));
  }

  private Webhook webhook(Fields fields) {
    String address = fields.text("address", "https://messages.example/hook");
    if (!address.isEmpty() && !isWebAddress(address)) {
      fields.fault("address", fields.written("address"), "an address with http:// or https://");
    }
    return new Webhook(address, fields.optionalText("secret file"));
  }

  private static boolean isWebAddress(String text) {
    try {
      URI address = URI.create(text);
      boolean web = "http".equals(address.getScheme()) || "https".equals(address.getScheme());
      return web && address.getHost() != null && address.getUserInfo() == null;
    } catch (IllegalArgumentException notAnAddress) {
      return false;
    }
  }

  private Mail mail(Fields fields) {
    List<String> to = List.of(fields.text("to", "a@lab.example, b@lab.example").split("\\s*,\\s*"));
    for (String address : to) {
      checkMailAddress(fields, "to", address);
    }
    String from = fields.text("from", "bench@lab.example");
    checkMailAddress(fields, "from", from);
    return new Mail(
        fields.text("server", "mail.example"),
        fields.count("port", 1, PORT_MAX),
        security(fields),
        fields.optionalText("user"),
        fields.optionalText("secret file"),
        from,
        to);
  }

  private static void checkMailAddress(Fields fields, String key, String address) {
    if (!address.isEmpty() && !MAIL_ADDRESS.matcher(address).matches()) {
      fields.fault(key, "'" + address + "'", "a mail address, e.g. bench@lab.example");
    }
  }

  private Broker broker(Fields fields) {
    String topic = fields.text("topic", "lab/bench-1");
    if (!topic.isEmpty() && !TOPIC.matcher(topic).matches()) {
      fields.fault("topic", "'" + topic + "'", "words with / between, without spaces, # and +");
    }
    Security security = security(fields);
    if (security == Security.STARTTLS) {
      fields.fault("security", "'starttls'", "none or tls: MQTT has no other way");
    }
    return new Broker(
        fields.text("server", "broker.example"),
        fields.count("port", 1, PORT_MAX),
        security,
        fields.optionalText("user"),
        fields.optionalText("secret file"),
        topic,
        fields.quantityOr("readings every", INTERVAL, 10));
  }

  private static Security security(Fields fields) {
    return fields.word("security", Security.values(), Security::words);
  }
}
