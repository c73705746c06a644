package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.openqa.selenium.By;
import org.openqa.selenium.Dimension;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.logging.LogType;
import tallyback.audio.Clip;
import tallyback.audio.WavWriter;

/**
 * Debian's Chromium without a window, whose microphone is a recording: the hands and eyes of
 * whoever uses a page. For one thread; closing ends it.
 */
public final class TestBrowser implements AutoCloseable {

  /** What a page is looked at on unless it has screens of its own: a phone, a tablet, a desk. */
  static final List<Dimension> SCREENS =
      List.of(new Dimension(360, 1000), new Dimension(1000, 1000), new Dimension(1600, 1000));

  /** What a button has at least, across and down: 20 mm for a glove, at 96 px to the inch. */
  static final int GLOVE_PX = 76;

  private static final List<String> FOLDERS = List.of("/usr/bin/", "/usr/local/bin/", "/snap/bin/");
  private static final Duration PATIENCE = Duration.ofSeconds(60);

  private final ChromeDriver driver;
  private Dimension size = new Dimension(1600, 1000);

  private TestBrowser(ChromeDriver driver) {
    this.driver = driver;
    driver.manage().timeouts().scriptTimeout(PATIENCE);
    resize(size);
  }

  /**
   * Where a program is, under the first of its names that there is; its name where there is none.
   */
  static Path program(String... names) {
    for (String name : names) {
      for (String folder : FOLDERS) {
        if (Files.isExecutable(Path.of(folder + name))) {
          return Path.of(folder + name);
        }
      }
    }
    return Path.of(names[0]);
  }

  /** Skips the test, and says why, where there is no browser. */
  static void assumeInstalled() {
    assumeTrue(
        Files.isExecutable(chromium()) && Files.isExecutable(program("chromedriver")),
        "no browser here: install chromium and chromium-driver");
  }

  private static Path chromium() {
    return program("chromium", "chromium-browser");
  }

  /**
   * Opens one, 1600 px wide. It believes only certificates it knows.
   *
   * @param folder what it keeps lies in it
   * @param microphone a recording, played over and over from when it is listened to
   * @param more arguments besides
   */
  static TestBrowser open(Path folder, Path microphone, List<String> more) {
    ChromeOptions options = new ChromeOptions();
    options.setBinary(chromium().toFile());
    options.addArguments(
        "--headless=new",
        "--no-sandbox",
        "--disable-dev-shm-usage",
        "--user-data-dir=" + folder.resolve("browser"),
        "--use-fake-ui-for-media-stream",
        "--use-fake-device-for-media-stream",
        "--use-file-for-fake-audio-capture=" + microphone,
        "--autoplay-policy=no-user-gesture-required");
    options.addArguments(more);
    // The driver would have the browser believe every certificate.
    options.setAcceptInsecureCerts(false);
    return new TestBrowser(
        new ChromeDriver(
            new ChromeDriverService.Builder()
                .usingDriverExecutable(program("chromedriver").toFile())
                .withEnvironment(Map.of("HOME", folder.toString()))
                .build(),
            options));
  }

  /** The same, with a microphone that hears a sound. */
  static TestBrowser hearing(Path folder, Clip sound, List<String> more) {
    Path microphone = folder.resolve("microphone.wav");
    try {
      Files.write(microphone, WavWriter.toBytes(sound));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return open(folder, microphone, more);
  }

  /** The same, with a microphone that hears nothing. */
  public static TestBrowser silent(Path folder, String... more) {
    return hearing(folder, new Clip(new short[Clip.SAMPLE_RATE_HZ], 0), List.of(more));
  }

  /** For what only the browser's own way does. */
  public ChromeDriver driver() {
    return driver;
  }

  @Override
  public void close() {
    driver.quit();
  }

  // ---- hands

  public void go(String address) {
    driver.get(address);
  }

  public void run(String script, Object... arguments) {
    driver.executeScript(script, arguments);
  }

  void click(String css) {
    find(css).click();
  }

  void type(String css, CharSequence... keys) {
    find(css).sendKeys(keys);
  }

  /** Types in place of what the field holds. */
  void write(String css, CharSequence... keys) {
    find(css).clear();
    type(css, keys);
  }

  final void resize(Dimension wanted) {
    resize(wanted, false);
  }

  /** As a phone has it: its page is as wide as it says itself. */
  void resizeAsPhone(Dimension wanted) {
    resize(wanted, true);
  }

  private void resize(Dimension wanted, boolean mobile) {
    size = wanted;
    driver.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of(
            "width",
            wanted.width,
            "height",
            wanted.height,
            "deviceScaleFactor",
            1,
            "mobile",
            mobile));
  }

  /** "light" or "dark". */
  private void scheme(String scheme) {
    driver.executeCdpCommand(
        "Emulation.setEmulatedMedia",
        Map.of("features", List.of(Map.of("name", "prefers-color-scheme", "value", scheme))));
  }

  /** "print", or "" for the screen. */
  void medium(String medium) {
    driver.executeCdpCommand("Emulation.setEmulatedMedia", Map.of("media", medium));
  }

  static void pause(long ms) {
    try {
      Thread.sleep(ms);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  // ---- eyes

  /** What an expression of JavaScript is: a number is a Long or a Double, an array a List. */
  Object value(String expression, Object... arguments) {
    return Objects.requireNonNull(driver.executeScript("return " + expression, arguments));
  }

  WebElement find(String css) {
    return driver.findElement(By.cssSelector(css));
  }

  List<WebElement> findAll(String css) {
    return driver.findElements(By.cssSelector(css));
  }

  int count(String css) {
    return findAll(css).size();
  }

  /** All the text of the first such element, hidden text too. */
  String text(String css) {
    return (String) value("document.querySelector(arguments[0]).textContent", css);
  }

  /** The text of the first such element as somebody sees it. */
  String seen(String css) {
    return find(css).getText();
  }

  /** Until an expression of JavaScript holds. */
  void await(String condition) {
    await(condition, PATIENCE);
  }

  void await(String condition, Duration atMost) {
    await(() -> Boolean.TRUE.equals(value("Boolean(" + condition + ")")), atMost, () -> condition);
  }

  /** Until the text of the first such element has a part. */
  void awaitText(String css, String part) {
    await(
        () -> textIfAny(css).contains(part),
        PATIENCE,
        () -> css + " says '" + textIfAny(css) + "', expected '" + part + "'");
  }

  private String textIfAny(String css) {
    return (String) value("document.querySelector(arguments[0])?.textContent ?? ''", css);
  }

  private void await(BooleanSupplier holds, Duration atMost, Supplier<String> what) {
    Instant until = Instant.now().plus(atMost);
    while (!holds.getAsBoolean()) {
      assertTrue(Instant.now().isBefore(until), () -> what.get() + "; page: " + seen("body"));
      pause(50);
    }
  }

  /** What the browser's console holds since it was asked last, without lines with one of these. */
  List<String> complaints(String... without) {
    return driver.manage().logs().get(LogType.BROWSER).getAll().stream()
        .map(Object::toString)
        .filter(line -> Arrays.stream(without).noneMatch(line::contains))
        .toList();
  }

  /** With {@code -Dscreens=FOLDER} what is seen now lies there afterwards. */
  void picture(String name) {
    String folder = System.getProperty("screens", "");
    if (!folder.isEmpty()) {
      pause(300); // until it is drawn
      picture(Path.of(folder, name + ".png"));
    }
  }

  void picture(Path file) {
    try {
      Files.write(file, driver.getScreenshotAs(OutputType.BYTES));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  // ---- whoever uses it

  /** What axe-core has against the page as it is. */
  Object violations() {
    run(resource("/axe.min.js"));
    return Objects.requireNonNull(
        driver.executeAsyncScript(
            "const done = arguments[arguments.length - 1];"
                + "axe.run().then(r => done(r.violations.map(v => v.id + ': '"
                + " + v.nodes.map(n => n.target + ' ' + n.failureSummary).join('; '))))"));
  }

  /** Everybody can read the page as it is, and nothing runs out sideways. */
  void assertReadable(String state) {
    assertEquals(
        0L,
        value("document.scrollingElement.scrollWidth - document.scrollingElement.clientWidth"),
        state + " runs out sideways");
    assertEquals(List.of(), violations(), state);
  }

  /**
   * {@link #assertReadable} on {@link #SCREENS}, light and dark; with pictures {@code
   * STATE-WIDTH-SCHEME.png}, see {@link #picture(String)}.
   */
  void assertForEverybody(String state) {
    assertForEverybody(state, SCREENS, where -> {});
  }

  /**
   * The same on other screens.
   *
   * @param besides what else has to hold, or happen first, on each; it is told which one it is
   */
  void assertForEverybody(String state, List<Dimension> screens, Consumer<String> besides) {
    Dimension before = size;
    for (String scheme : List.of("light", "dark")) {
      scheme(scheme);
      for (Dimension screen : screens) {
        resize(screen);
        String where = state + "-" + screen.width + "-" + scheme;
        besides.accept(where);
        picture(where);
        assertReadable(where);
      }
    }
    resize(before);
  }

  static String resource(String name) {
    try (InputStream in = Objects.requireNonNull(TestBrowser.class.getResourceAsStream(name))) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
