package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tallyback.app.KeptSounds;
import tallyback.app.KnownVoices;
import tallyback.app.LoadedPlan;
import tallyback.bench.InventedJobs;
import tallyback.log.Draft;
import tallyback.log.Progress;
import tallyback.log.SoundClip;
import tallyback.log.sqlite.BulkFile;
import tallyback.model.Certainty;
import tallyback.model.Source;
import tallyback.model.Statement;

/** What the page of all jobs is told by the server. */
@Timeout(120)
class JobPagesTest {

  private static final String HOSTILE = "<img src=x onerror=alert(2)>";
  private static final ObjectMapper MAPPER = new ObjectMapper();

  @TempDir private Path folder;

  @SuppressWarnings("NullAway.Init") // set before each test
  private PageServer server;

  /** Forty-two jobs on four machines, one with names of any kind, one of a newer version. */
  static Path shop(Path folder) throws IOException, SQLException {
    Path data = folder.resolve("jobs.tallyback");
    InventedJobs invented = new InventedJobs(42, 4, 100);
    List<List<Draft>> jobs = new ArrayList<>();
    invented.all().forEachRemaining(jobs::add);
    jobs.add(hostile());
    BulkFile.write(data, jobs.iterator());
    String plan = invented.plan(1, "Valves set <again>");
    BulkFile.addNewer(
        data,
        draft("newer", 1, "2026-02-01T08:00:00Z", "job opened", opened("Valves set <again>", plan)),
        draft("newer", 2, "2026-02-01T09:00:00Z", "what nobody knows yet", new Statement.Memo()));
    BulkFile.index(data, Progress.UNTOLD);
    return data;
  }

  private static List<Draft> hostile() {
    String plan =
        """
        tallyback-plan: 1
        name: "</title><b>plan & more"
        machine: {name: "\\"><svg onload=alert(3)>", serial: "'--", sides: any}
        places:
          - id: odd-place
            say: [script alert]
        """;
    return List.of(
        draft(
            HOSTILE,
            1,
            "2026-01-05T08:00:00Z",
            "job opened",
            opened("</title><b>plan & more", plan)),
        draft(
            HOSTILE,
            2,
            "2026-01-05T08:10:00Z",
            "seen at <script>alert(1)</script>",
            new Statement.ProblemSeen(Statement.Trouble.WORN, "odd-place")));
  }

  private static Statement opened(String name, String plan) {
    return new Statement.JobOpened(
        name, SoundClip.hashOf(plan.getBytes(StandardCharsets.UTF_8)), plan);
  }

  private static Draft draft(String job, int number, String at, String words, Statement statement) {
    Instant time = Instant.parse(at);
    return new Draft(
        job + "-" + number,
        job,
        time,
        time,
        ZoneOffset.UTC,
        "anna",
        "page",
        Source.TYPED,
        Certainty.CONFIRMED,
        words,
        statement);
  }

  /** A server of which nothing is listened to. */
  static PageServer serve(Path data) {
    return PageServer.open(
        Served.settings(LoadedPlan.withoutPlan(KnownVoices.none()), data, null), line -> {});
  }

  @BeforeEach
  void open() throws Exception {
    server = serve(shop(folder));
  }

  @AfterEach
  void close() {
    server.close();
  }

  private HttpResponse<String> get(String path) throws IOException, InterruptedException {
    return get(server, path);
  }

  private static HttpResponse<String> get(PageServer server, String path)
      throws IOException, InterruptedException {
    return HttpClient.newHttpClient()
        .send(
            HttpRequest.newBuilder(URI.create(server.address() + path)).build(),
            HttpResponse.BodyHandlers.ofString());
  }

  private JsonNode json(int status, String path) throws IOException, InterruptedException {
    HttpResponse<String> answer = get(path);
    assertEquals(status, answer.statusCode(), answer.body());
    return MAPPER.readTree(answer.body());
  }

  private static List<String> ids(JsonNode list) {
    List<String> ids = new ArrayList<>();
    list.path("jobs").forEach(job -> ids.add(job.path("job").asText()));
    return ids;
  }

  @Test
  void theListIsReadPageByPageAndNarrowed() throws Exception {
    JsonNode first = json(200, "jobs/list");
    assertEquals(44, first.path("all").asInt());
    assertEquals(20, first.path("jobs").size());
    assertTrue(first.path("more").asBoolean());
    assertEquals("newer", first.path("jobs").get(0).path("job").asText());
    assertTrue(
        first.path("jobs").get(0).path("unread").asText().contains("newer version"),
        first.path("jobs").get(0).toString());
    String last = ids(first).get(19);
    JsonNode next = json(200, "jobs/list?before=" + last);
    assertEquals(20, ids(next).size());
    assertTrue(ids(next).stream().noneMatch(ids(first)::contains));
    assertEquals(List.of("job-21"), ids(json(200, "jobs/list?words=brindlewick")));
    assertEquals(11, json(200, "jobs/list?machine=quarrowby").path("all").asInt());
    assertEquals(2, json(200, "jobs/list?since=2026-01-01").path("all").asInt());
    assertEquals(1, json(200, "jobs/list?since=2026-01-01&until=2026-01-05").path("all").asInt());
    assertEquals(3, json(200, "jobs/list?open=yes").path("all").asInt());
  }

  @Test
  void figuresFollowForJobsThatCanBeRead() throws Exception {
    JsonNode figures = json(200, "jobs/figures?job=job-1&job=newer");
    assertTrue(
        figures.path("job-1").path("worked").asText().matches("3 h .* min worked"),
        figures.toString());
    assertTrue(
        figures.path("job-1").path("findings").asText().contains("checks"), figures.toString());
    assertEquals(0, figures.path("newer").size());
    assertEquals(figures, json(200, "jobs/figures?job=job-1&job=newer"), "kept");
  }

  @Test
  void wrongQuestionsAreAnsweredInWords() throws Exception {
    assertEquals(
        "expected a day such as 2026-03-02, found \"soon\"",
        json(400, "jobs/list?since=soon").path("says").get(0).asText());
    assertTrue(
        json(400, "jobs/list?before=nobody")
            .path("says")
            .get(0)
            .asText()
            .startsWith("no job \"nobody\""));
    assertTrue(
        json(400, "jobs/list?words=" + "x".repeat(401))
            .path("says")
            .get(0)
            .asText()
            .contains("at most 400"));
    HttpResponse<String> same = get("jobs/compare?one=job-1&other=job-1");
    assertEquals(400, same.statusCode());
    assertEquals("job job-1: expected two different jobs; name another beside it", same.body());
    HttpResponse<String> newer = get("jobs/compare?one=job-1&other=newer");
    assertEquals(400, newer.statusCode());
    assertTrue(newer.body().contains("newer version"), newer.body());
    assertEquals(400, get("jobs/nobody/record").statusCode());
  }

  @Test
  void whatATimelineOrAReviewLacksIsToldInLinesToo() throws Exception {
    assertEquals(
        "{\"says\":[\"expected the hash of a sound, found another text\"]}",
        json(400, "jobs/job-1/sound/none").toString());
    assertEquals(
        "{\"says\":[\"" + KeptSounds.MISSING + "\"]}",
        json(404, "jobs/job-1/sound/" + "0".repeat(64)).toString());
    assertTrue(
        json(404, "jobs/nobody/timeline.json").path("says").get(0).asText().contains("nobody"));
    assertTrue(
        json(400, "jobs/nobody/review.json").path("says").get(0).asText().contains("nobody"));
    assertEquals(
        "{\"says\":[\"expected ?seq= and the number of an entry\"]}",
        json(400, "jobs/job-1/review/change?seq=x").toString());
  }

  @Test
  void sheetsRunNothingAndBringTheirStyleAlong() throws Exception {
    for (String path :
        List.of(
            "jobs/compare?one=job-1&other=job-5",
            "jobs/trends?job=job-1",
            "jobs/job-1/record",
            "jobs/%3Cimg%20src=x%20onerror=alert(2)%3E/record")) {
      HttpResponse<String> sheet = get(path);
      assertEquals(200, sheet.statusCode(), sheet.body());
      String policy = sheet.headers().firstValue("Content-Security-Policy").orElseThrow();
      assertTrue(
          policy.startsWith(
              "default-src 'none'; style-src "
                  + (path.endsWith("/record") ? "'unsafe-inline'" : "'sha256-")),
          policy);
      assertTrue(!sheet.body().contains("<script>") && !sheet.body().contains("<img"), path);
    }
  }

  @Test
  void withoutADataFileThereIsNoJobYet() throws Exception {
    try (PageServer empty = serve(folder.resolve("none.tallyback"))) {
      HttpResponse<String> list = get(empty, "jobs/list");
      assertEquals(0, MAPPER.readTree(list.body()).path("all").asInt(), list.body());
    }
    assertTrue(Files.exists(folder.resolve("jobs.tallyback")));
  }

  private static final String FRAME =
      """
      tallyback-plan: 1
      name: Frame looked at
      machine: {name: Corven Grist 7, sides: seen from the hopper}
      places:
        - {id: frame, say: [frame]}
      """;

  @Test
  void aTimeThatIsTypedIsOfTheZoneInWhichItIsGiven() throws Exception {
    Path data = folder.resolve("travelled.tallyback");
    Draft opening =
        draft("there", 1, "2026-01-05T08:00:00Z", "job opened", opened("Frame looked at", FRAME));
    Draft elsewhere =
        inZone(
            draft("there", 2, "2026-01-05T08:30:00Z", "memo it hums", new Statement.Memo()),
            ZoneOffset.ofHours(1));
    BulkFile.write(data, List.of(List.of(opening, elsewhere)).iterator());
    BulkFile.index(data, Progress.UNTOLD);
    try (PageServer travelled = serve(data)) {
      JsonNode state = MAPPER.readTree(get(travelled, "jobs/there/review.json").body());
      assertEquals("Z", state.path("zone").asText());
      String local = state.path("entries").get(1).path("local").asText();
      assertEquals("2026-01-05T08:30:00", local);
    }
  }

  private static Draft inZone(Draft draft, ZoneOffset zone) {
    return new Draft(
        draft.id(),
        draft.job(),
        draft.happenedAt(),
        draft.recordedAt(),
        zone,
        draft.actor(),
        draft.device(),
        draft.source(),
        draft.certainty(),
        draft.words(),
        draft.statement());
  }

  @Test
  void aJobHasItsPagesWhateverItIsCalled() throws Exception {
    Path data = folder.resolve("names.tallyback");
    List<String> names =
        List.of(
            "a/b", "/", "a\\b", "a;b=c", "a%2fb", "%", "a b", "a+b", "\u00e4", "a?b", "a#b", "..a");
    BulkFile.write(
        data,
        names.stream()
            .map(
                name ->
                    List.of(
                        draft(
                            name,
                            1,
                            "2026-01-05T08:00:00Z",
                            "job opened",
                            opened("Frame looked at", FRAME))))
            .iterator());
    BulkFile.index(data, Progress.UNTOLD);
    try (PageServer named = serve(data)) {
      for (String name : names) {
        for (String path :
            List.of(
                JobLinks.record(name),
                JobLinks.timeline(name),
                JobLinks.timeline(name) + ".json",
                JobLinks.review(name),
                JobLinks.review(name) + ".json")) {
          HttpResponse<String> page = get(named, path.substring(1));
          assertEquals(200, page.statusCode(), path + ": " + page.body());
          if (path.endsWith(".json")) {
            assertEquals(name, MAPPER.readTree(page.body()).path("job").asText());
          }
        }
      }
    }
  }
}
