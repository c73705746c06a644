package tallyback.bench;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.WebSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;
import tallyback.app.CheckedJob;
import tallyback.app.LongJob;
import tallyback.report.HtmlTimeline;
import tallyback.web.TestBrowser;

/**
 * How long a browser's main thread is busy for each frame while the timeline of a job of 2,000
 * entries is dragged, from the browser's own trace: all tasks of that thread, input, script and
 * drawing, summed from one frame's beginning to the next's. Arguments: entries, seconds, 1 for the
 * whole job or more for a part so many times as small.
 */
public final class TimelineFigures {

  private static final ObjectMapper MAPPER = new ObjectMapper();
  private static final String CATEGORIES =
      "devtools.timeline,disabled-by-default-devtools.timeline,"
          + "disabled-by-default-devtools.timeline.frame,devtools.timeline.frame,toplevel";
  private static final int WIDE = 1600;
  private static final int HIGH = 1000;
  private static final int MOVE_EVERY_MS = 16;

  private TimelineFigures() {}

  /** A task of a thread; times in microseconds. */
  private record Task(long from, long took, long onProcessor) {}

  public static void main(String[] args) throws IOException, InterruptedException {
    int entries = args.length > 0 ? Integer.parseInt(args[0]) : 2000;
    int seconds = args.length > 1 ? Integer.parseInt(args[1]) : 6;
    List<Integer> closer = args.length > 2 ? List.of(Integer.parseInt(args[2])) : List.of(2, 8, 64);
    Path folder = Files.createTempDirectory("timeline-figures");
    Path data = folder.resolve("jobs.tallyback");
    LongJob.write(data, entries);
    long began = System.nanoTime();
    String page =
        HtmlTimeline.page(CheckedJob.read(data, LongJob.JOB).record(Instant.now(), null), Map.of());
    System.out.printf(
        Locale.ROOT,
        "%d entries; the page is made in %d ms, %d kB%n",
        entries,
        (System.nanoTime() - began) / 1_000_000,
        page.length() / 1000);
    Path file = folder.resolve("timeline.html");
    Files.writeString(file, page);
    try (TestBrowser browser = TestBrowser.silent(folder, "--window-size=" + WIDE + "," + HIGH)) {
      for (int times : closer) {
        browser.go("about:blank");
        browser.go(file.toUri().toString());
        drag(browser, seconds, times);
      }
    }
  }

  /** The browser's trace, by its protocol for tools (Tracing domain). */
  private static final class Trace implements WebSocket.Listener {

    private final StringBuilder message = new StringBuilder();
    private final List<JsonNode> events = new ArrayList<>();
    private final CountDownLatch complete = new CountDownLatch(1);

    private static Trace begin(TestBrowser browser) throws IOException, InterruptedException {
      Map<?, ?> options =
          (Map<?, ?>)
              Objects.requireNonNull(
                  browser.driver().getCapabilities().getCapability("goog:chromeOptions"));
      HttpClient client = HttpClient.newHttpClient();
      String version =
          client
              .send(
                  HttpRequest.newBuilder(
                          URI.create("http://" + options.get("debuggerAddress") + "/json/version"))
                      .build(),
                  HttpResponse.BodyHandlers.ofString())
              .body();
      Trace trace = new Trace();
      trace.socket =
          client
              .newWebSocketBuilder()
              .buildAsync(
                  URI.create(MAPPER.readTree(version).path("webSocketDebuggerUrl").asText()), trace)
              .join();
      trace.send(
          "{\"id\":1,\"method\":\"Tracing.start\",\"params\":{\"categories\":\""
              + CATEGORIES
              + "\"}}");
      return trace;
    }

    @SuppressWarnings("NullAway.Init") // set before anything is sent
    private WebSocket socket;

    private void send(String text) {
      socket.sendText(text, true).join();
    }

    List<JsonNode> end() throws InterruptedException {
      send("{\"id\":2,\"method\":\"Tracing.end\"}");
      if (!complete.await(60, TimeUnit.SECONDS)) {
        throw new IllegalStateException("the browser gave no trace");
      }
      socket.abort();
      return events;
    }

    @Override
    public @Nullable CompletionStage<?> onText(WebSocket from, CharSequence part, boolean last) {
      message.append(part);
      if (last) {
        take(message.toString());
        message.setLength(0);
      }
      from.request(1);
      return null;
    }

    private void take(String text) {
      try {
        JsonNode node = MAPPER.readTree(text);
        node.path("params").path("value").forEach(events::add);
        if (node.path("method").asText().equals("Tracing.tracingComplete")) {
          complete.countDown();
        }
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }

  private static void drag(TestBrowser browser, int seconds, int times)
      throws IOException, InterruptedException {
    for (int i = 1; i < times; i *= 2) {
      browser.run("document.getElementById('closer').click()");
    }
    Thread.sleep(1500);
    Trace trace = Trace.begin(browser);
    int y = 400;
    mouse(browser, "mousePressed", 600, y);
    long until = System.currentTimeMillis() + seconds * 1000L;
    int moves = 0;
    while (System.currentTimeMillis() < until) {
      long next = System.currentTimeMillis() + MOVE_EVERY_MS;
      int swing = (int) (380 * Math.sin(moves++ * 0.035));
      mouse(browser, "mouseMoved", 600 + swing, y);
      Thread.sleep(Math.max(0, next - System.currentTimeMillis()));
    }
    mouse(browser, "mouseReleased", 600, y);
    Thread.sleep(300);
    report(times, moves, trace.end());
  }

  private static void mouse(TestBrowser browser, String type, int x, int y) {
    browser
        .driver()
        .executeCdpCommand(
            "Input.dispatchMouseEvent",
            Map.of("type", type, "x", x, "y", y, "button", "left", "buttons", 1, "clickCount", 1));
  }

  private static void report(int times, int moves, List<JsonNode> lines) {
    Map<String, List<Task>> tasks = new HashMap<>();
    Map<String, List<Long>> frames = new HashMap<>();
    Map<String, Integer> names = new java.util.TreeMap<>();
    for (JsonNode event : lines) {
      String thread = event.path("pid").asText() + "/" + event.path("tid").asText();
      String name = event.path("name").asText();
      names.merge(name, 1, Integer::sum);
      if (name.endsWith("RunTask") && event.path("ph").asText().equals("X")) {
        tasks
            .computeIfAbsent(thread, any -> new ArrayList<>())
            .add(
                new Task(
                    event.path("ts").asLong(),
                    event.path("dur").asLong(),
                    event.path("tdur").asLong()));
      } else if (name.equals("BeginMainThreadFrame")) {
        frames.computeIfAbsent(thread, any -> new ArrayList<>()).add(event.path("ts").asLong());
      }
    }
    if (frames.isEmpty()) {
      throw new IllegalStateException(
          "no frame in the trace of " + lines.size() + " lines: " + names);
    }
    String busiest =
        frames.entrySet().stream()
            .max(java.util.Comparator.comparingInt(each -> each.getValue().size()))
            .map(Map.Entry::getKey)
            .orElseThrow(() -> new IllegalStateException("no frame in the trace"));
    List<Long> begins = frames.getOrDefault(busiest, List.of()).stream().sorted().toList();
    List<Task> busy = outermost(tasks.getOrDefault(busiest, List.of()));
    long[] took = new long[begins.size()];
    long[] processor = new long[begins.size()];
    for (Task task : busy) {
      // A frame begins within its task, so that the task belongs to the first that begins in it.
      int frame = frameOf(begins, task.from() + task.took());
      if (frame >= 0) {
        took[frame] += task.took();
        processor[frame] += task.onProcessor();
      }
    }
    System.out.printf(
        Locale.ROOT,
        "%d times as close, %d moves of the pointer, %d frames, main thread for each: by the clock"
            + " %s; on the processor %s ms%n",
        times,
        moves,
        begins.size(),
        spread(took),
        spread(processor));
  }

  private static List<Task> outermost(List<Task> tasks) {
    List<Task> sorted =
        tasks.stream()
            .sorted(
                java.util.Comparator.comparingLong(Task::from).thenComparing(task -> -task.took()))
            .toList();
    List<Task> outer = new ArrayList<>();
    long end = Long.MIN_VALUE;
    for (Task task : sorted) {
      if (task.from() >= end) {
        outer.add(task);
        end = task.from() + task.took();
      }
    }
    return outer;
  }

  private static int frameOf(List<Long> begins, long at) {
    int found = java.util.Collections.binarySearch(begins, at);
    return found >= 0 ? found : -found - 2;
  }

  private static String spread(long[] micros) {
    long[] sorted = micros.clone();
    Arrays.sort(sorted);
    return String.format(
        Locale.ROOT,
        "median %.1f, p95 %.1f, worst %.1f",
        sorted[sorted.length / 2] / 1000.0,
        sorted[(int) Math.ceil(sorted.length * 0.95) - 1] / 1000.0,
        sorted[sorted.length - 1] / 1000.0);
  }
}
