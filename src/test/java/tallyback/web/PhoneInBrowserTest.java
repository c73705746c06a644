package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.net.InetAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.cert.X509Certificate;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.openqa.selenium.Dimension;
import org.openqa.selenium.WebDriverException;
import tallyback.audio.Clip;
import tallyback.web.lan.Lan;
import tallyback.web.lan.StolenKeyServer;

/**
 * A phone in a real browser: gets the certificate, is paired and speaks. The browser trusts the
 * authority by its own list of certificates where {@code certutil} is there ({@code
 * libnss3-tools}), else it is told which key to trust. Needs chromium and chromedriver.
 */
@Tag("slow")
@Timeout(240)
class PhoneInBrowserTest {

  @TempDir private Path folder;

  @SuppressWarnings("NullAway.Init") // set before each test
  private TestBrowser browser;

  @SuppressWarnings("NullAway.Init") // set before each test
  private PageServer server;

  @SuppressWarnings("NullAway.Init") // set before each test
  private Lan lan;

  @SuppressWarnings("NullAway.Init") // set before each test
  private Running running;

  @BeforeEach
  void open() throws Exception {
    TestBrowser.assumeInstalled();
    lan = Lan.open(folder.resolve("lan"), "127.0.0.1", InstantSource.system());
    server = PageServer.open(PhoneTest.settings(folder.resolve("job.tallyback")), lan, line -> {});
    running = Running.start(server);
    List<String> more = new ArrayList<>(trust());
    more.add("--host-resolver-rules=MAP *.example 127.0.0.1");
    browser = TestBrowser.hearing(folder, new Clip(TestPage.room(5, "004-090120.wav"), 0), more);
    browser.resizeAsPhone(new Dimension(360, 740));
  }

  /** Puts the authority on the browser's list, as its user would by hand. */
  private List<String> trust() throws Exception {
    if (Files.isExecutable(TestBrowser.program("certutil"))) {
      Path list = Files.createDirectories(folder.resolve(".pki/nssdb"));
      run("certutil", "-d", "sql:" + list, "-N", "--empty-password");
      run(
          "certutil",
          "-d",
          "sql:" + list,
          "-A",
          "-t",
          "C,,",
          "-n",
          "Tallyback",
          "-i",
          folder.resolve("lan/authority.crt").toString());
      return List.of();
    }
    X509Certificate page = (X509Certificate) lan.keys().getCertificate("page");
    byte[] key = MessageDigest.getInstance("SHA-256").digest(page.getPublicKey().getEncoded());
    return List.of(
        "--ignore-certificate-errors-spki-list=" + Base64.getEncoder().encodeToString(key));
  }

  private static void run(String... command) throws Exception {
    List<String> words = new ArrayList<>(List.of(command));
    words.set(0, TestBrowser.program(command[0]).toString());
    Process process = new ProcessBuilder(words).redirectErrorStream(true).start();
    String printed = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertEquals(0, process.waitFor(), printed);
  }

  @AfterEach
  void close() {
    if (browser != null) {
      browser.close();
    }
    if (running != null) {
      running.close();
    }
  }

  private String code() {
    String shown = String.join("\n", lan.invitation(server.lanAddress(), ZoneOffset.UTC, false));
    int at = shown.indexOf("and type ") + "and type ".length();
    return shown.substring(at, at + 9);
  }

  @Test
  void aPhoneThatTrustsTheMachineIsPairedAndLendsItsMicrophone() throws Exception {
    browser.go(server.certificateAddress().toString());
    assertEquals(lan.fingerprint(), browser.text("#fingerprint"));
    assertForAPhone("the page with the certificate");

    // Whoever is not paired is led to where one is.
    browser.go(server.lanAddress().toString());
    browser.awaitText("h2", "Pair this device");
    assertForAPhone("the pairing page");
    browser.type("#code", "1234 5678");
    browser.click("#go");
    browser.awaitText("#pair-says", "No code is good at the moment");

    // As the camera opens it.
    browser.go(server.lanAddress() + "pair#" + code().replace(" ", ""));
    browser.awaitText("#connection", "Connected");
    assertEquals(server.lanAddress().toString(), browser.driver().getCurrentUrl());
    assertEquals(true, browser.value("window.isSecureContext"));
    assertEquals("", browser.value("document.cookie"));

    browser.click("#listen");
    browser.awaitText("#microphone", "Listening");
    browser.awaitText("#last-says", "key out");
    String device = String.valueOf(browser.value("localStorage['tallyback-device']"));
    assertEquals(device, lan.devices().all().get(0).name());

    // The shell is kept for when the server is away, as on this machine itself.
    assertEquals(
        true,
        browser
            .driver()
            .executeAsyncScript(
                "const done = arguments[0];"
                    + "navigator.serviceWorker.ready.then(r => done(r.active !== null))"));

    // Taken away: the page goes back to where one is paired, and comes back with a new code.
    assertTrue(lan.devices().forget(device));
    browser.awaitText("h2", "Pair this device");
    browser.type("#code", code());
    browser.click("#go");
    browser.awaitText("#connection", "Connected");
  }

  @Test
  void whoeverStealsTheAuthoritysKeyIsNotBelievedToBeASiteOnTheInternet() throws Exception {
    assumeTrue(
        Files.isExecutable(TestBrowser.program("certutil")), "no certutil: install libnss3-tools");
    Path keys = folder.resolve("lan");
    try (StolenKeyServer near =
        StolenKeyServer.start(keys, List.of(InetAddress.getLoopbackAddress()), List.of())) {
      browser.go("https://127.0.0.1:" + near.port() + "/");
      browser.awaitText("body", "hello");
    }
    try (StolenKeyServer far = StolenKeyServer.start(keys, List.of(), List.of("shop.example"))) {
      try {
        browser.go("https://shop.example:" + far.port() + "/");
      } catch (WebDriverException refused) {
        // Drivers differ: one throws, another shows the browser's own page of the fault.
      }
      String shown = browser.seen("body");
      assertTrue(shown.contains("ERR_CERT_"), shown);
      assertFalse(shown.contains("hello"), shown);
    }
  }

  private void assertForAPhone(String what) {
    browser.assertReadable(what);
    assertEquals(
        List.of(),
        browser.value(
            "[...document.querySelectorAll('button, input, a.button')].filter(e => {"
                + " const r = e.getBoundingClientRect();"
                + " return r.width < arguments[0] || r.height < arguments[0] }).map(e => e.id)",
            TestBrowser.GLOVE_PX),
        what + " is too small for a glove");
  }
}
