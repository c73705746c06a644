package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpResponse;
import java.net.http.WebSocket;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.CompletionException;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tallyback.app.LoadedPlan;
import tallyback.app.MachineFailed;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Source;

/** A real server with the real recogniser, spoken to by a page made of Java. */
@Timeout(180)
class PageServerTest {

  private static final LoadedPlan PLAN = LoadedPlan.of(Path.of("demo-data/plan.yaml"));
  private static final String KEY_OUT = "004-090120.wav";
  private static final String CHOCKED = "005-090150.wav";
  private static final String DOWN = "006-090215.wav";
  private static final int LISTENED = 5;
  private static final int NOT_HELD = 4;

  @TempDir private static Path folder;

  @SuppressWarnings("NullAway.Init") // started before the first test
  private static Served shared;

  private static Served serve(Path data, int port) {
    return Served.start(new PageServer.Settings(PLAN, data, null, null, port, Served.anna(), null));
  }

  @BeforeAll
  static void start() {
    shared = serve(folder.resolve("shared.tallyback"), 0);
  }

  @AfterAll
  static void stop() {
    shared.close();
  }

  private static TestPage listening(UUID stream) throws InterruptedException {
    TestPage page = TestPage.open(shared.address(), "p1", "t-" + stream.toString().substring(0, 8));
    assertEquals(0, page.listen(stream, 0, true));
    return page;
  }

  private static JsonNode noted(TestPage page) throws InterruptedException {
    return page.await(message -> TestPage.told(message, "noted"));
  }

  /** The opening of the clip is cut a little before the first word. */
  private static void assertAbout(double expectedMs, Instant found) {
    double off = found.toEpochMilli() - expectedMs;
    assertTrue(Math.abs(off) < 600, "off by " + off + " ms");
  }

  @Test
  void whatIsSaidIsNotedOnDiskWithTheTimeItWasSaidAndThenNeedNotBeKept() throws Exception {
    UUID stream = TestPage.recording();
    short[] sound = TestPage.room(3, KEY_OUT, CHOCKED);
    int rest = sound.length - 24_000;
    double beganMs = System.currentTimeMillis() - 3_600_000;
    try (TestPage page = listening(stream)) {
      page.play(stream, sound, 0, rest, beganMs, LISTENED);
      assertEquals("key out", noted(page).path("says").asText());
      assertEquals(1, shared.saidIn(stream).size(), "on disk before it is told");
      noted(page);
      List<Entry> entries = shared.saidIn(stream);
      assertEquals(List.of("key out", "wheels chocked"), words(entries));
      assertAbout(beganMs + 3000, entries.get(0).happenedAt());
      assertTrue(entries.get(0).id().matches("p1-" + stream + "-\\d+"), entries.get(0).id());
      long first = Long.parseLong(entries.get(0).id().substring(40));
      assertEquals(beganMs + first / 16.0, (double) entries.get(0).happenedAt().toEpochMilli(), 60);
      JsonNode board =
          page.await(
              message -> TestPage.is(message, "board") && message.path("entries").asLong() >= 3);
      assertEquals("May it be started for test?", board.path("startQuestion").asText());
      page.play(stream, sound, rest, sound.length, beganMs, LISTENED);
      awaitSettled(page, sound.length - 3L * 16_000);
    }
  }

  private static void awaitSettled(TestPage page, long sample) throws InterruptedException {
    for (int i = 0; page.settled() < sample; i++) {
      assertTrue(i < 500, () -> "settled only up to " + page.settled() + " of " + sample);
      Thread.sleep(20);
    }
  }

  private static List<String> words(List<Entry> entries) {
    return entries.stream().map(Entry::words).toList();
  }

  @Test
  void aConnectionThatBreaksMidWordLosesNothingAndDoublesNothing() throws Exception {
    UUID stream = TestPage.recording();
    short[] sound = TestPage.room(2, KEY_OUT, CHOCKED, DOWN);
    double beganMs = System.currentTimeMillis();
    // In the middle of the second utterance.
    int broken = 6 * 16_000 + 8_000;
    TestPage before = listening(stream);
    before.play(stream, sound, 0, broken, beganMs, LISTENED);
    noted(before);
    before.breakOff();
    try (TestPage after =
        TestPage.open(shared.address(), "p1", "t-" + stream.toString().substring(0, 8))) {
      long wanted = after.listen(stream, 0, true);
      assertTrue(wanted > 0 && wanted <= broken, "wanted from " + wanted);
      // A page that forgot what it sent sends it all again.
      after.play(stream, sound, 0, sound.length, beganMs, LISTENED);
      after.await(message -> message.path("says").asText().equals("implement down"));
    }
    assertEquals(
        List.of("key out", "wheels chocked", "implement down"), words(shared.saidIn(stream)));
  }

  @Test
  void nothingIsListenedToUnlessHeld() throws Exception {
    UUID stream = TestPage.recording();
    short[] sound = TestPage.room(2, KEY_OUT, CHOCKED);
    int between = sound.length / 2;
    try (TestPage page = listening(stream)) {
      page.play(stream, sound, 0, between, (double) System.currentTimeMillis(), NOT_HELD);
      page.play(
          stream, sound, between, sound.length, (double) System.currentTimeMillis(), LISTENED);
      assertEquals("wheels chocked", noted(page).path("says").asText());
    }
    assertEquals(List.of("wheels chocked"), words(shared.saidIn(stream)));
  }

  @Test
  void aServerStartedAnewGoesOnWhereTheLogStands() throws Exception {
    UUID stream = TestPage.recording();
    short[] sound = TestPage.room(2, KEY_OUT, CHOCKED);
    Path data = folder.resolve("again.tallyback");
    double beganMs = System.currentTimeMillis();
    try (Served first = serve(data, 0);
        TestPage page = TestPage.open(first.address(), "p1", "t1")) {
      page.listen(stream, 0, false);
      page.play(stream, sound, 0, 5 * 16_000, beganMs, LISTENED);
      noted(page);
    }
    try (Served second = serve(data, 0);
        TestPage page = TestPage.open(second.address(), "p1", "t1")) {
      long wanted = page.listen(stream, 0, false);
      assertTrue(wanted > 3 * 16_000, "what is noted is not wanted again, but from " + wanted);
      page.play(stream, sound, 0, sound.length, beganMs, LISTENED);
      page.await(message -> message.path("says").asText().equals("wheels chocked"));
      assertEquals(List.of("key out", "wheels chocked"), words(second.saidIn(stream)));
    }
  }

  @Test
  void anotherProcessOnTheSameDataIsRefusedWithTheCause() throws Exception {
    try (Served second = serve(shared.data(), 0);
        TestPage page = TestPage.silent(second.address())) {
      page.send("{\"type\":\"hello\",\"version\":1,\"device\":\"p\",\"tab\":\"t\",\"pageMs\":1}");
      JsonNode state = page.await(message -> message.path("state").asText().equals("failed"));
      assertTrue(state.path("says").asText().contains("shared.tallyback"), state::toString);
      assertEquals(503, second.get("/health").statusCode());
    }
  }

  @Test
  void aPortThatIsTakenIsToldWithARemedy() {
    int port = shared.address().getPort();
    MachineFailed failed =
        assertThrows(
            MachineFailed.class, () -> serve(folder.resolve("none.tallyback"), port).close());
    assertEquals(
        "port "
            + port
            + " is taken by another program, maybe another 'serve'; end that, or choose another"
            + " with --port",
        failed.getMessage());
  }

  @Test
  void typedWordsAreAskedAboutAndAnsweredByAButton() throws Exception {
    try (TestPage page = TestPage.open(shared.address(), "p2", "t-typed")) {
      type(page, "torqued the fan nuts to 22");
      JsonNode asked = page.await(message -> message.path("answers").size() > 0);
      assertEquals("newton metres", asked.path("answers").get(0).asText());
      type(page, "newton metres");
      JsonNode noted = noted(page);
      assertTrue(noted.path("says").asText().contains("22 N\u00b7m"), noted::toString);
      assertEquals(
          0, page.await(message -> TestPage.is(message, "answers")).path("answers").size());
      type(page, "fan nuts boltz");
      JsonNode refused = page.await(message -> TestPage.told(message, "rejected"));
      assertTrue(refused.path("says").asText().contains("boltz"), refused::toString);
    }
    Entry last =
        shared.said().stream()
            .filter(entry -> entry.id().startsWith("p2-typed-"))
            .findFirst()
            .orElseThrow();
    assertEquals(Certainty.CONFIRMED, last.certainty());
    assertEquals(Source.TYPED, last.source());
  }

  private static void type(TestPage page, String words) {
    page.send(
        "{\"type\":\"words\",\"id\":\"%s\",\"words\":\"%s\"}".formatted(UUID.randomUUID(), words));
  }

  @Test
  void soundThatNeverArrivedIsNotedOnce() throws Exception {
    UUID stream = TestPage.recording();
    String lost =
        "{\"type\":\"lost\",\"stream\":\"%s\",\"from\":3200,\"pageMs\":%d}"
            .formatted(stream, System.currentTimeMillis() - 120_000);
    try (TestPage page = TestPage.open(shared.address(), "p3", "t-lost")) {
      for (int i = 0; i < 2; i++) {
        page.send(lost);
        page.await(message -> TestPage.is(message, "lost") && message.path("noted").asBoolean());
      }
      type(page, "key out");
      noted(page);
    }
    List<Entry> entries = shared.saidIn(stream);
    assertEquals(1, entries.size());
    assertEquals(Certainty.UNCONFIRMED, entries.get(0).certainty());
    assertEquals("p3-" + stream + "-3200-lost", entries.get(0).id());
  }

  @Test
  void ofTwoPagesOneListensAndTheOtherMayTakeOver() throws Exception {
    UUID stream = TestPage.recording();
    try (TestPage one = listening(stream);
        TestPage other = TestPage.open(shared.address(), "p1", "t-other")) {
      other.ask(TestPage.recording(), 0, false);
      assertEquals("watches", part(other));
      other.ask(TestPage.recording(), 0, true);
      other.await(message -> message.path("part").asText().equals("listens"));
      one.await(message -> message.path("part").asText().equals("watches"));
    }
  }

  private static String part(TestPage page) throws InterruptedException {
    return page.await(message -> TestPage.is(message, "part")).path("part").asText();
  }

  @Test
  void whatIsNoMessageOfAPageClosesThatConnectionWithTheReasonAndNoOther() throws Exception {
    try (TestPage good = TestPage.open(shared.address(), "p4", "t-good")) {
      assertCloses(1008, "JSON object", page -> page.send("{]"));
      assertCloses(1008, "a type", page -> page.send("[1,2]"));
      assertCloses(1008, "hello first", page -> page.send("{\"type\":\"watch\"}"));
      assertCloses(
          1008, "hello first", page -> page.sendBinary(ByteBuffer.wrap(new byte[] {1, 2, 3})));
      assertCloses(
          1008,
          "TBIN",
          page -> {
            page.send(
                "{\"type\":\"hello\",\"version\":1,\"device\":\"p\",\"tab\":\"t\",\"pageMs\":1}");
            page.sendBinary(ByteBuffer.wrap(new byte[400]));
          });
      assertCloses(
          1008,
          "device",
          page ->
              page.send(
                  "{\"type\":\"hello\",\"version\":1,\"device\":\"../x\",\"tab\":\"t\",\"pageMs\":1}"));
      assertCloses(1009, "", page -> tooLarge(() -> page.send(" ".repeat(100_000))));
      assertCloses(
          1009, "", page -> tooLarge(() -> page.sendBinary(ByteBuffer.allocate(10 << 20))));
      type(good, "key out");
      noted(good);
    }
  }

  /** The server may hang up before all of it is sent. */
  private static void tooLarge(Runnable send) {
    try {
      send.run();
    } catch (CompletionException hungUp) {
      assertTrue(hungUp.getCause() instanceof IOException, hungUp::toString);
    }
  }

  private static void assertCloses(
      int status, String reason, java.util.function.Consumer<TestPage> does)
      throws InterruptedException {
    TestPage page = TestPage.silent(shared.address());
    does.accept(page);
    int found = page.closedWith();
    // Whoever is still sending when the server hangs up may see no more than that.
    assertTrue(found == status || (status == 1009 && found == -1), found + " " + page.reason());
    assertTrue(found == -1 || page.reason().contains(reason), page.reason());
  }

  @Test
  void moreSoundAtOnceThanWasAskedForClosesTheConnection() throws Exception {
    UUID stream = TestPage.recording();
    short[] sound = new short[SoundFrame.MOST_SAMPLES];
    TestPage page = listening(stream);
    // Half a second a frame, a year ahead of what anybody reads.
    for (int i = 0; i < 40_000 && page.reason().isEmpty(); i++) {
      try {
        page.sendBinary(
            TestPage.frame(stream, sound, 0, sound.length, 1.7e12, NOT_HELD)
                .putLong(24, Long.reverseBytes((long) i * sound.length)));
      } catch (CompletionException hungUp) {
        break;
      }
    }
    int status = page.closedWith();
    assertTrue(status == 1008 || status == -1, status + " " + page.reason());
  }

  @Test
  void onlyAPageFromHereIsAnswered() throws Exception {
    URI address = shared.address();
    int port = address.getPort();
    for (String origin :
        List.of(
            "http://evil.example",
            "http://localhost",
            "http://localhost:" + port + ".evil.example",
            "https://localhost:" + port,
            "null")) {
      CompletionException refused =
          assertThrows(
              CompletionException.class,
              () -> TestPage.connect(address, origin, new WebSocket.Listener() {}),
              origin);
      assertTrue(String.valueOf(refused.getCause()).contains("Handshake"), refused::toString);
    }
    for (String host :
        List.of("evil.example", "localhost", "localhost.evil.example:" + port, "localhost:1")) {
      assertEquals("421", status(port, host), host);
    }
    assertEquals("200", status(port, "localhost:" + port));
    assertEquals("200", status(port, "127.0.0.1:" + port));
  }

  private static String status(int port, String host) throws IOException {
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
      socket.setSoTimeout((int) Duration.ofSeconds(20).toMillis());
      OutputStream out = socket.getOutputStream();
      out.write(
          ("GET / HTTP/1.1\r\nHost: " + host + "\r\nConnection: close\r\n\r\n")
              .getBytes(StandardCharsets.US_ASCII));
      String answer = new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      return answer.split(" ", 3)[1];
    }
  }

  @Test
  void everyFileOfThePageIsThereAndMayLoadNothingFromElsewhere() throws Exception {
    for (String path : new PageFiles().byPath().keySet()) {
      HttpResponse<String> answer = shared.get(path);
      assertEquals(200, answer.statusCode(), path);
      String policy = answer.headers().firstValue("Content-Security-Policy").orElse("");
      assertTrue(policy.startsWith("default-src 'none'"), policy);
      assertFalse(policy.contains("unsafe") || policy.contains("*"), policy);
    }
    String health = shared.get("/health").body();
    assertTrue(health.contains("\"state\":\"listening\""), health);
    assertEquals(404, shared.get("/etc/passwd").statusCode());
    assertEquals(400, shared.get("/../pom.xml").statusCode());
  }
}
