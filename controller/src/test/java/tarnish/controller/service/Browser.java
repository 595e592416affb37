package tarnish.controller.service;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Base64;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Predicate;
import java.util.logging.Level;
import java.util.stream.Stream;
import org.openqa.selenium.By;
import org.openqa.selenium.Keys;
import org.openqa.selenium.NoSuchElementException;
import org.openqa.selenium.StaleElementReferenceException;
import org.openqa.selenium.TimeoutException;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.interactions.Actions;
import org.openqa.selenium.logging.LogEntry;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;
import org.openqa.selenium.support.ui.WebDriverWait;

/**
 * A browser without a window, for tests of the page. Everything is found by its id or a CSS
 * selector; every wait ends as soon as its condition holds. Not thread-safe.
 */
public final class Browser implements AutoCloseable {
  private static final Path CHROMIUM = Path.of("/usr/bin/chromium");
  private static final Path DRIVER = Path.of("/usr/bin/chromedriver");
  private static final Duration PATIENCE = Duration.ofSeconds(120);

  /**
   * Whether a text may be there, at a quarter of the cost of asking what a person sees. Blanks and
   * case are left out, since they are made only as the page is drawn.
   */
  private static final String MAY_SAY =
      """
      const bare = (text) => text.replace(/\\s+/g, '').toLowerCase();
      const element = document.querySelector(arguments[0]);
      return element !== null && bare(element.textContent).includes(bare(arguments[1]));
      """;

  private static final String ATTRIBUTE =
      """
      const element = document.querySelector(arguments[0]);
      return element && [element.getAttribute(arguments[1])];
      """;

  /** What a person prefers. */
  public enum Scheme {
    LIGHT,
    DARK
  }

  private final Path profile;
  private final ChromeDriver driver;

  /** Opens a browser of the given size with an empty profile. */
  public Browser(int width, int height) {
    if (!Files.isExecutable(CHROMIUM) || !Files.isExecutable(DRIVER)) {
      throw new IllegalStateException(
          "tests of the page need "
              + CHROMIUM
              + " and "
              + DRIVER
              + " (Debian packages chromium and chromium-driver)");
    }
    try {
      profile = Files.createTempDirectory("tarnish-browser");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    ChromeOptions options = new ChromeOptions();
    options.setBinary(CHROMIUM.toFile());
    options.addArguments(
        "--headless=new",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        "--user-data-dir=" + profile);
    LoggingPreferences logs = new LoggingPreferences();
    logs.enable(LogType.BROWSER, Level.WARNING);
    options.setCapability("goog:loggingPrefs", logs);
    // Naming the driver keeps Selenium from looking for one on the network.
    System.setProperty("webdriver.chrome.driver", DRIVER.toString());
    driver = new ChromeDriver(options);
    driver.manage().timeouts().scriptTimeout(PATIENCE);
    size(width, height);
  }

  /** Makes the browser prefer a scheme; the open page is told at once. */
  public void prefer(Scheme scheme) {
    driver.executeCdpCommand(
        "Emulation.setEmulatedMedia",
        Map.of(
            "features",
            List.of(
                Map.of(
                    "name",
                    "prefers-color-scheme",
                    "value",
                    scheme.name().toLowerCase(Locale.ROOT)))));
  }

  /**
   * Makes the page area so large; a window of the browser could not be as narrow as a telephone.
   */
  public void size(int width, int height) {
    driver.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of("width", width, "height", height, "deviceScaleFactor", 1, "mobile", false));
  }

  public void open(String address) {
    driver.get(address);
  }

  public void reload() {
    driver.navigate().refresh();
  }

  public WebElement find(String css) {
    return driver.findElement(By.cssSelector(css));
  }

  public List<WebElement> all(String css) {
    return driver.findElements(By.cssSelector(css));
  }

  /** Text of the first element as a person sees it; empty if it is hidden. */
  public String text(String css) {
    return find(css).getText();
  }

  /** An attribute as it stands in the page, empty if there is none. */
  public String attribute(String css, String name) {
    List<?> found = (List<?>) run(ATTRIBUTE, css, name);
    if (found == null) {
      throw new NoSuchElementException(css);
    }
    return found.get(0) == null ? "" : (String) found.get(0);
  }

  public boolean isEnabled(String css) {
    return find(css).isEnabled();
  }

  public boolean isShown(String css) {
    return find(css).isDisplayed();
  }

  public void click(String css) {
    waitUntil(css + " can be pressed", browser -> browser.isShown(css) && browser.isEnabled(css));
    find(css).click();
  }

  /** Replaces what is in a field. */
  public void type(String css, String text) {
    WebElement field = find(css);
    field.clear();
    field.sendKeys(text);
  }

  public void press(String css, Keys... keys) {
    find(css).sendKeys(keys);
  }

  /** Drags level across an element, from and to so many px right of its left edge. */
  public void drag(String css, int fromX, int toX) {
    WebElement element = find(css);
    int middle = element.getSize().getWidth() / 2;
    new Actions(driver)
        .scrollToElement(element)
        .moveToElement(element, fromX - middle, 0)
        .clickAndHold()
        .moveByOffset((toX - fromX) / 2, 0)
        .moveByOffset(toX - fromX - (toX - fromX) / 2, 0)
        .release()
        .perform();
  }

  public void waitForText(String css, String part) {
    waitUntil(
        css + " says '" + part + "'",
        browser ->
            Boolean.TRUE.equals(browser.run(MAY_SAY, css, part))
                && browser.text(css).contains(part));
  }

  /** Waits until the batch is in a state, by its word. */
  public void waitForState(String word) {
    waitUntil("the state is " + word, b -> b.attribute("#state", "data-state").equals(word));
  }

  /**
   * @throws AssertionError if the condition does not hold within half a minute
   */
  public void waitUntil(String what, Predicate<Browser> condition) {
    try {
      new WebDriverWait(driver, PATIENCE, Duration.ofMillis(50))
          .ignoring(StaleElementReferenceException.class)
          .until(ignored -> condition.test(this));
    } catch (TimeoutException e) {
      throw new AssertionError("waited in vain until " + what, e);
    }
  }

  /** Runs a script in the page and gives what it returns. */
  public Object run(String script, Object... arguments) {
    return driver.executeScript(script, arguments);
  }

  /** Runs a script whose last argument is called with the result. */
  public Object runAsync(String script, Object... arguments) {
    return driver.executeAsyncScript(script, arguments);
  }

  /** Presses keys wherever the focus is. */
  public void keys(CharSequence... keys) {
    new Actions(driver).sendKeys(keys).perform();
  }

  /** Saves a small picture of what is in sight, without changing the size of the page. */
  public void view(Path file) {
    try {
      SmallPng.write(png(), file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** What is in sight; packed quickly rather than small, which halves its cost. */
  private byte[] png() {
    Map<String, Object> taken =
        driver.executeCdpCommand(
            "Page.captureScreenshot", Map.of("format", "png", "optimizeForSpeed", true));
    return Base64.getDecoder().decode((String) taken.get("data"));
  }

  /**
   * Errors and warnings so far of the pages at an address, such as a blocked script, without what a
   * page of a service that is gone complained of; reading clears them.
   */
  public List<String> complaints(String address) {
    return driver.manage().logs().get(LogType.BROWSER).getAll().stream()
        .map(LogEntry::getMessage)
        .filter(message -> message.startsWith(address) || !message.startsWith("http://127.0.0.1:"))
        .toList();
  }

  /** Saves a picture of the whole page, however long it is, under target/screenshots. */
  public void picture(String name) {
    Object height = run("return document.documentElement.scrollHeight");
    Object width = run("return innerWidth");
    Object before = run("return innerHeight");
    size(((Number) width).intValue(), ((Number) height).intValue());
    waitUntil("the page is laid out", b -> b.run("return innerHeight").equals(height));
    Path folder = Path.of("target", "screenshots");
    try {
      Files.createDirectories(folder);
      Files.write(folder.resolve(name + ".png"), png());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    size(((Number) width).intValue(), ((Number) before).intValue());
  }

  @Override
  public void close() {
    driver.quit();
    try (Stream<Path> files = Files.walk(profile)) {
      files.sorted(Comparator.reverseOrder()).forEach(path -> path.toFile().delete());
    } catch (IOException | UncheckedIOException e) {
      // A leftover temporary folder harms nobody.
    }
  }
}
