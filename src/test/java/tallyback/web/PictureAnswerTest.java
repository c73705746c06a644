package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import io.javalin.Javalin;
import java.io.IOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.log.Examples;
import tallyback.log.JobLog;
import tallyback.log.SoundClip;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Entry;
import tallyback.model.Statement;

/** Pictures of the job, and nothing else of the log, come as what they are. */
class PictureAnswerTest {

  private static final byte[] PICTURE = {(byte) 0xFF, (byte) 0xD8, (byte) 0xFF, 1, 2, 3};

  @TempDir private Path folder;

  private static HttpResponse<byte[]> get(Javalin server, String job, String entry)
      throws IOException, InterruptedException {
    String query = "?entry=" + URLEncoder.encode(entry, StandardCharsets.UTF_8);
    URI address =
        URI.create(
            "http://localhost:" + server.port() + PictureAnswer.PATH.replace("{job}", job) + query);
    return HttpClient.newHttpClient()
        .send(HttpRequest.newBuilder(address).build(), HttpResponse.BodyHandlers.ofByteArray());
  }

  @Test
  void aPictureComesAsJpegAndASoundDoesNot() throws Exception {
    Path data = folder.resolve("jobs.tallyback");
    String id = "pump/1 picture ?&\u00fc";
    try (JobLog log = SqliteLogs.openForWriting(data)) {
      Entry opened =
          log.openJob(Examples.draft("pump", "opening", Examples.opening(Examples.PLAN)));
      assertEquals(1, opened.seq());
      Entry picture =
          log.append(
              Examples.draft(
                  "pump",
                  id,
                  new Statement.PictureTaken(
                      "a.jpg", "a".repeat(64), "2026-03-02T09:57:04", "PT0S", 4, 3, null)),
              new SoundClip(PICTURE));
      assertEquals(2, picture.seq());
      Entry memo =
          log.append(
              Examples.draft("pump", "memo", new Statement.Memo()),
              new SoundClip(new byte[] {1, 2, 3}));
      assertEquals(3, memo.seq());
    }
    PictureAnswer answer = new PictureAnswer(data);
    Javalin server =
        Javalin.create(
                config -> {
                  PageServer.quietly(config);
                  config.routes.get(PictureAnswer.PATH, answer::give);
                })
            .start("127.0.0.1", 0);
    try {
      HttpResponse<byte[]> picture = get(server, "pump", id);
      assertEquals(200, picture.statusCode());
      assertEquals("image/jpeg", picture.headers().firstValue("Content-Type").orElse(""));
      assertArrayEquals(PICTURE, picture.body());
      for (String other : new String[] {"memo", "gone", "", "../pump"}) {
        assertEquals(404, get(server, "pump", other).statusCode(), other);
      }
      assertEquals(404, get(server, "another", id).statusCode(), "of another job");
    } finally {
      server.stop();
    }
  }
}
