package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.WebSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.KeyStore;
import java.security.cert.Certificate;
import java.security.cert.CertificateFactory;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CompletionException;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLHandshakeException;
import javax.net.ssl.SSLSocket;
import javax.net.ssl.TrustManagerFactory;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tallyback.app.LoadedPlan;
import tallyback.app.PlanShelf;
import tallyback.log.LogReader;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Entry;
import tallyback.web.lan.Lan;

/**
 * A real server with TLS, spoken to by a client that trusts its authority and nobody else, over the
 * loopback address.
 */
@Timeout(180)
class PhoneTest {

  private static final LoadedPlan PLAN = LoadedPlan.of(Path.of("demo-data/plan.yaml"));

  @TempDir private static Path folder;

  private static final BlockingQueue<String> TOLD = new LinkedBlockingQueue<>();

  private static volatile Duration later = Duration.ZERO;

  @SuppressWarnings("NullAway.Init") // opened before the first test
  private static Lan lan;

  @SuppressWarnings("NullAway.Init") // opened before the first test
  private static PageServer server;

  @SuppressWarnings("NullAway.Init") // opened before the first test
  private static Running running;

  @SuppressWarnings("NullAway.Init") // opened before the first test
  private static SSLContext trusting;

  @SuppressWarnings("NullAway.Init") // opened before the first test
  private static HttpClient client;

  /** The machine's clock, or one that is ahead of it. */
  private static Instant now() {
    return Instant.now().plus(later);
  }

  static PageServer.Settings settings(Path data) {
    return Served.settings(PLAN, data, null)
        .with(new PlanShelf(data.resolveSibling("plans"), Path.of("demo-data/plan.yaml")));
  }

  @BeforeAll
  static void start() throws Exception {
    lan = Lan.open(folder.resolve("lan"), "127.0.0.1", PhoneTest::now);
    server = PageServer.open(settings(folder.resolve("job.tallyback")), lan, TOLD::add);
    running = Running.start(server);
    byte[] fetched =
        HttpClient.newHttpClient()
            .send(
                request(server.certificateAddress(), "/tallyback.crt").build(),
                HttpResponse.BodyHandlers.ofByteArray())
            .body();
    trusting = trusting(fetched);
    client = HttpClient.newBuilder().sslContext(trusting).build();
    while (!String.valueOf(TOLD.take()).startsWith("job ")) {
      // what is told before it listens
    }
  }

  @AfterAll
  static void stop() {
    running.close();
  }

  @BeforeEach
  void nothingTold() {
    TOLD.clear();
  }

  private static SSLContext trusting(byte[] certificate) throws Exception {
    Certificate authority =
        CertificateFactory.getInstance("X.509")
            .generateCertificate(new ByteArrayInputStream(certificate));
    KeyStore trusted = KeyStore.getInstance("PKCS12");
    trusted.load(null, null);
    trusted.setCertificateEntry("authority", authority);
    TrustManagerFactory factory =
        TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
    factory.init(trusted);
    SSLContext context = SSLContext.getInstance("TLS");
    context.init(null, factory.getTrustManagers(), null);
    return context;
  }

  private static URI page() {
    return server.lanAddress();
  }

  private static String origin() {
    return "https://" + page().getAuthority();
  }

  private static HttpRequest.Builder request(URI address, String path) {
    return HttpRequest.newBuilder(address.resolve(path)).timeout(Duration.ofSeconds(60));
  }

  private static HttpResponse<String> send(HttpRequest.Builder request) throws Exception {
    return client.send(request.build(), HttpResponse.BodyHandlers.ofString());
  }

  private static HttpResponse<String> get(String path) throws Exception {
    return send(request(page(), path));
  }

  private static HttpResponse<String> get(String path, String cookie) throws Exception {
    return send(request(page(), path).header("Cookie", cookie));
  }

  /** A code as the terminal shows it. */
  private static String code() {
    String shown = String.join("\n", lan.invitation(page(), ZoneOffset.UTC, false));
    Matcher digits = Pattern.compile("type ([0-9]{4} [0-9]{4})").matcher(shown);
    assertTrue(digits.find(), shown);
    return digits.group(1);
  }

  private static HttpRequest.Builder pairing(String device, String code) {
    return request(page(), "/pair")
        .header("Origin", origin())
        .POST(
            HttpRequest.BodyPublishers.ofString(
                "{\"type\":\"pair\",\"device\":\"%s\",\"code\":\"%s\"}".formatted(device, code)));
  }

  /** Pairs a device and gives the cookie that it sends from then on. */
  private static String paired(String device) throws Exception {
    HttpResponse<String> answer = send(pairing(device, code()));
    assertEquals(204, answer.statusCode(), answer::body);
    String cookie = answer.headers().firstValue("Set-Cookie").orElseThrow();
    return cookie.substring(0, cookie.indexOf(';'));
  }

  private static WebSocket connect(String origin, String cookie) {
    return TestPage.connect(client, page(), origin, cookie, new WebSocket.Listener() {});
  }

  private static void assertNotConnected(String origin, String cookie) {
    CompletionException refused =
        assertThrows(CompletionException.class, () -> connect(origin, cookie), origin);
    assertTrue(String.valueOf(refused.getCause()).contains("Handshake"), refused::toString);
  }

  private static List<Entry> said() {
    try (LogReader log = SqliteLogs.openForReading(folder.resolve("job.tallyback"))) {
      return log.entries(log.choose(null).id());
    }
  }

  @Test
  void whoTrustsTheAuthorityIsConnectedAndWhoTrustsOthersIsNot() throws Exception {
    assertEquals(303, get("/").statusCode());
    IOException refused =
        assertThrows(
            IOException.class,
            () ->
                HttpClient.newHttpClient()
                    .send(request(page(), "/").build(), HttpResponse.BodyHandlers.ofString()));
    assertTrue(refused instanceof SSLHandshakeException, refused::toString);
    // Without TLS there is no answer that an HTTP client understands as the page.
    try (Socket plain = new Socket(InetAddress.getLoopbackAddress(), page().getPort())) {
      plain.setSoTimeout(20_000);
      plain
          .getOutputStream()
          .write("GET / HTTP/1.1\r\nHost: x\r\n\r\n".getBytes(StandardCharsets.US_ASCII));
      String answer =
          new String(plain.getInputStream().readAllBytes(), StandardCharsets.ISO_8859_1);
      assertFalse(answer.contains("HTTP/1.1 200") || answer.contains("<html"), answer);
    }
  }

  @Test
  void aPairedPhoneIsHeardAndNotedUnderTheNameItHad() throws Exception {
    String cookie = paired("p1a");
    assertEquals("paired: p1a; 'serve --forget p1a' takes it away again", TOLD.take());
    HttpResponse<String> page = get("/", cookie);
    assertEquals(200, page.statusCode());
    assertTrue(page.body().contains("<title>Tallyback</title>"));
    UUID stream = TestPage.recording();
    short[] sound = TestPage.room(2, "004-090120.wav");
    // Whatever it calls itself later, it is what it was paired as.
    try (TestPage phone = TestPage.open(page(), "somebody", "t1", client, cookie)) {
      assertEquals(0, phone.listen(stream, 0, true));
      phone.play(stream, sound, 0, sound.length, (double) System.currentTimeMillis(), 5);
      phone.await(
          message ->
              TestPage.told(message, "noted") && message.path("says").asText().equals("key out"));
    }
    Entry entry =
        said().stream()
            .filter(each -> each.id().contains(stream.toString()))
            .findFirst()
            .orElseThrow();
    assertTrue(entry.id().startsWith("p1a-" + stream), entry.id());
    String health = get("/health", cookie).body();
    assertTrue(health.contains("\"paired\":true") && health.contains("\"job\":"), health);
  }

  /** The code on paper: first to be paired, then on to the plan. */
  @Test
  void aPlansCodeLeadsAPhoneThere() throws Exception {
    HttpResponse<String> first = get("/plans?plan=given");
    assertEquals(303, first.statusCode());
    assertEquals(
        "/pair?to=%2Fplans%3Fplan%3Dgiven", first.headers().firstValue("Location").orElseThrow());
    assertEquals(401, get("/plans/text?plan=given").statusCode());
    assertEquals(401, get("/plans/list").statusCode());

    String cookie = paired("p9plans");
    assertEquals(200, get("/plans?plan=given", cookie).statusCode());
    HttpResponse<String> code = get("/plans/code.svg?plan=given", cookie);
    assertEquals(
        page().resolve("/plans?plan=given").toString(),
        code.headers().firstValue("X-Address").orElseThrow());
    HttpResponse<String> foreign =
        send(
            request(page(), "/plans/new?name=x")
                .header("Cookie", cookie)
                .header("Origin", "https://elsewhere.example")
                .POST(HttpRequest.BodyPublishers.ofString("x")));
    assertEquals(403, foreign.statusCode());
  }

  @Test
  void theTokenIsACookieThatOnlyThisServerGetsAndNoScriptReads() throws Exception {
    String cookie = send(pairing("p2", code())).headers().firstValue("Set-Cookie").orElseThrow();
    String name = "__Host-tallyback-" + page().getPort();
    assertTrue(
        cookie.matches(
            name
                + "=[A-Za-z0-9_-]{43}; Path=/; Max-Age=34560000; Secure; HttpOnly;"
                + " SameSite=Strict"),
        cookie);
  }

  @Test
  void withoutATokenThereIsNothingToSeeButHowToGetOne() throws Exception {
    for (String cookie : List.of("", "__Host-tallyback-" + page().getPort() + "=AAAA")) {
      Set<String> open = new TreeSet<>();
      Set<String> paths = new TreeSet<>(new PageFiles().byPath().keySet());
      paths.addAll(new PageFiles().toPair().keySet());
      paths.addAll(List.of("/health", "/tallyback.crt", "/live", "/page/", "/lan/devices.json"));
      for (String path : paths) {
        HttpResponse<String> answer = cookie.isEmpty() ? get(path) : get(path, cookie);
        switch (answer.statusCode()) {
          case 200 -> open.add(path);
          case 303 -> {
            assertEquals("/", path);
            assertEquals("/pair", answer.headers().firstValue("Location").orElseThrow());
          }
          default -> assertEquals(401, answer.statusCode(), path);
        }
        String policy = answer.headers().firstValue("Content-Security-Policy").orElse("");
        assertTrue(policy.startsWith("default-src 'none'"), path + ": " + policy);
        // It would take http://localhost away from this machine.
        assertTrue(answer.headers().firstValue("Strict-Transport-Security").isEmpty(), path);
      }
      assertEquals(
          Set.of("/health", "/icon.svg", "/page.css", "/pair", "/pair.js", "/tallyback.crt"), open);
      assertNotConnected(origin(), cookie);
    }
    assertEquals("{\"schema\":1,\"state\":\"listening\",\"paired\":false}", get("/health").body());
    assertArrayEquals(
        lan.certificate(),
        client
            .send(
                request(page(), "/tallyback.crt").build(), HttpResponse.BodyHandlers.ofByteArray())
            .body());
  }

  @Test
  void aCodeThatIsWrongUsedOrOldPairsNobody() throws Exception {
    String right = code();
    String wrong = right.equals("0000 0000") ? "0000 0001" : "0000 0000";
    assertRefused("That is not the code.", "p3", wrong);
    assertEquals("a wrong code came from 127.0.0.1", TOLD.take());
    assertEquals(204, send(pairing("p3", right)).statusCode());
    TOLD.take();
    assertRefused("No code is good at the moment", "p3", right);

    String old = code();
    later = Duration.ofMinutes(10);
    try {
      assertRefused("No code is good at the moment", "p3", old);
    } finally {
      later = Duration.ZERO;
    }

    String guessed = code();
    String guess = guessed.equals("0000 0000") ? "0000 0001" : "0000 0000";
    for (int i = 0; i < 4; i++) {
      assertRefused("That is not the code.", "p3", guess);
      TOLD.take();
    }
    assertRefused("Too many wrong codes.", "p3", guess);
    assertEquals(
        "five wrong codes: this one is no longer good; press Enter for a new one", TOLD.take());
    assertRefused("No code is good at the moment", "p3", guessed);
    assertEquals(400, send(pairing("../../p", code())).statusCode());
    assertEquals(
        400,
        send(request(page(), "/pair")
                .header("Origin", origin())
                .POST(HttpRequest.BodyPublishers.ofString("{]")))
            .statusCode());
    assertTooMuch(
        request(page(), "/pair")
            .header("Origin", origin())
            .POST(HttpRequest.BodyPublishers.ofString(" ".repeat(100_000))));
  }

  /**
   * Refused with 413, or hung up on: a server that won't read the rest may close before its answer
   * was read.
   */
  private static void assertTooMuch(HttpRequest.Builder request) throws Exception {
    try {
      assertEquals(413, send(request).statusCode());
    } catch (IOException hungUp) {
      assertEquals(200, get("/icon.svg").statusCode(), String.valueOf(hungUp));
    }
  }

  private static void assertRefused(String beginning, String device, String code) throws Exception {
    HttpResponse<String> answer = send(pairing(device, code));
    assertEquals(403, answer.statusCode());
    assertTrue(answer.body().contains("\"says\":\"" + beginning), answer::body);
    assertTrue(answer.headers().firstValue("Set-Cookie").isEmpty());
  }

  @Test
  void anotherHostOrOriginIsRefusedEvenWithTheToken() throws Exception {
    String cookie = paired("p4");
    TOLD.take();
    connect(origin(), cookie).abort();
    int port = page().getPort();
    for (String origin :
        List.of(
            "https://evil.example",
            "https://127.0.0.1",
            "http://127.0.0.1:" + port,
            "https://localhost:" + port,
            "https://127.0.0.1:" + port + ".evil.example",
            "null")) {
      assertNotConnected(origin, cookie);
      HttpResponse<String> answer =
          send(
              request(page(), "/pair")
                  .header("Origin", origin)
                  .POST(HttpRequest.BodyPublishers.ofString("{\"type\":\"pair\"}")));
      assertEquals(403, answer.statusCode(), origin);
    }
    for (String host :
        List.of(
            "evil.example",
            "127.0.0.1",
            "localhost:" + port,
            "127.0.0.1:1",
            "127.0.0.1.evil.example:" + port)) {
      assertEquals("421", status(host, "/", cookie), host);
      assertEquals("421", status(host, "/health", cookie), host);
    }
    assertEquals("200", status("127.0.0.1:" + port, "/", cookie));
  }

  private static String status(String host, String path, String cookie) throws IOException {
    try (SSLSocket socket =
        (SSLSocket) trusting.getSocketFactory().createSocket("127.0.0.1", page().getPort())) {
      socket.setSoTimeout(20_000);
      OutputStream out = socket.getOutputStream();
      out.write(
          ("GET "
                  + path
                  + " HTTP/1.1\r\nHost: "
                  + host
                  + "\r\nCookie: "
                  + cookie
                  + "\r\nConnection: close\r\n\r\n")
              .getBytes(StandardCharsets.US_ASCII));
      InputStream in = socket.getInputStream();
      return new String(in.readAllBytes(), StandardCharsets.UTF_8).split(" ", 3)[1];
    }
  }

  @Test
  void aDeviceThatIsTakenAwayIsCutOffWithinSecondsAndTheOthersAreNot() throws Exception {
    String cookie = paired("p5");
    String other = paired("p6");
    try (TestPage stays = TestPage.open(page(), "p6", "t", client, other)) {
      TestPage gone = TestPage.open(page(), "p5", "t", client, cookie);
      // As another process does it.
      assertTrue(Lan.devicesIn(folder.resolve("lan"), InstantSource.system()).forget("p5"));
      assertEquals(401, get("/page.js", cookie).statusCode());
      assertNotConnected(origin(), cookie);
      assertEquals(1008, gone.closedWith());
      assertEquals("this device was taken away on the machine; pair it again", gone.reason());
      stays.send(
          "{\"type\":\"words\",\"id\":\"%s\",\"words\":\"implement down\"}"
              .formatted(UUID.randomUUID()));
      stays.await(message -> TestPage.is(message, "words") && message.path("taken").asBoolean());
    }
  }

  @Test
  void thePageWithTheCertificateTellsWhatToDoAndNothingElse() throws Exception {
    URI helper = server.certificateAddress();
    HttpResponse<String> answer = send(request(helper, "/"));
    assertEquals(200, answer.statusCode());
    for (String part :
        List.of(lan.fingerprint(), lan.authorityName(), page() + "pair", "/tallyback.crt")) {
      assertTrue(answer.body().contains(part), part);
    }
    assertFalse(answer.body().contains("{"), "something was not filled in");
    assertEquals(
        "application/x-x509-ca-cert",
        send(request(helper, "/tallyback.crt")).headers().firstValue("Content-Type").orElseThrow());
    for (String path : List.of("/pair", "/live", "/health", "/page.js", "/lan/")) {
      assertEquals(404, send(request(helper, path)).statusCode(), path);
    }
    assertEquals(421, send(request(helper, "/").header("Host", "evil.example")).statusCode());
  }
}
