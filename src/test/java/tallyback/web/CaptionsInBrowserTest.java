package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.export.Export;
import tallyback.export.Film;
import tallyback.export.Written;
import tallyback.report.JobRecord;
import tallyback.report.JobWords;
import tallyback.report.OrchardJob;

/**
 * Captions and chapters over a film in a real browser, which is an independent reader of WebVTT:
 * what it found in the files is what was written, and a caption is seen over the picture. Needs
 * chromium, chromedriver and ffmpeg; what it looked like lies in {@code target/captions.png}.
 */
class CaptionsInBrowserTest {

  private static final Path FFMPEG = Path.of("/usr/bin/ffmpeg");

  /** The orchard job goes from 09:02 in Oslo on. */
  private static final Film FILM =
      new Film(Instant.parse("2026-03-02T08:02:00Z"), Duration.ofHours(4));

  private static final String PAGE =
      """
      <!DOCTYPE html><meta charset="utf-8"><title>film</title>
      <video id="film" src="film.webm" width="640" height="360" muted controls>
      <track id="captions" kind="captions" srclang="en" label="Entries" src="captions.vtt" default>
      <track id="chapters" kind="chapters" srclang="en" label="Steps" src="chapters.vtt">
      </video>
      """;

  @TempDir private Path folder;

  @BeforeEach
  void installed() {
    TestBrowser.assumeInstalled();
    assumeTrue(Files.isExecutable(FFMPEG), "no ffmpeg here: install it");
  }

  /** Four hours of one picture are a small file. */
  private byte[] film() throws Exception {
    Path film = folder.resolve("film.webm");
    Process process =
        new ProcessBuilder(
                FFMPEG.toString(),
                "-nostdin",
                "-v",
                "error",
                "-f",
                "lavfi",
                "-i",
                "testsrc=size=320x180:rate=1/10:duration=14400",
                "-c:v",
                "libvpx",
                "-deadline",
                "realtime",
                "-g",
                "1",
                "-b:v",
                "20k",
                film.toString())
            .inheritIO()
            .start();
    assertEquals(0, process.waitFor());
    return Files.readAllBytes(film);
  }

  private static HttpServer serving(Map<String, byte[]> files) throws IOException {
    HttpServer server =
        HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    server.createContext(
        "/",
        exchange -> {
          byte[] body = files.get(exchange.getRequestURI().getPath());
          if (body == null) {
            exchange.sendResponseHeaders(404, -1);
          } else {
            String path = exchange.getRequestURI().getPath();
            exchange
                .getResponseHeaders()
                .set(
                    "Content-Type",
                    path.endsWith(".vtt")
                        ? "text/vtt"
                        : path.endsWith(".webm") ? "video/webm" : "text/html");
            part(exchange, body);
          }
          exchange.close();
        });
    server.start();
    return server;
  }

  /** A browser moves about in a film by asking for parts of it. */
  private static void part(com.sun.net.httpserver.HttpExchange exchange, byte[] body)
      throws IOException {
    String range = exchange.getRequestHeaders().getFirst("Range");
    int from = range == null ? 0 : Integer.parseInt(range.replaceAll("bytes=(\\d+)-.*", "$1"));
    exchange.getResponseHeaders().set("Accept-Ranges", "bytes");
    if (range != null) {
      exchange
          .getResponseHeaders()
          .set("Content-Range", "bytes " + from + "-" + (body.length - 1) + "/" + body.length);
    }
    exchange.sendResponseHeaders(range == null ? 200 : 206, body.length - from);
    try {
      exchange.getResponseBody().write(body, from, body.length - from);
    } catch (IOException e) {
      // It has seen enough.
    }
  }

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  @SuppressWarnings("unchecked")
  private static List<Map<String, Object>> cues(TestBrowser browser, String track) {
    return (List<Map<String, Object>>)
        browser
            .driver()
            .executeAsyncScript(
                """
            const done = arguments[1];
            const element = document.getElementById(arguments[0]);
            element.track.mode = 'showing';
            const tell = () => done([...element.track.cues].map(cue => ({id: cue.id,
                from: Math.round(cue.startTime * 1000), to: Math.round(cue.endTime * 1000),
                text: cue.getCueAsHTML().textContent,
                tags: cue.getCueAsHTML().querySelectorAll('*').length})));
            if (element.readyState === 2) tell();
            else { element.onload = tell; element.onerror = () => done([]); }
            """,
                track);
  }

  private void assertRead(Written written, List<Map<String, Object>> cues) {
    List<String> times =
        written.text().lines().filter(line -> line.contains(" --> ")).map(String::strip).toList();
    assertEquals(times.size(), cues.size());
    for (int i = 0; i < times.size(); i++) {
      Map<String, Object> cue = cues.get(i);
      assertEquals(times.get(i), time(of(cue, "from")) + " --> " + time(of(cue, "to")));
      assertEquals(0L, cue.get("tags"), cue::toString);
    }
  }

  private static Object of(Map<String, Object> cue, String part) {
    return Objects.requireNonNull(cue.get(part), part);
  }

  private static String time(Object ms) {
    Duration place = Duration.ofMillis(((Number) ms).longValue());
    return String.format(
        java.util.Locale.ROOT,
        "%02d:%02d:%02d.%03d",
        place.toHours(),
        place.toMinutesPart(),
        place.toSecondsPart(),
        place.toMillisPart());
  }

  @Test
  void theBrowserReadsWhatWasWrittenAndShowsItOverTheFilm() throws Exception {
    JobRecord job = OrchardJob.record();
    Written captions = Export.captions(job, FILM);
    Written chapters = Export.chapters(job, FILM);
    HttpServer server =
        serving(
            Map.of(
                "/",
                bytes(PAGE),
                "/film.webm",
                film(),
                "/captions.vtt",
                bytes(captions.text()),
                "/chapters.vtt",
                bytes(chapters.text())));
    try (TestBrowser browser = TestBrowser.silent(folder)) {
      browser.go("http://localhost:" + server.getAddress().getPort() + "/");
      List<Map<String, Object>> seen = cues(browser, "captions");
      assertRead(captions, seen);
      assertRead(chapters, cues(browser, "chapters"));
      assertTrue(chapters.parts() > 5, chapters.text());
      Map<String, Object> withdrawn =
          seen.stream()
              .filter(cue -> of(cue, "text").toString().startsWith("[withdrawn by"))
              .findFirst()
              .orElseThrow();
      double middle =
          (((Number) of(withdrawn, "from")).doubleValue()
                  + ((Number) of(withdrawn, "to")).doubleValue())
              / 2000;
      Object shown =
          browser
              .driver()
              .executeAsyncScript(
                  """
              const done = arguments[1], film = document.getElementById('film');
              film.onseeked = () => setTimeout(() => done(
                  [...document.getElementById('captions').track.activeCues].map(c => c.text)), 300);
              film.onerror = () => done(['' + film.error.message]);
              film.currentTime = arguments[0];
              """,
                  middle);
      assertEquals(List.of(of(withdrawn, "text")), shown);
      browser.picture(Path.of("target", "captions.png"));
    } finally {
      server.stop(0);
    }
  }

  @Test
  void hostileNamesAreTextToTheBrowser() throws Exception {
    String hostile =
        "<script>alert(1)</script> --> 00:00:01.000 &lt;b&gt; <v a>x</v> <00:00:01.000> {x} NOTE";
    JobRecord job = OrchardJob.named(hostile);
    Written captions = Export.captions(job, FILM);
    HttpServer server =
        serving(
            Map.of(
                "/",
                bytes(PAGE),
                "/captions.vtt",
                bytes(captions.text()),
                "/chapters.vtt",
                bytes(Export.chapters(job, FILM).text())));
    try (TestBrowser browser = TestBrowser.silent(folder)) {
      browser.go("http://localhost:" + server.getAddress().getPort() + "/");
      List<Map<String, Object>> seen = cues(browser, "captions");
      assertRead(captions, seen);
      assertTrue(
          seen.stream()
              .anyMatch(cue -> of(cue, "text").toString().contains(JobWords.harmless(hostile))));
      List<Map<String, Object>> chapters = cues(browser, "chapters");
      assertTrue(
          chapters.stream().anyMatch(cue -> of(cue, "text").toString().endsWith(". " + hostile)),
          chapters::toString);
    } finally {
      server.stop(0);
    }
  }
}
