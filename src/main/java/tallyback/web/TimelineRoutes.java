package tallyback.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.Optional;
import tallyback.app.CheckedJob;
import tallyback.app.KeptSounds;
import tallyback.log.LogRefused;
import tallyback.report.HtmlTimeline;
import tallyback.report.TimelineData;

/**
 * The timeline of any job of the data file: the page, its data, and the sound of each entry. It
 * only reads, beside whoever writes. Who may ask was settled before.
 */
final class TimelineRoutes {

  private static final String JSON = "application/json; charset=utf-8";
  private static final Failures FAILURES =
      Failures.USUAL.with(LogRefused.class, 404).with(KeptSounds.Altered.class, 410);

  /** A sound is played from memory. */
  private static final String POLICY = PageServer.PAGE_POLICY + "; media-src blob:";

  private final Path data;
  private final InstantSource clock;

  TimelineRoutes(Path data, InstantSource clock) {
    this.data = data;
    this.clock = clock;
  }

  void configure(RoutesConfig routes) {
    String page = HtmlTimeline.served();
    byte[] style = HtmlTimeline.style().getBytes(StandardCharsets.UTF_8);
    byte[] script = HtmlTimeline.script().getBytes(StandardCharsets.UTF_8);
    routes.get("/timeline.css", context -> context.contentType("text/css").result(style));
    routes.get("/timeline.js", context -> context.contentType("text/javascript").result(script));
    routes.get(
        "/jobs/{id}/timeline",
        context ->
            context
                .header("Content-Security-Policy", POLICY)
                .contentType("text/html; charset=utf-8")
                .result(page));
    routes.get("/jobs/{id}/timeline.json", FAILURES.toPage(this::data));
    routes.get("/jobs/{id}/sound/{hash}", FAILURES.toPage(this::sound));
  }

  private void data(Context context) {
    CheckedJob checked = CheckedJob.read(data, context.pathParam("id"));
    context.contentType(JSON).result(TimelineData.of(checked.record(clock.instant(), null)).json());
  }

  /** A sound, by the hash that an entry names. Why there is none is told in words. */
  private void sound(Context context) {
    String hash = context.pathParam("hash");
    if (!hash.matches("[0-9a-f]{64}")) {
      throw new BadMessage("expected the hash of a sound, found another text");
    }
    Optional<byte[]> sound = KeptSounds.of(data, hash);
    if (sound.isEmpty()) {
      Failures.say(context.status(404), KeptSounds.MISSING);
      return;
    }
    context.contentType("audio/wav").result(sound.get());
  }
}
