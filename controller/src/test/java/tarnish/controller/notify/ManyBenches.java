package tarnish.controller.notify;

import com.hivemq.client.mqtt.MqttClient;
import com.hivemq.client.mqtt.MqttGlobalPublishFilter;
import com.hivemq.client.mqtt.datatypes.MqttQos;
import com.hivemq.client.mqtt.mqtt5.Mqtt5BlockingClient;
import com.hivemq.client.mqtt.mqtt5.message.publish.Mqtt5Publish;
import java.io.BufferedReader;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The worked example of the notes: several benches, each a process of its own, on one broker, and
 * the figures of all of them in one time-series store, told apart by one label. Run by {@code
 * .ci/benches}.
 */
final class ManyBenches {
  private static final Pattern ADDRESS = Pattern.compile("(http://127\\.0\\.0\\.1:\\d+/)");

  /** What came of the benches. */
  record Result(Map<String, Integer> messages, Map<String, String> states, String metrics) {}

  private ManyBenches() {}

  public static void main(String[] arguments) throws Exception {
    int benches = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 3;
    Path folder = Files.createTempDirectory("tarnish-benches");
    Result result = run(folder, benches, 4);
    System.out.printf("%-24s %10s%n", "topic", "messages");
    result.messages().forEach((topic, count) -> System.out.printf("%-24s %10d%n", topic, count));
    result.states().forEach((topic, state) -> System.out.println(topic + " = " + state));
    long series =
        result
            .metrics()
            .lines()
            .filter(line -> line.startsWith("tarnish_loop_ticks_total"))
            .count();
    System.out.println("tarnish_loop_ticks_total of " + series + " benches in one store:");
    result
        .metrics()
        .lines()
        .filter(line -> line.startsWith("tarnish_loop_ticks_total"))
        .forEach(System.out::println);
    System.exit(series == benches ? 0 : 1);
  }

  /** Listens until each bench has sent so many pictures of its readings. */
  static Result run(Path folder, int benches, int readings) throws Exception {
    List<Process> processes = new ArrayList<>();
    List<String> addresses = new ArrayList<>();
    try (Mosquitto broker = Mosquitto.start(Mosquitto.freePort(), folder)) {
      Mqtt5BlockingClient client =
          MqttClient.builder()
              .useMqttVersion5()
              .serverHost("127.0.0.1")
              .serverPort(broker.port())
              .buildBlocking();
      client.connect();
      try (Mqtt5BlockingClient.Mqtt5Publishes inbox =
          client.publishes(MqttGlobalPublishFilter.ALL)) {
        client.subscribeWith().topicFilter("lab/+/#").qos(MqttQos.AT_LEAST_ONCE).send();
        for (int i = 1; i <= benches; i++) {
          Process process = start(folder, i, broker.port());
          processes.add(process);
          addresses.add(address(process));
        }
        Map<String, Integer> messages = new TreeMap<>();
        Map<String, String> states = new TreeMap<>();
        while (!enough(messages, benches, readings)) {
          Optional<Mqtt5Publish> next = inbox.receive(60, TimeUnit.SECONDS);
          Mqtt5Publish message = next.orElseThrow(() -> new AssertionError("only " + messages));
          String topic = message.getTopic().toString();
          messages.merge(topic, 1, Integer::sum);
          if (topic.endsWith("/state")) {
            states.put(topic, new String(message.getPayloadAsBytes(), StandardCharsets.UTF_8));
          }
        }
        return new Result(messages, states, metrics(addresses));
      } finally {
        client.disconnect();
      }
    } finally {
      processes.forEach(Process::destroy);
      for (Process process : processes) {
        process.waitFor();
      }
    }
  }

  private static boolean enough(Map<String, Integer> messages, int benches, int readings) {
    for (int i = 1; i <= benches; i++) {
      if (messages.getOrDefault("lab/bench-" + i + "/readings", 0) < readings
          || !messages.containsKey("lab/bench-" + i + "/state")) {
        return false;
      }
    }
    return true;
  }

  private static Process start(Path folder, int number, int port) throws IOException {
    Path data = Files.createDirectories(folder.resolve("bench-" + number));
    Files.writeString(
        data.resolve("notify.yaml"),
        "bench: Bench "
            + number
            + "\nleast interval: 60 s\nmqtt:\n  server: 127.0.0.1\n  port: "
            + port
            + "\n  security: none\n  topic: lab/bench-"
            + number
            + "\n  readings every: 1 s\n");
    return new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-Xmx64m",
            "-jar",
            "target/tarnish.jar",
            "serve",
            "--rig",
            "../sim/demo/bench.rig.yaml",
            "--data",
            data.toString(),
            "--port",
            "0")
        .redirectError(ProcessBuilder.Redirect.DISCARD)
        .start();
  }

  private static String address(Process process) throws IOException {
    BufferedReader lines = process.inputReader();
    for (String line = lines.readLine(); line != null; line = lines.readLine()) {
      Matcher found = ADDRESS.matcher(line);
      if (found.find()) {
        return found.group(1);
      }
    }
    throw new IllegalStateException("the program ended without serving");
  }

  /** As a store that fetches sees them: the same families, one label more. */
  private static String metrics(List<String> addresses) throws IOException, InterruptedException {
    HttpClient client = HttpClient.newHttpClient();
    List<String> lines = new ArrayList<>();
    for (int i = 0; i < addresses.size(); i++) {
      String text =
          client
              .send(
                  HttpRequest.newBuilder(URI.create(addresses.get(i) + "metrics")).build(),
                  HttpResponse.BodyHandlers.ofString())
              .body();
      int number = i + 1;
      text.lines()
          .filter(line -> !line.startsWith("#"))
          .map(line -> labelled(line, "bench-" + number))
          .forEach(lines::add);
    }
    return String.join("\n", lines.stream().sorted(Comparator.naturalOrder()).toList()) + "\n";
  }

  private static String labelled(String line, String bench) {
    int brace = line.indexOf('{');
    int blank = line.indexOf(' ');
    return brace >= 0 && brace < blank
        ? line.substring(0, brace) + "{bench=\"" + bench + "\"," + line.substring(brace + 1)
        : line.substring(0, blank) + "{bench=\"" + bench + "\"}" + line.substring(blank);
  }
}
