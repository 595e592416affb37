package tarnish.controller.service;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** The files of the page themselves. */
class PageFilesTest {
  private static final Path FOLDER = Path.of("../web-ui/src/main/resources/web-ui");
  private static final String SVG = "http://www.w3.org/2000/svg";
  private static final int BYTES_MAX = 250_000;

  private static String text(StaticFiles.Asset asset) {
    return new String(asset.bytes(), StandardCharsets.UTF_8);
  }

  @Test
  void nothingRefersToAnotherHost() {
    Pattern address = Pattern.compile("(https?:)?//[a-z0-9.-]+\\.[a-z]{2,}[^\\s\"'`)]*");
    new StaticFiles()
        .byPath()
        .forEach(
            (path, asset) -> {
              Set<String> found = new TreeSet<>();
              Matcher matcher = address.matcher(text(asset));
              while (matcher.find()) {
                found.add(matcher.group());
              }
              found.remove(SVG);
              // The head comment of the chart library names its home; nothing is loaded from it.
              found.removeIf(each -> path.startsWith("/uplot/") && each.contains("github.com"));
              assertEquals(Set.of(), found, path);
            });
  }

  @Test
  void everyFileOfTheFolderIsServedAndTheOtherWayRound() throws IOException {
    try (Stream<Path> files = Files.list(FOLDER)) {
      Set<String> there =
          files
              .map(path -> "/" + path.getFileName())
              .map(name -> name.equals("/index.html") ? "/" : name)
              .collect(Collectors.toCollection(TreeSet::new));
      Set<String> served = new TreeSet<>(new StaticFiles().byPath().keySet());
      served.removeIf(path -> path.startsWith("/uplot/"));
      assertEquals(there, served);
    }
  }

  /** One name that is not there, and a browser runs none of the scripts. */
  @Test
  void everyNameThatAScriptTakesFromAnotherIsGivenByIt() {
    Pattern taken = Pattern.compile("import \\{([^}]*)\\} from '\\.(/[a-z]+\\.js)'");
    var files = new StaticFiles().byPath();
    files.forEach(
        (path, asset) -> {
          Matcher matcher = taken.matcher(text(asset));
          while (matcher.find()) {
            assertTrue(files.containsKey(matcher.group(2)), path + " takes " + matcher.group(2));
            String giver = text(files.get(matcher.group(2)));
            for (String name : matcher.group(1).split(",")) {
              String plain = name.strip().split(" as ")[0];
              Pattern given =
                  Pattern.compile("export (async )?(function|const|let|class) " + plain + "\\b");
              assertTrue(
                  plain.isEmpty() || given.matcher(giver).find(),
                  path + " takes " + plain + " from " + matcher.group(2));
            }
          }
        });
  }

  @Test
  void thePageIsLight() {
    int bytes =
        new StaticFiles().byPath().values().stream().mapToInt(asset -> asset.bytes().length).sum();
    assertTrue(bytes <= BYTES_MAX, bytes + " bytes");
  }

  @Test
  void noMarkupIsMadeFromDataAndNothingIsInline() {
    new StaticFiles()
        .byPath()
        .forEach(
            (path, asset) -> {
              if (path.startsWith("/uplot/")) {
                return;
              }
              for (String forbidden :
                  new String[] {
                    "innerHTML",
                    "outerHTML",
                    "insertAdjacentHTML",
                    "document.write",
                    "eval(",
                    " style=\"",
                    " onclick=\"",
                    "javascript:",
                    "<style"
                  }) {
                assertFalse(text(asset).contains(forbidden), path + " has " + forbidden);
              }
            });
  }
}
