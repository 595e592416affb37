package tarnish.controller.notify;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.hivemq.client.mqtt.MqttClient;
import com.hivemq.client.mqtt.MqttGlobalPublishFilter;
import com.hivemq.client.mqtt.datatypes.MqttQos;
import com.hivemq.client.mqtt.mqtt5.Mqtt5BlockingClient;
import com.hivemq.client.mqtt.mqtt5.message.publish.Mqtt5Publish;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tarnish.controller.control.Event;
import tarnish.controller.files.NoticeSettings.Broker;
import tarnish.controller.files.NoticeSettings.Security;
import tarnish.controller.journal.Journal;
import tarnish.controller.journal.SqliteJournal;
import tarnish.controller.service.FakeBench;
import tarnish.controller.service.Scene;
import tarnish.shared.reading.Channel;
import tarnish.shared.reading.Readings;
import tarnish.shared.rig.Outputs;

/** Events and readings through Debian's broker, with the broker gone in between. */
class BrokerLinkTest {
  private static final String TOPIC = "lab/bench-1";

  @TempDir private Path folder;
  private final FakeBench bench = new FakeBench(Scene.RUNNING);

  private static void write(Journal journal, int batch, int from, int to) {
    for (int i = from; i < to; i++) {
      // Two events in each tick, so that a place between them is tried, too.
      List<Event> events =
          List.of(new Event.Advisory("event " + 2 * i), new Event.Advisory("event " + (2 * i + 1)));
      Readings readings = new Readings(new double[Channel.COUNT]);
      journal.tick(batch, 250L * (i + 1), "now", readings, List.of(), Outputs.OFF, events);
    }
  }

  private BrokerLink link(int port, Journal journal) {
    return new BrokerLink(
        new Broker("127.0.0.1", port, Security.NONE, Optional.empty(), Optional.empty(), TOPIC, 10),
        Optional.empty(),
        new EventFeed(journal, folder.resolve("place.json")),
        bench::status);
  }

  /** Listens to a topic from now on; what is retained comes first. */
  private static final class Listener implements AutoCloseable {
    private final Mqtt5BlockingClient client;
    private final Mqtt5BlockingClient.Mqtt5Publishes inbox;

    Listener(int port, String topic) {
      client =
          MqttClient.builder()
              .useMqttVersion5()
              .serverHost("127.0.0.1")
              .serverPort(port)
              .buildBlocking();
      client.connect();
      inbox = client.publishes(MqttGlobalPublishFilter.ALL);
      client.subscribeWith().topicFilter(TOPIC + topic).qos(MqttQos.AT_LEAST_ONCE).send();
    }

    List<JsonNode> take(int number) throws Exception {
      List<JsonNode> got = new ArrayList<>();
      while (got.size() < number) {
        Mqtt5Publish next =
            inbox
                .receive(20, TimeUnit.SECONDS)
                .orElseThrow(() -> new AssertionError("only " + got.size() + " came"));
        got.add(new ObjectMapper().readTree(next.getPayloadAsBytes()));
      }
      return got;
    }

    @Override
    public void close() {
      inbox.close();
      client.disconnect();
    }
  }

  @Test
  void everyEventComesInOrderAlthoughTheBrokerAndTheServiceWereGoneInBetween() throws Exception {
    int port = Mosquitto.freePort();
    try (SqliteJournal journal = SqliteJournal.open(folder.resolve("data"))) {
      int batch = journal.begin(new Journal.BatchHead("a", "", "", "now", "invented", null));
      write(journal, batch, 0, 20);
      List<JsonNode> came = new ArrayList<>();
      try (Mosquitto broker = Mosquitto.start(port, folder);
          Listener listener = new Listener(broker.port(), "/event");
          BrokerLink link = link(port, journal)) {
        link.step(0);
        came.addAll(listener.take(40));
      }
      write(journal, batch, 20, 90);
      try (BrokerLink link = link(port, journal)) {
        assertThrows(IOException.class, () -> link.step(0));
        try (Mosquitto broker = Mosquitto.start(port, folder);
            Listener listener = new Listener(broker.port(), "/event")) {
          link.step(20_000);
          link.step(21_000);
          came.addAll(listener.take(140));
        }
      }
      List<String> told =
          came.stream().map(event -> event.get("sentence").asText()).distinct().toList();
      assertEquals(180, told.size());
      for (int i = 0; i < 180; i++) {
        assertEquals("event " + i, told.get(i));
      }
      assertEquals(180, came.stream().map(e -> e.get("id").asText()).distinct().count());
    }
  }

  @Test
  void readingsWaitWhileTheBrokerIsGoneAndTheStateIsRetainedUntilTheBenchIsGone() throws Exception {
    int port = Mosquitto.freePort();
    try (SqliteJournal journal = SqliteJournal.open(folder.resolve("data"));
        BrokerLink link = link(port, journal)) {
      for (int i = 0; i < 3; i++) {
        long now = i * 10_000L;
        assertThrows(IOException.class, () -> link.step(now));
      }
      try (Mosquitto broker = Mosquitto.start(port, folder);
          Listener listener = new Listener(broker.port(), "/readings")) {
        link.step(30_000);
        JsonNode values = listener.take(4).get(0).get("valuesSi");
        String channel = bench.status().readings().get(0).channel();
        assertEquals(523.55, values.get(channel).asDouble());
        assertTrue(values.get(bench.status().readings().get(2).channel()).isNull());
        try (Listener late = new Listener(broker.port(), "/state")) {
          assertEquals("running", late.take(1).get(0).get("state").asText());
          link.leave();
          assertEquals("gone", late.take(1).get(0).get("state").asText());
        }
      }
    }
    assertFalse(folder.resolve("place.json.new").toFile().exists());
  }
}
