package tarnish.controller.notify;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.hivemq.client.mqtt.MqttClient;
import com.hivemq.client.mqtt.MqttClientSslConfig;
import com.hivemq.client.mqtt.datatypes.MqttQos;
import com.hivemq.client.mqtt.mqtt5.Mqtt5AsyncClient;
import com.hivemq.client.mqtt.mqtt5.Mqtt5ClientBuilder;
import com.hivemq.client.mqtt.mqtt5.message.publish.Mqtt5Publish;
import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Supplier;
import tarnish.controller.files.NoticeSettings.Broker;
import tarnish.controller.files.NoticeSettings.Security;
import tarnish.controller.service.Status;

/**
 * Publishes events and readings to an MQTT 5 broker: events at least once and in order from the
 * record, readings from a bounded queue whose oldest go first, the state retained, and a last will
 * that says when this bench is gone. Used by one thread of its own.
 */
final class BrokerLink implements AutoCloseable {
  static final int READINGS_MAX = 8_640;

  private static final int EVENTS_AT_ONCE = 100;
  private static final long PATIENCE_S = 10;
  private static final long KEEP_ALIVE_S = 30;
  private static final ObjectMapper JSON = new ObjectMapper();

  private final Broker settings;
  private final EventFeed events;
  private final Supplier<Status> bench;
  private final Mqtt5AsyncClient client;
  private final Deque<byte[]> readings = new ArrayDeque<>();
  private long nextReadingsMillis = Long.MIN_VALUE;
  private String toldState = "";

  BrokerLink(Broker settings, Optional<String> secret, EventFeed events, Supplier<Status> bench) {
    this.settings = settings;
    this.events = events;
    this.bench = bench;
    Mqtt5ClientBuilder builder =
        MqttClient.builder()
            .useMqttVersion5()
            .serverHost(settings.server())
            .serverPort(settings.port());
    if (settings.security() != Security.NONE) {
      builder = builder.sslConfig(MqttClientSslConfig.builder().build());
    }
    if (settings.user().isPresent()) {
      builder =
          builder
              .simpleAuth()
              .username(settings.user().get())
              .password(secret.orElse("").getBytes(java.nio.charset.StandardCharsets.UTF_8))
              .applySimpleAuth();
    }
    client =
        builder.willPublish(publish("state", json(Map.of("state", "gone")), true)).buildAsync();
  }

  /** One round; {@code nowMillis} is monotonic. */
  void step(long nowMillis) throws IOException {
    Status status = bench.get();
    if (nowMillis >= nextReadingsMillis) {
      nextReadingsMillis = nowMillis + StrictMath.round(settings.readingsEveryS() * 1000);
      keep(readingsJson(status));
    }
    if (!client.getState().isConnected()) {
      toldState = "";
      await(client.connectWith().cleanStart(true).keepAlive((int) KEEP_ALIVE_S).send());
    }
    tellState(status);
    tellEvents();
    while (!readings.isEmpty()) {
      send("readings", readings.peekFirst(), false);
      readings.removeFirst();
    }
  }

  /** Connects and publishes one message under {@code test}. */
  void test(Notice notice) throws IOException {
    await(client.connectWith().send());
    send("test", json(Map.of("subject", notice.subject(), "at", notice.at())), false);
  }

  private void tellState(Status status) throws IOException {
    if (!status.state().equals(toldState)) {
      Map<String, Object> state = new LinkedHashMap<>();
      state.put("state", status.state());
      state.put("batch", status.batch());
      state.put("at", status.wallTime());
      send("state", json(state), true);
      toldState = status.state();
    }
  }

  private void tellEvents() throws IOException {
    for (EventFeed.Told told : events.next(EVENTS_AT_ONCE)) {
      Map<String, Object> event = new LinkedHashMap<>();
      event.put("id", told.id());
      event.put("batch", told.batch());
      event.put("seconds", told.line().millis() / 1e3);
      event.put("at", told.line().wallTime());
      event.put("kind", told.line().kind());
      event.put("sentence", told.line().sentence());
      send("event", json(event), false);
      events.handedOn(told);
    }
  }

  private void keep(byte[] picture) {
    if (readings.size() == READINGS_MAX) {
      readings.removeFirst();
    }
    readings.addLast(picture);
  }

  /** Values in SI units by channel; null where a reading is not good. */
  private static byte[] readingsJson(Status status) {
    Map<String, Object> values = new LinkedHashMap<>();
    status.readings().forEach(line -> values.put(line.channel(), line.value()));
    Map<String, Object> picture = new LinkedHashMap<>();
    picture.put("batch", status.batch());
    picture.put("at", status.wallTime());
    picture.put("state", status.state());
    picture.put("valuesSi", values);
    return json(picture);
  }

  /** Sends at least once: gives back when the broker has it. */
  private void send(String topic, byte[] json, boolean retain) throws IOException {
    await(client.publish(publish(topic, json, retain)));
  }

  private Mqtt5Publish publish(String topic, byte[] json, boolean retain) {
    return Mqtt5Publish.builder()
        .topic(settings.topic() + "/" + topic)
        .qos(MqttQos.AT_LEAST_ONCE)
        .retain(retain)
        .contentType("application/json")
        .payload(json)
        .build();
  }

  private static void await(CompletableFuture<?> answer) throws IOException {
    try {
      answer.get(PATIENCE_S, TimeUnit.SECONDS);
    } catch (ExecutionException e) {
      throw new IOException(e.getCause().getMessage(), e);
    } catch (TimeoutException e) {
      throw new IOException("the broker did not answer in " + PATIENCE_S + " s", e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("interrupted", e);
    }
  }

  private static byte[] json(Map<String, Object> value) {
    try {
      return JSON.writeValueAsBytes(value);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException(e);
    }
  }

  @Override
  public void close() {
    leave();
  }

  /** Says that the bench is gone, and disconnects. */
  void leave() {
    if (client.getState().isConnected()) {
      try {
        await(client.publish(publish("state", json(Map.of("state", "gone")), true)));
        await(client.disconnect());
      } catch (IOException gone) {
        // The broker says it for us: that is what the last will is for.
      }
    }
  }
}
