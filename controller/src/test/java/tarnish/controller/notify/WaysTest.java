package tarnish.controller.notify;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.GreenMailUtil;
import com.icegreen.greenmail.util.ServerSetup;
import com.sun.net.httpserver.HttpServer;
import jakarta.mail.internet.MimeMessage;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.files.NoticeSettings.Mail;
import tarnish.controller.files.NoticeSettings.Security;
import tarnish.controller.files.NoticeSettingsReader;

/** Messages to real servers on this machine. */
class WaysTest {
  private static final Notice ALARM =
      new Notice("alarm", "Alarm: leak", "Pressure rises, 3 µbar/s.\nTo do: shut.", "12:00");

  private static HttpServer webServer(int status, List<String> taken) throws IOException {
    HttpServer server =
        HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    server.createContext(
        "/hook",
        exchange -> {
          taken.add(
              exchange.getRequestMethod()
                  + " "
                  + exchange.getRequestHeaders().getFirst("Authorization")
                  + "\n"
                  + new String(exchange.getRequestBody().readAllBytes(), "UTF-8"));
          exchange.sendResponseHeaders(status, -1);
          exchange.close();
        });
    server.start();
    return server;
  }

  private static String address(HttpServer server) {
    return "http://127.0.0.1:" + server.getAddress().getPort() + "/hook";
  }

  @Test
  void aWebhookGetsOneJsonObjectByPost() throws IOException {
    List<String> taken = new CopyOnWriteArrayList<>();
    HttpServer server = webServer(204, taken);
    try {
      new WebhookWay(address(server), Optional.of("Bearer abc")).send("bench A", ALARM, 2);
    } finally {
      server.stop(0);
    }
    assertEquals(1, taken.size());
    String[] parts = taken.get(0).split("\n", 2);
    assertEquals("POST Bearer abc", parts[0]);
    JsonNode json = new ObjectMapper().readTree(parts[1]);
    assertEquals("bench A", json.get("bench").asText());
    assertEquals("alarm", json.get("kind").asText());
    assertEquals(ALARM.text(), json.get("text").asText());
    assertEquals(2, json.get("others").asInt());
  }

  @Test
  void anAnswerOfFailureOrNoAnswerIsAFailure() throws IOException {
    HttpServer server = webServer(500, new CopyOnWriteArrayList<>());
    String address = address(server);
    WebhookWay way = new WebhookWay(address, Optional.empty());
    IOException refused = assertThrows(IOException.class, () -> way.send("bench", ALARM, 0));
    assertTrue(refused.getMessage().contains("500"), refused.getMessage());
    server.stop(0);
    assertThrows(IOException.class, () -> way.send("bench", ALARM, 0));
  }

  private static GreenMail mailServer() {
    return new GreenMail(new ServerSetup(0, "127.0.0.1", ServerSetup.PROTOCOL_SMTP));
  }

  private static Mail mail(int port, Security security, Optional<String> user) {
    return new Mail(
        "127.0.0.1",
        port,
        security,
        user,
        Optional.empty(),
        "bench@lab.example",
        List.of("ann@lab.example", "ben@lab.example"));
  }

  @Test
  void aMailReachesEverybodyWithItsWordsUnharmed() throws Exception {
    GreenMail server = mailServer();
    server.setUser("bench", "bench", "secret");
    server.start();
    try {
      Mail settings = mail(server.getSmtp().getPort(), Security.NONE, Optional.of("bench"));
      new MailWay(settings, Optional.of("secret")).send("Prüfstand", ALARM, 3);
      MimeMessage[] got = server.getReceivedMessages();
      assertEquals(2, got.length);
      assertEquals("Prüfstand: Alarm: leak (and 3 more)", got[0].getSubject());
      assertTrue(got[0].getContent().toString().contains("3 µbar/s"));
      assertEquals("auto-generated", got[0].getHeader("Auto-Submitted")[0]);
      assertFalse(GreenMailUtil.getHeaders(got[0]).contains("secret"));
    } finally {
      server.stop();
    }
  }

  @Test
  void aMailThatMustBeProtectedIsNotSentInTheClear() {
    GreenMail server = mailServer();
    server.start();
    try {
      Mail settings = mail(server.getSmtp().getPort(), Security.STARTTLS, Optional.empty());
      MailWay way = new MailWay(settings, Optional.empty());
      assertThrows(IOException.class, () -> way.send("bench", ALARM, 0));
      assertEquals(0, server.getReceivedMessages().length);
    } finally {
      server.stop();
    }
  }

  @Test
  void theTestTriesEveryWayAndTellsWhichFailed(@TempDir Path folder) throws IOException {
    List<String> taken = new CopyOnWriteArrayList<>();
    HttpServer server = webServer(200, taken);
    Path secret = Files.writeString(folder.resolve("secret"), "Bearer xyz\n");
    String text =
        "bench: Bench A\nwebhook: {address: '"
            + address(server)
            + "', secret file: "
            + secret
            + "}\nmail: {server: 127.0.0.1, port: 1, security: none, from: a@b.example,"
            + " to: 'c@d.example'}\n";
    try {
      Map<String, String> outcomes =
          Outside.test(NoticeSettingsReader.read("notify.yaml", text).value(), "now");
      assertEquals("", outcomes.get("webhook"));
      assertFalse(outcomes.get("mail").isEmpty());
      assertTrue(taken.get(0).startsWith("POST Bearer xyz\n"), taken.get(0));
    } finally {
      server.stop(0);
    }
  }

  @Test
  void everyFaultOfTheSettingsIsToldWithItsPlace() {
    String text =
        "bench: Bench A\nleast interval: 5\nwebhook: {address: 'ftp://x'}\n"
            + "mail: {server: m, port: 99999, security: ssl, from: nobody, to: a@b.example}\n"
            + "mqtt: {server: m, port: 1883, security: starttls, topic: 'a/#'}\nmial: {}\n";
    String faults = NoticeSettingsReader.read("notify.yaml", text).faults().toString();
    for (String found :
        List.of(
            ":2:17",
            "ftp://x",
            "99999",
            "'ssl'",
            "nobody",
            "'starttls'",
            "a/#",
            "did you mean 'mail'")) {
      assertTrue(faults.contains(found), found + " in " + faults);
    }
    assertFalse(NoticeSettingsReader.read("n", "bench: A\n").value().webhook().isPresent());
  }
}
