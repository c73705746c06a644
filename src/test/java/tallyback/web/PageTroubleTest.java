package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tallyback.app.JobDesk;
import tallyback.app.LoadedPlan;
import tallyback.app.Second;
import tallyback.model.Entry;
import tallyback.speech.SecondKind;

/** Clocks that are set and clients that do not read, with a server of its own. */
@Timeout(180)
class PageTroubleTest {

  private static final LoadedPlan PLAN = LoadedPlan.of(Path.of("demo-data/plan.yaml"));
  private static final int LISTENED = 5;
  private static final int SMALL_BUFFER = 4096;

  /** The server cuts off at 4 MiB; the system's own buffers take some more. */
  private static final long FAR_TOO_MUCH = 64L << 20;

  @TempDir private Path folder;
  private final AtomicLong setMs = new AtomicLong();

  @SuppressWarnings("NullAway.Init") // set before each test
  private Served served;

  @BeforeEach
  void start() {
    Path data = folder.resolve("job.tallyback");
    served =
        Served.start(
            new PageServer.Settings(
                PLAN,
                data,
                null,
                null,
                0,
                new JobDesk.Setting(
                    "page", "anna", ZoneOffset.UTC, () -> Instant.now().plusMillis(setMs.get())),
                null));
  }

  @AfterEach
  void stop() {
    served.close();
  }

  private static void say(TestPage page, String file, String words) throws InterruptedException {
    UUID stream = TestPage.recording();
    page.listen(stream, 0, true);
    short[] sound = TestPage.room(2, file);
    page.play(stream, sound, 0, sound.length, (double) System.currentTimeMillis(), LISTENED);
    JsonNode noted = page.await(message -> TestPage.told(message, "noted"));
    assertEquals(words, noted.path("says").asText());
  }

  private static String clock(TestPage page) throws InterruptedException {
    return page.await(message -> TestPage.is(message, "clock")).path("says").asText();
  }

  @Test
  void whenAClockIsSetEntriesStayInOrderAndItIsSaid() throws Exception {
    Instant began = Instant.now();
    try (TestPage page = TestPage.open(served.address(), "p1", "t1")) {
      say(page, "004-090120.wav", "key out");
      setMs.addAndGet(-Duration.ofHours(1).toMillis());
      String back = clock(page);
      assertTrue(back.contains("clock was set back by") && back.contains("min"), back);
      say(page, "005-090150.wav", "wheels chocked");
      setMs.addAndGet(Duration.ofHours(3).toMillis());
      String apart = clock(page);
      while (!apart.contains("apart")) {
        assertEquals("", apart, "the clock is not behind any more");
        apart = clock(page);
      }
      say(page, "006-090215.wav", "implement down");
    }
    List<Entry> said = served.said();
    assertEquals(
        List.of("key out", "wheels chocked", "implement down"),
        said.stream().map(Entry::words).toList());
    assertNear(began, said.get(0));
    assertNear(began, said.get(1));
    assertNear(began.plus(Duration.ofHours(2)), said.get(2));
    assertFalse(said.get(1).happenedAt().isBefore(said.get(0).happenedAt()));
    assertFalse(said.get(1).recordedAt().isBefore(said.get(0).recordedAt()));
  }

  private static void assertNear(Instant expected, Entry found) {
    Duration after = Duration.between(expected, found.happenedAt());
    assertTrue(!after.isNegative() && after.toMinutes() < 2, () -> found.words() + ": " + after);
  }

  @Test
  void whoeverNeverReadsIsCutOffAndNobodyElseIsDisturbed() throws Exception {
    try (TestPage good = TestPage.open(served.address(), "p1", "t1");
        Socket deaf = connectDeaf()) {
      OutputStream out = deaf.getOutputStream();
      boolean cutOff = false;
      int sent = 0;
      // Each is answered with all there is to see.
      for (long told = 0; told < FAR_TOO_MUCH && !cutOff; told += 1000) {
        try {
          out.write(
              masked(
                  "{\"type\":\"hello\",\"version\":1,\"device\":\"p\",\"tab\":\"t\",\"pageMs\":1}"));
          sent++;
        } catch (IOException hungUp) {
          cutOff = true;
        }
        if (sent == 1000) {
          page(good, "six splash guard bolts off");
        }
      }
      assertTrue(cutOff, "still connected after " + sent);
      page(good, "key out");
      for (int i = 0; !served.get("/health").body().contains("\"pages\":1,"); i++) {
        assertTrue(i < 100, served.get("/health").body());
        Thread.sleep(100);
      }
    }
  }

  private static void page(TestPage good, String words) throws InterruptedException {
    good.send(
        "{\"type\":\"words\",\"id\":\"%s\",\"words\":\"%s\"}".formatted(UUID.randomUUID(), words));
    good.await(message -> TestPage.told(message, "noted"));
  }

  /** A connection of which nothing is read after the greeting. */
  private Socket connectDeaf() throws IOException {
    Socket socket = new Socket();
    socket.setReceiveBufferSize(SMALL_BUFFER);
    int port = served.address().getPort();
    socket.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), port));
    String here = "localhost:" + port;
    socket
        .getOutputStream()
        .write(
            ("GET /live HTTP/1.1\r\nHost: "
                    + here
                    + "\r\nOrigin: http://"
                    + here
                    + "\r\n"
                    + "Upgrade: websocket\r\nConnection: Upgrade\r\nSec-WebSocket-Version: 13\r\n"
                    + "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\n\r\n")
                .getBytes(StandardCharsets.US_ASCII));
    InputStream in = socket.getInputStream();
    StringBuilder head = new StringBuilder();
    while (head.indexOf("\r\n\r\n") < 0) {
      head.append((char) in.read());
    }
    assertTrue(head.toString().startsWith("HTTP/1.1 101"), head::toString);
    return socket;
  }

  /** A text frame as a browser sends it (RFC 6455, 5.2); the mask is all noughts. */
  private static byte[] masked(String text) {
    byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
    assertTrue(bytes.length < 126, "short enough for one byte of length");
    return ByteBuffer.allocate(6 + bytes.length)
        .put((byte) 0x81)
        .put((byte) (0x80 | bytes.length))
        .putInt(0)
        .put(bytes)
        .array();
  }

  @Test
  void whatIsWrongWithTheSecondRecogniserIsShown() throws Exception {
    Path data = folder.resolve("second.tallyback");
    Served other =
        Served.start(
            new PageServer.Settings(
                PLAN,
                data,
                null,
                null,
                0,
                Served.anna(),
                null,
                Second.live("/nowhere/second", SecondKind.ALIKE, line -> {}),
                null,
                null));
    try (TestPage page = TestPage.open(other.address(), "p1", "t1")) {
      String says = page.await(message -> TestPage.is(message, "second")).path("says").asText();
      assertTrue(
          says.startsWith("second recogniser: /nowhere/second can't be started")
              && says.endsWith("hearing goes on with the first alone"),
          says);
    } finally {
      other.close();
    }
  }
}
