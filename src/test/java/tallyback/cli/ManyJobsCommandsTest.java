package tallyback.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.networknt.schema.InputFormat;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.bench.InventedJobs;
import tallyback.log.Draft;
import tallyback.log.JobSearch;
import tallyback.log.Progress;
import tallyback.log.SoundClip;
import tallyback.log.sqlite.BulkFile;
import tallyback.model.Certainty;
import tallyback.model.Source;
import tallyback.model.Statement;

/** What {@code jobs}, {@code compare} and {@code trends} print of an invented shop's jobs. */
class ManyJobsCommandsTest {

  @TempDir private Path folder;
  private Path data = Path.of("");

  @BeforeEach
  void shop() throws Exception {
    data = folder.resolve("jobs.tallyback");
    BulkFile.write(data, new InventedJobs(30, 4, 100).all());
    BulkFile.index(data, Progress.UNTOLD);
  }

  private Ran run(Object... words) {
    Object[] all = new Object[words.length + 2];
    System.arraycopy(words, 0, all, 0, words.length);
    all[words.length] = "--data";
    all[words.length + 1] = data;
    return Ran.command(all);
  }

  @Test
  void theNewestAreListedFirst() {
    Ran ran = run("jobs", "--count", "2");
    assertEquals(0, ran.code(), ran.err());
    List<String> lines = ran.outLines();
    assertTrue(
        lines
            .get(0)
            .matches(
                "job-30 +closed +2019-01-23 01:\\d\\d  3 h \\d\\d min worked, 100 entries, .*checks"),
        lines.get(0));
    assertEquals("    Cooling system looked after", lines.get(1));
    assertEquals(
        "    Haverstock Loam 40, row tractor, no. SN-1001 \u00b7 Marit Oakhanger", lines.get(2));
    assertEquals("2 of 30 jobs; older ones: --before job-29", lines.get(6));
    assertTrue(run("jobs", "--before", "job-2").outLines().get(0).startsWith("job-1 "));
  }

  @Test
  void wordsAreFoundWithTimeAndContext() {
    Ran ran = run("jobs", "brindle", "quarrowby");
    assertTrue(ran.outLines().get(0).startsWith("job-21 "), ran.out());
    assertTrue(
        ran.outLines().get(3).matches(" {6}2019-01-18 \\d\\d:\\d\\d  memo .* brindlewick"),
        ran.out());
    assertEquals(ran, run("jobs", "--find", "brindle quarrowby"));
    assertEquals(List.of("No job fits."), run("jobs", "zzz").outLines());
    assertEquals(List.of("No job fits."), run("jobs", "--machine", "zzz").outLines());
    assertEquals(2, run("jobs", "--since", "soon").code());
    assertEquals(0, run("jobs", "\"OR* NEAR(", "--open").code());
    assertEquals(
        "1 of",
        run("jobs", "--since", "2019-01-10", "--until", "2019-01-10", "--count", "1")
            .outLines()
            .get(3)
            .substring(0, 4));
  }

  @Test
  void whatIsPrintedAsJsonIsAsPublished() throws IOException {
    Ran ran = run("jobs", "torqued", "--json", "--count", "3");
    assertEquals(3, ran.outLines().size());
    String base = "https://tallyback.invalid/schema/1/jobs.schema.json";
    String text;
    try (InputStream in =
        Objects.requireNonNull(
            ManyJobsCommandsTest.class.getResourceAsStream("/tallyback/schema/jobs.schema.json"))) {
      text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
    var schema =
        SchemaRegistry.withDefaultDialect(
                SpecificationVersion.DRAFT_2020_12, builder -> builder.schemas(Map.of(base, text)))
            .getSchema(SchemaLocation.of(base));
    for (String line : ran.outLines()) {
      assertEquals(List.of(), schema.validate(line, InputFormat.JSON), line);
    }
    assertTrue(ran.out().contains("\"workedSeconds\":"), ran.out());
  }

  @Test
  void twoJobsStandSideBySideOnTheConsoleAndOnAPage() throws IOException {
    Ran ran = run("compare", "job-1", "job-5");
    assertEquals(0, ran.code(), ran.err());
    ran.outLines().forEach(line -> assertTrue(line.length() <= 100, line));
    for (String heading :
        List.of("FINDINGS", "FLUIDS", "STEPS, TIME WORKED", "TIGHTNESS", "PARTS RENEWED")) {
      assertTrue(ran.outLines().contains(heading), heading + "\n" + ran.out());
    }
    assertTrue(ran.out().contains("splash guard bolts  job-1 only"), ran.out());
    Path page = folder.resolve("two.html");
    assertEquals(0, run("compare", "job-1", "job-2", "--out", page).code());
    String html = Files.readString(page);
    assertTrue(html.contains("These are jobs of different plans."), html);
    assertFalse(html.contains("<a href=\"/jobs"), "a file leads nowhere");
    assertEquals(2, run("compare", "job-1", "nobody").code());
    assertEquals(2, run("compare", "job-1", "job-1").code());
    assertEquals(2, run("compare", "job-1").code());
    assertEquals(2, run("compare", "job-1", "job-2", "--out", folder.resolve("two.txt")).code());
  }

  @Test
  void aMachineIsFollowed() throws IOException {
    Ran ran = run("trends", "--job", "job-1");
    assertEquals(0, ran.code(), ran.err());
    assertTrue(ran.out().contains("8 jobs are on record."), ran.out());
    assertTrue(ran.out().contains("MISSING FROM THE COOLING SYSTEM, IN L"), ran.out());
    assertTrue(ran.out().contains("NIST/SEMATECH e-Handbook"), ran.out());
    assertEquals(ran.out(), run("trends", "--machine", "SN-1000").out());
    Ran many = run("trends", "--machine", "SN");
    assertEquals(2, many.code());
    assertTrue(many.err().contains("expected one machine, found 4"), many.err());
    assertEquals(2, run("trends", "--machine", "none such").code());
    assertEquals(2, run("trends", "--machine", "x", "--job", "job-1").code());
    Path page = folder.resolve("trends.html");
    assertEquals(0, run("trends", "--job", "job-1", "--out", page).code());
    assertTrue(Files.readString(page).contains("<svg class=\"chart\""), "charts");
  }

  @Test
  void aMachineSeldomSeenIsFollowedBehindAThousandJobsOnOthersOfLikeNumbers() throws Exception {
    Path other = folder.resolve("many.tallyback");
    List<List<Draft>> jobs = new ArrayList<>();
    for (int number = 0; number <= JobSearch.MOST + 1; number++) {
      jobs.add(
          number < 2
              ? millJob("mill-" + number, "CG-1", number)
              : millJob("mill-" + number, "CG-1" + number, number));
    }
    BulkFile.write(other, jobs.iterator());
    BulkFile.index(other, Progress.UNTOLD);
    Ran ran = Ran.command("trends", "--job", "mill-0", "--data", other);
    assertEquals(0, ran.code(), ran.err());
    assertTrue(ran.outLines().contains("2 jobs are on record."), ran.out());
  }

  @Test
  void whoeverGoesOnInALargeFileOfAnOlderVersionIsToldWhatTakesSoLong() throws Exception {
    Path old = folder.resolve("old.tallyback");
    List<Draft> told = new ArrayList<>(millJob("mill", "CG-1", 0));
    while (told.size() < 5_001) {
      Draft first = told.get(0);
      told.add(
          new Draft(
              "memo-" + told.size(),
              "mill",
              first.happenedAt(),
              first.recordedAt(),
              first.zone(),
              "anna",
              "page",
              Source.TYPED,
              Certainty.CONFIRMED,
              "memo it hums",
              new Statement.Memo(null, "it hums")));
    }
    BulkFile.write(old, List.of(told).iterator());
    BulkFile.index(old, Progress.UNTOLD);
    for (List<String> command :
        List.of(
            List.of("review", "--withdraw", "3", "--by", "Mira", "--why", "it does not"),
            List.of("close"),
            List.of("visit"))) {
      BulkFile.takeIndexOut(old);
      List<Object> args = new ArrayList<>(command);
      args.addAll(List.of("--data", old));
      Ran ran = Ran.command(args.toArray());
      assertEquals(0, ran.code(), ran.err());
      assertTrue(
          ran.err().startsWith("old.tallyback comes from an older version and is made new"),
          command.get(0) + ": " + ran.err());
    }
  }

  private static List<Draft> millJob(String job, String serial, int day) {
    String plan =
        """
        tallyback-plan: 1
        name: Mill looked at
        machine: {name: Corven Grist 7, serial: %s, sides: seen from the hopper}
        places:
          - {id: frame, say: [frame]}
        """
            .formatted(serial);
    Instant at = Instant.parse("2020-03-02T08:00:00Z").plus(Duration.ofDays(day));
    return List.of(
        new Draft(
            job + "-opening",
            job,
            at,
            at,
            ZoneOffset.UTC,
            "anna",
            "page",
            Source.TOOL,
            Certainty.CONFIRMED,
            "job opened",
            new Statement.JobOpened(
                "Mill looked at", SoundClip.hashOf(plan.getBytes(StandardCharsets.UTF_8)), plan)));
  }
}
