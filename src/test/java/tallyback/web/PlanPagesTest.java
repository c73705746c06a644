package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tallyback.app.KnownVoices;
import tallyback.app.LoadedPlan;
import tallyback.app.PlanShelf;
import tallyback.log.JobSummary;
import tallyback.log.LogReader;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.plan.PlanFault;

/** What the page of plans asks a real server for. */
@Timeout(180)
class PlanPagesTest {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final HttpClient CLIENT = HttpClient.newHttpClient();
  private static final String TEXT =
      """
      tallyback-plan: 1
      name: Mill belt
      items:
        - {say: [mill guard]}
        - {say: [guard bolts], thing: bolt, count: 4, of: mill-guard, from-manual: [head, torque]}
      steps:
        - {say: [open up], off: [guard-bolts, mill-guard]}
        - {say: [close up], on: [mill-guard, guard-bolts], needs: open-up}
      """;

  @TempDir private Path folder;

  @SuppressWarnings("NullAway.Init") // started before each test
  private Served served;

  @BeforeEach
  void start() throws Exception {
    Files.writeString(folder.resolve("mill.yaml"), TEXT);
    Path data = folder.resolve("jobs.tallyback");
    served =
        Served.start(
            Served.settings(LoadedPlan.withoutPlan(KnownVoices.none()), data, null)
                .with(new PlanShelf(folder.resolve("plans"), folder.resolve("mill.yaml"))));
  }

  @AfterEach
  void stop() {
    served.close();
  }

  private HttpResponse<String> ask(String method, String path, String body) throws Exception {
    URI address = served.address().resolve(path);
    return CLIENT.send(
        HttpRequest.newBuilder(address)
            .method(method, HttpRequest.BodyPublishers.ofString(body))
            .header("Origin", "http://" + address.getAuthority())
            .build(),
        HttpResponse.BodyHandlers.ofString());
  }

  private JsonNode told(int status, String method, String path, String body) throws Exception {
    HttpResponse<String> answer = ask(method, path, body);
    assertEquals(status, answer.statusCode(), answer.body());
    return JSON.readTree(answer.body());
  }

  private static List<String> texts(JsonNode array) {
    return StreamSupport.stream(array.spliterator(), false)
        .map(each -> each.isTextual() ? each.asText() : each.path("text").asText())
        .toList();
  }

  private static String encoded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8);
  }

  @Test
  void listsWhatThereIs() throws Exception {
    JsonNode list = told(200, "GET", "/plans/list", "");

    assertEquals("Mill belt", list.path("plans").get(0).path("name").asText());
    assertEquals("given", list.path("plans").get(0).path("id").asText());
    assertEquals(2, list.path("plans").get(0).path("toEnter").asInt());
    assertFalse(list.path("phones").asBoolean());
  }

  /** The same words as on the command line, by the same file name. */
  @Test
  void saysOfAPlanWhatLintSays() throws Exception {
    String wrong = TEXT.replace("count: 4", "count: four").replace("needs: open-up", "needs: open");
    JsonNode looked = told(200, "POST", "/plans/lint?file=mill.yaml", wrong);

    assertEquals(
        LoadedPlan.lint("mill.yaml", wrong).faults().stream().map(PlanFault::weighedText).toList(),
        texts(looked.path("faults")));
    assertEquals(2, looked.path("faults").size());
    assertFalse(looked.path("usable").asBoolean());
    assertTrue(looked.path("view").path("tables").size() > 0, looked.toString());
  }

  @Test
  void putsAValueIntoTheTextItIsGivenAndKeepsNothingByThat() throws Exception {
    String query = "&value=25+N%C2%B7m&tolerance=3+N%C2%B7m&tolerance-from=p.+40";
    int column = TEXT.lines().toList().get(4).indexOf("torque") + 1;
    JsonNode filled =
        told(200, "POST", "/plans/fill?file=mill.yaml&line=5&column=" + column + query, TEXT);

    assertEquals(List.of(), texts(filled.path("wrong")));
    assertTrue(
        filled
            .path("text")
            .asText()
            .contains(
                "from-manual: [head], torque: {value: 25 N·m, tolerance: 3 N·m, tolerance-from: p."
                    + " 40}"),
        filled.toString());
    assertEquals(TEXT, Files.readString(folder.resolve("mill.yaml")));
  }

  @Test
  void keepsAPlanAndACopyOfWhatWasThere() throws Exception {
    String hash = told(200, "GET", "/plans/text?plan=given", "").path("hash").asText();
    String changed = TEXT.replace("count: 4", "count: 5");
    JsonNode kept = told(200, "PUT", "/plans/text?plan=given&hash=" + hash, changed);

    assertEquals("mill.before-1.yaml", kept.path("copy").asText());
    assertEquals(changed, Files.readString(folder.resolve("mill.yaml")));

    Files.writeString(folder.resolve("mill.yaml"), TEXT + "# by hand\n");
    JsonNode told =
        told(
            409,
            "PUT",
            "/plans/text?plan=given&hash=" + kept.path("hash").asText(),
            changed + "# here\n");
    assertTrue(texts(told.path("says")).get(0).contains("changed by somebody else"));
    assertEquals(TEXT + "# by hand\n", Files.readString(folder.resolve("mill.yaml")));
  }

  @Test
  void nothingIsChangedByAnotherSite() throws Exception {
    URI address = served.address();
    for (String origin : List.of("http://elsewhere.example", "null", "https://localhost")) {
      HttpResponse<String> answer =
          CLIENT.send(
              HttpRequest.newBuilder(address.resolve("/plans/new?name=bad"))
                  .POST(HttpRequest.BodyPublishers.ofString(TEXT))
                  .header("Origin", origin)
                  .build(),
              HttpResponse.BodyHandlers.ofString());
      assertEquals(403, answer.statusCode(), origin);
    }
    HttpResponse<String> without =
        CLIENT.send(
            HttpRequest.newBuilder(address.resolve("/plans/new?name=bad"))
                .POST(HttpRequest.BodyPublishers.ofString(TEXT))
                .build(),
            HttpResponse.BodyHandlers.ofString());
    assertEquals(403, without.statusCode());
    assertFalse(Files.exists(folder.resolve("plans")));
  }

  @Test
  void badAsksAreToldInWords() throws Exception {
    assertEquals(
        List.of("expected ?plan="), texts(told(400, "GET", "/plans/text", "").path("says")));
    assertTrue(
        texts(told(400, "GET", "/plans/text?plan=own:..%2Fmill.yaml", "").path("says"))
            .get(0)
            .startsWith("there is no such plan any more"));
    assertEquals(
        List.of("expected ?line= and a number"),
        texts(told(400, "POST", "/plans/fill?line=x&column=1", TEXT).path("says")));
    assertTrue(
        texts(told(400, "GET", "/plans/code.svg?plan=given", "").path("says"))
            .get(0)
            .contains("serve --lan"));
    assertTrue(
        texts(told(400, "POST", "/plans/go-on?job=job-99", "").path("says"))
            .get(0)
            .startsWith("job job-99 is not open any more"));
    assertEquals(413, ask("POST", "/plans/lint", "#".repeat(1_100_000)).statusCode());
  }

  @Test
  void aPlanThatIsNotRightBeginsNoJob() throws Exception {
    JsonNode kept =
        told(200, "POST", "/plans/new?name=Half", TEXT.replace("thing: bolt", "thing: bold"));
    JsonNode told =
        told(
            400, "POST", "/plans/begin?plan=" + encoded(kept.path("plan").path("id").asText()), "");
    assertTrue(texts(told.path("says")).get(0).startsWith("half.yaml:5:"), told.toString());
  }

  @Test
  void beginsAJobOfAPlanAndPutsDownTheOneBeforeIt() throws Exception {
    try (TestPage page = TestPage.open(served.address(), "p1", "t1")) {
      JsonNode begun = told(200, "POST", "/plans/begin?plan=given", "");
      assertEquals("job-2", begun.path("job").asText());
      assertEquals(1001, page.closedWith());
      assertEquals("another job is noted here now", page.reason());
    }
    try (TestPage page = TestPage.open(served.address(), "p1", "t1")) {
      page.send("{\"type\":\"words\",\"id\":\"w1\",\"words\":\"four guard bolts off\"}");
      page.await(message -> TestPage.told(message, "noted"));
    }
    // Back to the first? Nothing was noted in it, so it was closed and no longer offered.
    List<JobSummary> jobs = jobs();
    assertEquals(List.of("job-1", "job-2"), jobs.stream().map(JobSummary::id).toList());
    assertTrue(jobs.get(0).closed());
    assertEquals("Mill belt", jobs.get(1).planName());

    // One in which something was noted stays open, and is gone on with.
    told(200, "POST", "/plans/begin?plan=starter:wheel-change", "");
    try (TestPage page = TestPage.open(served.address(), "p1", "t2")) {
      page.send("{\"type\":\"words\",\"id\":\"w2\",\"words\":\"key out\"}");
      page.await(message -> TestPage.told(message, "noted"));
    }
    assertFalse(jobs().get(1).closed());
    told(200, "POST", "/plans/go-on?job=job-2", "");
    try (TestPage page = TestPage.open(served.address(), "p1", "t3")) {
      page.send("{\"type\":\"words\",\"id\":\"w4\",\"words\":\"mill guard off\"}");
      page.await(message -> message.path("heard").asText().equals("mill guard off"));
    }
    try (LogReader log = SqliteLogs.openForReading(folder.resolve("jobs.tallyback"))) {
      assertEquals(
          List.of("four guard bolts off", "mill guard off"),
          log.entries("job-2").stream()
              .map(entry -> entry.words())
              .filter(words -> words.endsWith("off"))
              .toList());
    }
  }

  private List<JobSummary> jobs() {
    try (LogReader log = SqliteLogs.openForReading(folder.resolve("jobs.tallyback"))) {
      return log.jobs();
    }
  }

  @Test
  void theLayOutSheetCanBeLookedAtAndRunsNothing() throws Exception {
    HttpResponse<String> sheet = ask("GET", "/plans/sheet?plan=given", "");

    assertEquals(200, sheet.statusCode());
    assertTrue(sheet.body().contains("Lay out before the job"), sheet.body());
    String policy = sheet.headers().firstValue("Content-Security-Policy").orElse("");
    assertTrue(policy.contains("sandbox") && !policy.contains("script-src"), policy);
  }
}
