package tarnish.controller.library;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.regex.Pattern;

/**
 * Recipes with all their versions: a list that is only ever added to, one JSON object a line, and
 * beside it each text in a file named by its SHA-256. Nothing is overwritten, nothing deleted. Any
 * thread may call.
 */
public final class RecipeLibrary {
  public static final int TEXT_LENGTH_MAX = 100_000;

  private static final String LIST = "versions.jsonl";
  private static final String ENDING = ".recipe.yaml";
  private static final int VERSIONS_MAX = 20_000;
  private static final Pattern NAME = Pattern.compile("[\\p{L}\\p{N}][\\p{L}\\p{N} ._()+-]{0,79}");
  private static final ObjectMapper JSON = new ObjectMapper();

  private final Path folder;
  private final Map<String, List<Version>> byName = new TreeMap<>();
  private int count;

  /**
   * One version of a recipe.
   *
   * @param number from 1, in the order they were kept
   * @param sha256 of its text in UTF-8, in hexadecimal digits
   */
  public record Version(
      String name, int number, String sha256, String savedAt, String by, String remark) {}

  /** Why a version was not kept, in a sentence for the person. */
  public static final class NotKept extends Exception {
    private static final long serialVersionUID = 1L;

    NotKept(String sentence) {
      super(sentence);
    }
  }

  private RecipeLibrary(Path folder) {
    this.folder = folder;
  }

  /**
   * Opens the library in a folder, which is made if it is missing. A line of the list that cannot
   * be read, as a power cut may leave one, is passed over.
   */
  public static RecipeLibrary open(Path folder) throws IOException {
    Files.createDirectories(folder);
    RecipeLibrary library = new RecipeLibrary(folder);
    Path list = folder.resolve(LIST);
    if (Files.exists(list)) {
      for (String line : Files.readAllLines(list, StandardCharsets.UTF_8)) {
        read(line).ifPresent(library::keep);
      }
    }
    return library;
  }

  private static Optional<Version> read(String line) {
    try {
      JsonNode node = JSON.readTree(line);
      return node.path("number").isInt() && Checksum.isOne(node.path("sha256").asText())
          ? Optional.of(
              new Version(
                  node.path("name").asText(),
                  node.path("number").asInt(),
                  node.path("sha256").asText(),
                  node.path("savedAt").asText(),
                  node.path("by").asText(),
                  node.path("remark").asText()))
          : Optional.empty();
    } catch (JsonProcessingException e) {
      return Optional.empty();
    }
  }

  private void keep(Version version) {
    byName.computeIfAbsent(version.name(), name -> new ArrayList<>()).add(version);
    count++;
  }

  /** Whether the text can name a recipe: letters, digits, spaces and . _ ( ) + - only. */
  public static boolean isName(String name) {
    return NAME.matcher(name).matches() && name.equals(name.strip());
  }

  /** All recipes by name, each with its versions, oldest first. */
  public synchronized Map<String, List<Version>> all() {
    Map<String, List<Version>> copy = new TreeMap<>();
    byName.forEach((name, versions) -> copy.put(name, List.copyOf(versions)));
    return copy;
  }

  public synchronized Optional<Version> newest(String name) {
    List<Version> versions = byName.getOrDefault(name, List.of());
    return versions.isEmpty() ? Optional.empty() : Optional.of(versions.get(versions.size() - 1));
  }

  public synchronized Optional<Version> find(String name, int number) {
    return byName.getOrDefault(name, List.of()).stream()
        .filter(version -> version.number() == number)
        .findFirst();
  }

  /** Whatever recipe has this very text, newest first. */
  public synchronized Optional<Version> bySha256(String sha256) {
    return byName.values().stream()
        .flatMap(List::stream)
        .filter(version -> version.sha256().equals(sha256))
        .reduce((first, second) -> second);
  }

  /**
   * The text of a version.
   *
   * @throws IOException if its file is gone or was changed
   */
  public String text(Version version) throws IOException {
    String text = Files.readString(file(version.sha256()), StandardCharsets.UTF_8);
    if (!Checksum.of(text).equals(version.sha256())) {
      throw new IOException("the file " + file(version.sha256()) + " was changed");
    }
    return text;
  }

  private Path file(String sha256) {
    return folder.resolve(sha256 + ENDING);
  }

  /**
   * Keeps a new version, durable when the call returns; the same text as the newest is that one.
   *
   * @param basedOn number of the version that was changed; 0: a new recipe
   * @throws NotKept if somebody else was quicker, or the name will not do
   */
  public synchronized Version save(
      String name, String text, int basedOn, String by, String remark, String savedAt)
      throws NotKept, IOException {
    if (!isName(name)) {
      throw new NotKept(
          "The name of a recipe must begin with a letter or digit and have at most 80 letters,"
              + " digits, spaces and . _ ( ) + -");
    }
    Optional<Version> newest = newest(name);
    int number = newest.map(Version::number).orElse(0);
    String sha256 = Checksum.of(text);
    if (newest.isPresent() && newest.get().sha256().equals(sha256)) {
      return newest.get();
    }
    if (number != basedOn) {
      throw new NotKept(
          number == 0
              ? "There is no recipe of that name to change."
              : "Version "
                  + number
                  + " of that recipe was kept by "
                  + newest.orElseThrow().by()
                  + " meanwhile; look at it, then keep yours again or under another name.");
    }
    if (count >= VERSIONS_MAX) {
      throw new NotKept("The library is full: " + VERSIONS_MAX + " versions.");
    }
    Version version = new Version(name, number + 1, sha256, savedAt, by, remark);
    write(text, version);
    keep(version);
    return version;
  }

  private void write(String text, Version version) throws IOException {
    DurableFile.write(file(version.sha256()), text.getBytes(StandardCharsets.UTF_8));
    ObjectNode node = JSON.createObjectNode();
    node.put("name", version.name());
    node.put("number", version.number());
    node.put("sha256", version.sha256());
    node.put("savedAt", version.savedAt());
    node.put("by", version.by());
    node.put("remark", version.remark());
    Path list = folder.resolve(LIST);
    // A torn last line gets an end of its own, so that it spoils nothing after it.
    boolean torn = Files.exists(list) && Files.size(list) > 0 && !endsInNewline(list);
    Files.writeString(
        list,
        (torn ? "\n" : "") + node + "\n",
        StandardCharsets.UTF_8,
        StandardOpenOption.CREATE,
        StandardOpenOption.APPEND,
        StandardOpenOption.DSYNC);
  }

  private static boolean endsInNewline(Path list) throws IOException {
    try (var channel = Files.newByteChannel(list)) {
      channel.position(channel.size() - 1);
      java.nio.ByteBuffer last = java.nio.ByteBuffer.allocate(1);
      return channel.read(last) == 1 && last.get(0) == '\n';
    }
  }

  /** Keeps the texts of a folder as new versions where they differ from the newest. */
  public void takeIn(Map<String, String> texts, String savedAt) throws IOException {
    for (Map.Entry<String, String> each : texts.entrySet()) {
      String name = each.getKey().replaceFirst("[.]recipe[.]yaml$", "");
      try {
        int newest = newest(name).map(Version::number).orElse(0);
        String sha256 = Checksum.of(each.getValue());
        boolean known =
            all().getOrDefault(name, List.of()).stream().anyMatch(v -> v.sha256().equals(sha256));
        if (!known) {
          save(name, each.getValue(), newest, "recipe folder", "read at the start", savedAt);
        }
      } catch (NotKept e) {
        // Its file name cannot name a recipe here; it can still be run from the command line.
        continue;
      }
    }
  }
}
