package tallyback.web;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;

/** Debian's Chromium without a window, whose microphone is a recording. */
public final class TestBrowser {

  private static final List<String> FOLDERS = List.of("/usr/bin/", "/usr/local/bin/", "/snap/bin/");

  private TestBrowser() {}

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
   * Opens one. It believes only certificates it knows.
   *
   * @param folder what it keeps lies in it
   * @param microphone a recording, played over and over from when it is listened to
   * @param more arguments besides
   */
  public static ChromeDriver open(Path folder, Path microphone, List<String> more) {
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
    return new ChromeDriver(
        new ChromeDriverService.Builder()
            .usingDriverExecutable(program("chromedriver").toFile())
            .withEnvironment(Map.of("HOME", folder.toString()))
            .build(),
        options);
  }
}
