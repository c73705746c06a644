package tallyback.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.WebSocket;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.UUID;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import tallyback.audio.Clip;
import tallyback.audio.WavSource;

/** A page made of Java: speaks to the server as the real one does, faster than life. */
public final class TestPage implements AutoCloseable {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final int PIECE = 1600;
  private static final int PATIENCE_SECONDS = 90;
  private static final long MOST_UNDER_WAY = 8L * Clip.SAMPLE_RATE_HZ;

  private final String device;
  private final BlockingQueue<JsonNode> messages = new LinkedBlockingQueue<>();
  private final CompletableFuture<Integer> closed = new CompletableFuture<>();
  private final WebSocket socket;
  private volatile long taken;
  private volatile long settled;
  private volatile String reason = "";
  private CompletableFuture<?> sending = CompletableFuture.completedFuture(null);

  private TestPage(URI address, String device, HttpClient client, String cookie) {
    this.device = device;
    socket = connect(client, address, origin(address), cookie, new Ear());
  }

  private static String origin(URI address) {
    return address.getScheme() + "://" + address.getAuthority();
  }

  /** Connects as a page from an origin would. */
  static WebSocket connect(URI address, String origin, WebSocket.Listener listener) {
    return connect(HttpClient.newHttpClient(), address, origin, "", listener);
  }

  /** The same over a connection of one's own, with a cookie or none. */
  static WebSocket connect(
      HttpClient client, URI address, String origin, String cookie, WebSocket.Listener listener) {
    WebSocket.Builder builder = client.newWebSocketBuilder().header("Origin", origin);
    if (!cookie.isEmpty()) {
      builder.header("Cookie", cookie);
    }
    String scheme = address.getScheme().equals("https") ? "wss" : "ws";
    return builder
        .buildAsync(URI.create(scheme + "://" + address.getAuthority() + "/live"), listener)
        .join();
  }

  /** Opens one that says hello, and waits until the server is ready. */
  public static TestPage open(URI address, String device, String tab) throws InterruptedException {
    return open(address, device, tab, HttpClient.newHttpClient(), "");
  }

  /** The same on a device that was paired. */
  static TestPage open(URI address, String device, String tab, HttpClient client, String cookie)
      throws InterruptedException {
    TestPage page = new TestPage(address, device, client, cookie);
    page.send(
        "{\"type\":\"hello\",\"version\":1,\"device\":\"%s\",\"tab\":\"%s\",\"pageMs\":%d}"
            .formatted(device, tab, System.currentTimeMillis()));
    page.await(message -> is(message, "welcome"));
    return page;
  }

  /** One that never says hello. */
  static TestPage silent(URI address) {
    return new TestPage(address, "nobody", HttpClient.newHttpClient(), "");
  }

  /** A new name for a recording. */
  public static UUID recording() {
    return UUID.randomUUID();
  }

  static boolean is(JsonNode message, String type) {
    return message.path("type").asText().equals(type);
  }

  public static boolean told(JsonNode message, String status) {
    return is(message, "told") && message.path("status").asText().equals(status);
  }

  void send(String text) {
    inTurn(() -> socket.sendText(text, true)).join();
  }

  void sendBinary(ByteBuffer bytes) {
    try {
      inTurn(() -> socket.sendBinary(bytes, true)).join();
    } catch (CompletionException e) {
      throw new CompletionException("closed: " + closed.getNow(0) + " " + reason, e.getCause());
    }
  }

  /** One at a time: the listener's thread answers pings meanwhile. */
  private synchronized CompletableFuture<?> inTurn(
      java.util.function.Supplier<CompletableFuture<WebSocket>> send) {
    sending = sending.thenCompose(before -> send.get());
    return sending;
  }

  /** The next message that is like this; those before it are gone. */
  public JsonNode await(Predicate<JsonNode> like) throws InterruptedException {
    List<JsonNode> passed = new ArrayList<>();
    long until = System.nanoTime() + TimeUnit.SECONDS.toNanos(PATIENCE_SECONDS);
    while (System.nanoTime() < until) {
      JsonNode message = messages.poll(100, TimeUnit.MILLISECONDS);
      if (message != null && like.test(message)) {
        return message;
      }
      if (message != null) {
        passed.add(message);
      }
      if (message == null && closed.isDone()) {
        break;
      }
    }
    throw new AssertionError(
        "no such message; closed: " + closed.getNow(0) + " " + reason + "; before: " + passed);
  }

  /** Wants to listen, and says from which sample on it still has a recording. */
  public long listen(UUID stream, long oldest, boolean takeOver) throws InterruptedException {
    ask(stream, oldest, takeOver);
    JsonNode wanted = await(message -> is(message, "wanted"));
    taken = wanted.path("streams").get(0).path("sample").asLong();
    return taken;
  }

  void ask(UUID stream, long oldest, boolean takeOver) {
    send(
        "{\"type\":\"listen\",\"takeOver\":%b,\"streams\":[{\"stream\":\"%s\",\"sample\":%d}]}"
            .formatted(takeOver, stream, oldest));
  }

  /** Sends a part of a recording, no faster than the server reads it. */
  public void play(UUID stream, short[] sound, long from, long to, double beganMs, int flags)
      throws InterruptedException {
    for (long first = from; first < to; first += PIECE) {
      while (first - taken > MOST_UNDER_WAY && !closed.isDone()) {
        Thread.sleep(5);
      }
      int count = (int) Math.min(PIECE, to - first);
      sendBinary(frame(stream, sound, first, count, beganMs, flags));
    }
  }

  /**
   * Sends what was just heard; no more than the server is willing to have under way.
   *
   * @param first the number of its first sample in the recording
   */
  public void sendPiece(UUID stream, long first, short[] piece, double beganMs, int flags)
      throws InterruptedException {
    while (first - taken > MOST_UNDER_WAY && !closed.isDone()) {
      Thread.sleep(5);
    }
    sendBinary(
        frame(
            stream,
            piece,
            0,
            piece.length,
            first,
            beganMs + first * 1000.0 / Clip.SAMPLE_RATE_HZ,
            flags));
  }

  static ByteBuffer frame(
      UUID stream, short[] sound, long first, int count, double beganMs, int flags) {
    double pageMs = beganMs + first * 1000.0 / Clip.SAMPLE_RATE_HZ;
    return frame(stream, sound, (int) first, count, first, pageMs, flags);
  }

  private static ByteBuffer frame(
      UUID stream, short[] from, int at, int count, long first, double pageMs, int flags) {
    ByteBuffer bytes =
        ByteBuffer.allocate(SoundFrame.HEADER + 2 * count).order(ByteOrder.LITTLE_ENDIAN);
    bytes.put(new byte[] {'T', 'B', 'I', 'N', 1, (byte) flags}).putShort((short) count);
    bytes.order(ByteOrder.BIG_ENDIAN);
    bytes.putLong(stream.getMostSignificantBits()).putLong(stream.getLeastSignificantBits());
    bytes.order(ByteOrder.LITTLE_ENDIAN);
    bytes.putLong(first).putDouble(pageMs);
    for (int i = 0; i < count; i++) {
      bytes.putShort(from[at + i]);
    }
    // The JDK's client takes eight bytes at a time, in the buffer's order: any but this one turns
    // them around.
    return bytes.flip().order(ByteOrder.BIG_ENDIAN);
  }

  /** Up to where the server has settled the recording. */
  public long settled() {
    return settled;
  }

  /** The status with which the server closed it. */
  int closedWith() throws InterruptedException {
    try {
      return closed.get(PATIENCE_SECONDS, TimeUnit.SECONDS);
    } catch (java.util.concurrent.ExecutionException | TimeoutException e) {
      throw new AssertionError("it is still open", e);
    }
  }

  String reason() {
    return reason;
  }

  /** The connection breaks. */
  public void breakOff() {
    socket.abort();
  }

  @Override
  public void close() {
    if (!closed.isDone()) {
      inTurn(() -> socket.sendClose(WebSocket.NORMAL_CLOSURE, ""))
          .exceptionally(gone -> null)
          .join();
    }
  }

  /** Recordings one after the other, so many seconds of a quiet room around each. */
  public static short[] room(double seconds, String... files) {
    Random hiss = new Random(5);
    short[] sound = new short[0];
    for (int i = 0; i <= files.length; i++) {
      short[] quiet = new short[(int) (seconds * Clip.SAMPLE_RATE_HZ)];
      for (int j = 0; j < quiet.length; j++) {
        quiet[j] = (short) Math.round(9 * hiss.nextGaussian());
      }
      sound = joined(sound, quiet);
      if (i < files.length) {
        sound = joined(sound, recording(files[i]));
      }
    }
    return sound;
  }

  private static short[] recording(String file) {
    try (WavSource source = WavSource.open(Path.of("demo-data/audio", file))) {
      return source.readAll().samples();
    } catch (IOException e) {
      throw new UncheckedIOException(file, e);
    }
  }

  private static short[] joined(short[] one, short[] other) {
    short[] both = java.util.Arrays.copyOf(one, one.length + other.length);
    System.arraycopy(other, 0, both, one.length, other.length);
    return both;
  }

  @Override
  public String toString() {
    return String.format(Locale.ROOT, "page of %s, settled %d", device, settled);
  }

  private final class Ear implements WebSocket.Listener {

    private final StringBuilder text = new StringBuilder();

    @Override
    public @Nullable CompletionStage<?> onText(WebSocket from, CharSequence data, boolean last) {
      text.append(data);
      if (last) {
        try {
          take(JSON.readTree(text.toString()));
        } catch (IOException e) {
          throw new UncheckedIOException(e);
        }
        text.setLength(0);
      }
      from.request(1);
      return null;
    }

    private void take(JsonNode message) {
      if (is(message, "taken")) {
        taken = message.path("sample").asLong();
      } else if (is(message, "settled")) {
        settled = message.path("sample").asLong();
      } else if (is(message, "ping")) {
        String pong =
            "{\"type\":\"pong\",\"sentMs\":%d,\"pageMs\":%d}"
                .formatted(message.path("sentMs").asLong(), System.currentTimeMillis());
        CompletableFuture<?> unused = inTurn(() -> socket.sendText(pong, true));
      } else {
        messages.add(message);
      }
    }

    @Override
    public @Nullable CompletionStage<?> onClose(WebSocket from, int status, String why) {
      reason = why;
      closed.complete(status);
      return null;
    }

    @Override
    public void onError(WebSocket from, Throwable error) {
      reason = String.valueOf(error);
      closed.complete(-1);
    }
  }
}
