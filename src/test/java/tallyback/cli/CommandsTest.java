package tallyback.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class CommandsTest {

  private static final Path PLAN = Path.of("demo-data/plan.yaml");
  private static final Instant NOON = Instant.parse("2026-03-02T12:00:00Z");

  @TempDir private Path folder;
  private String out = "";
  private String err = "";

  private int run(Object... args) {
    StringWriter outText = new StringWriter();
    StringWriter errText = new StringWriter();
    Console console =
        new Console(
            new PrintWriter(outText),
            new PrintWriter(errText),
            false,
            InstantSource.fixed(NOON),
            ZoneOffset.UTC);
    String[] words = new String[args.length];
    for (int i = 0; i < args.length; i++) {
      words[i] = args[i].toString();
    }
    int code = Main.run(console, words);
    out = outText.toString();
    err = errText.toString();
    return code;
  }

  private Path data() {
    return folder.resolve("job.tallyback");
  }

  private int enter(String line) {
    return run("enter", "--plan", PLAN, "--data", data(), line);
  }

  private void assertOneLineWith(String part) {
    assertEquals(1, err.lines().count(), err);
    assertTrue(err.contains(part), err);
    assertFalse(err.contains("\tat "), err);
  }

  @Test
  void typedEntriesBecomeAFindingAndCheckEndsWithOne() throws IOException {
    assertEquals(0, enter("@2026-03-02T09:16:00Z six splash guard bolts off"));
    assertEquals("noted", out.substring(0, 5));
    assertEquals(0, enter("@2026-03-02T11:45:00Z 4 splash guard bolts back on"));
    assertEquals(1, run("check", "--data", data(), "--json"));
    JsonNode check = new ObjectMapper().readTree(out);
    assertTrue(check.get("findings").findValuesAsText("kind").contains("left-in-tray"), out);
    assertTrue(
        check.get("findings").findValuesAsText("subject").contains("splash guard bolts"), out);
    assertEquals("stop", check.get("verdict").get("startForTest").asText());
  }

  @Test
  void aKindOfFindingIsExplainedByItsExample() {
    assertEquals(0, run("findings", "left-in-tray"));
    assertTrue(out.startsWith("### left-in-tray\n"), out);
    assertTrue(out.contains("left over"), out);
    assertEquals(0, run("findings"));
    assertTrue(out.startsWith("# What is found"), out);
  }

  @Test
  void anUnknownKindOfFindingIsRefusedWithTheKindsThereAre() {
    assertEquals(2, run("findings", "no-such-kind"));
    assertOneLineWith("no kind of finding is called \"no-such-kind\"; there are: ");
  }

  @Test
  void anEarlierJobOfThePlanIsThePastOfTheNext() {
    for (String day : List.of("02", "03")) {
      String job = "job-" + day;
      for (String line :
          List.of(
              "@2026-03-" + day + "T09:00:00Z starting strip belt",
              "@2026-03-" + day + "T09:20:00Z strip belt done")) {
        assertEquals(0, run("enter", "--plan", PLAN, "--data", data(), "--job", job, line), err);
      }
      if (day.equals("02")) {
        assertEquals(0, run("close", "--data", data(), "--job", job), err);
      }
    }
    run("check", "--data", data(), "--job", "job-03");
    assertTrue(out.contains("last time 20 min"), out);
  }

  @Test
  void whatIsNoEntryIsRefusedWithTheNearestPhraseAndNothingIsNoted() {
    assertEquals(2, enter("six splash guard boltz off"));
    assertOneLineWith("not noted: \"six splash guard boltz off\"");
    assertTrue(err.contains("did you mean"), err);
    assertEquals(0, run("check", "--data", data()));
  }

  @Test
  void aTimeThatIsNoneIsRefused() {
    assertEquals(2, enter("@yesterday belly pan off"));
    assertOneLineWith("expected a time such as @2026-03-02T09:15:00+01:00, found @yesterday");
  }

  @Test
  void aNumberWithoutUnitEndsUnconfirmed() {
    assertEquals(2, enter("torqued the fan nuts to 22"));
    assertTrue(out.startsWith("asked: 22 what?"), out);
    assertTrue(err.startsWith("noted as unconfirmed:"), err);
  }

  @Test
  void aClosedJobTakesNothingMore() {
    enter("belly pan off");
    assertEquals(0, run("close", "--data", data()));
    assertEquals(2, run("close", "--data", data()));
    assertOneLineWith("closed");
    assertEquals(
        2, run("enter", "--plan", PLAN, "--data", data(), "--job", "job-1", "belly pan on"));
    assertOneLineWith("closed");
  }

  @Test
  void whatIsToppedUpIsComparedWithTheJobBefore() {
    assertEquals(0, enter("@2026-02-02T09:00:00Z poured in half a litre of coolant"));
    assertEquals(0, run("close", "--data", data()));
    assertEquals(0, enter("@2026-03-02T09:00:00Z poured in one point five litres of coolant"));
    assertEquals(1, run("check", "--data", data(), "--json"));
    assertTrue(out.contains("topped-up-more"), out);
    assertTrue(out.contains("1.00 L more than last time"), out);
  }

  @Test
  void anUnknownJobIsNamedWithTheOnesThereAre() {
    enter("belly pan off");
    assertEquals(2, run("check", "--data", data(), "--job", "monday"));
    assertOneLineWith("monday");
  }

  @Test
  void anotherPlanForTheSameJobIsRefused() throws IOException {
    enter("belly pan off");
    Path other = folder.resolve("other.yaml");
    Files.writeString(other, Files.readString(PLAN) + "\n# changed\n");
    assertEquals(2, run("enter", "--plan", other, "--data", data(), "belly pan on"));
    assertOneLineWith("plan");
  }

  @Test
  void aDataFileThatIsNotOursIsRefusedAndLeftAlone() throws IOException {
    Files.writeString(data(), "shopping list");
    assertEquals(2, enter("belly pan off"));
    assertOneLineWith("job.tallyback");
    assertEquals("shopping list", Files.readString(data()));
  }

  @Test
  void noDataFileToRead() {
    assertEquals(2, run("check", "--data", data()));
    assertOneLineWith("there is no such data file");
  }

  @Test
  void noSuchRecording() {
    assertEquals(2, run("hear", folder.resolve("none.wav"), "--plan", PLAN));
    assertOneLineWith("no such file");
  }

  @Test
  void aTextFileIsNoRecording() throws IOException {
    Path file =
        Files.writeString(folder.resolve("talk.wav"), "hello there, no sound in here at all");
    assertEquals(2, run("hear", file, "--plan", PLAN));
    assertOneLineWith("talk.wav");
  }

  @Test
  void aPlanWithAnUnknownFieldIsListedByLint() throws IOException {
    Path plan =
        Files.writeString(folder.resolve("p.yaml"), "tallyback-plan: 1\nname: x\ncolour: red\n");
    assertEquals(1, run("lint", plan));
    assertTrue(out.contains("p.yaml:3:"), out);
    assertTrue(out.contains("colour"), out);
  }

  @Test
  void aPlanWithNothingButANameIsRight() throws IOException {
    Path plan = Files.writeString(folder.resolve("p.yaml"), "tallyback-plan: 1\nname: odd job\n");
    assertEquals(0, run("lint", plan));
  }

  @Test
  void theSeedsAndTheDemoPlanAreRight() throws IOException {
    try (var seeds = Files.list(Path.of("seeds"))) {
      for (Path seed : seeds.filter(path -> path.toString().endsWith(".yaml")).toList()) {
        assertEquals(0, run("lint", seed), out);
      }
    }
    assertEquals(0, run("lint", PLAN), out);
  }

  @Test
  void theRecordIsOnePage() throws IOException {
    enter("belly pan off");
    Path page = folder.resolve("record.html");
    assertEquals(0, run("report", "--data", data(), "--out", page));
    String html = Files.readString(page);
    assertTrue(html.contains("belly pan"), "the record names what came off");
    assertFalse(html.contains("http://") || html.contains("<script"), "self-contained, no script");
  }

  @Test
  void theOwnersRecordIsAPageOrAPdfByItsEnding() throws IOException {
    enter("complaint: loses coolant & squeals");
    enter("belly pan off");
    Path page = folder.resolve("owner.html");
    assertEquals(0, run("report", "--data", data(), "--owner", "--out", page), err);
    String html = Files.readString(page);
    assertTrue(html.contains("<b>Complaint:</b> loses coolant &amp; squeals"), html);
    assertFalse(html.contains("http://") || html.contains("<script"), "self-contained, no script");
    Path pdf = folder.resolve("owner.PDF");
    assertEquals(0, run("report", "--data", data(), "--out", pdf), err);
    assertEquals("%PDF-", Files.readString(pdf, StandardCharsets.ISO_8859_1).substring(0, 5));
    byte[] once = Files.readAllBytes(pdf);
    run("report", "--data", data(), "--out", pdf);
    assertArrayEquals(once, Files.readAllBytes(pdf));
    run("report", "--data", data(), "--paper", "letter", "--units", "us", "--out", pdf);
    assertFalse(Arrays.equals(once, Files.readAllBytes(pdf)));
    assertEquals("", err);
  }

  @Test
  void whatTheOwnersRecordDoesNotHaveIsRefusedAndNothingWritten() throws IOException {
    enter("belly pan off");
    Path page = folder.resolve("record.html");
    assertEquals(2, run("report", "--data", data(), "--units", "us", "--out", page));
    assertOneLineWith("add --owner");
    assertEquals(2, run("report", "--data", data(), "--owner", "--paper", "a5", "--out", page));
    assertOneLineWith("paper a5 (--paper): expected a4 or letter");
    assertEquals(2, run("report", "--data", data(), "--owner", "--tag", "--out", page));
    assertOneLineWith("--tag: expected a name that ends in .html");
    assertEquals(2, run("report", "--data", data(), "--out", folder.resolve("no/such/record.pdf")));
    assertOneLineWith("its folder doesn't exist");
    assertFalse(Files.exists(page));
  }

  @Test
  void whereThePdfCannotBeWrittenNothingIsLeftHalf() throws IOException {
    enter("belly pan off");
    Path place = folder.resolve("full/taken.pdf");
    Files.createDirectories(place.resolve("inside"));
    assertEquals(3, run("report", "--data", data(), "--out", place));
    assertOneLineWith("can't be written");
    try (var left = Files.list(folder.resolve("full"))) {
      assertEquals(List.of(place), left.toList());
    }
  }

  @Test
  void theTagSaysNotToStartAndWhatIsOpen() throws IOException {
    enter("anna speaking");
    enter("five belly pan bolts off");
    enter("leaving for the night");
    Path page = folder.resolve("tag.html");
    assertEquals(0, run("report", "--data", data(), "--tag", "--out", page), err);
    // Values and what belongs to them are held together by unbreakable spaces.
    String html = Files.readString(page).replace('\u00a0', ' ');
    assertTrue(html.contains("<h1>Do not start</h1>"), html);
    assertTrue(html.contains("<b>belly pan bolts</b>: 0 on the machine, 5 in the tray"), html);
    assertTrue(html.contains("<dd>Anna</dd>"), html);
    assertTrue(html.contains("Quarrowby Treeline 24"), html);
    assertFalse(html.contains("http://") || html.contains("<script"), "self-contained, no script");
  }

  @Test
  void whatWasNotedAfterwardsStandsUnderTheDayItHappened() throws IOException {
    Path clip = Path.of("demo-data/audio/009-090430.wav");
    assertEquals(
        0,
        run("hear", clip, "--plan", PLAN, "--data", data(), "--at", "2026-03-02T09:04:30+00:00"),
        err);
    Path page = folder.resolve("record.html");
    run("report", "--data", data(), "--out", page);
    String html = Files.readString(page);
    assertTrue(html.contains("<h3>Monday 2 March 2026</h3>"), "the day of the job heads its lines");
  }

  @Test
  void aRecordOfUnknownFormIsRefusedBeforeAnyWork() {
    assertEquals(2, run("report", "--data", data(), "--out", folder.resolve("record.docx")));
    assertOneLineWith(".html");
  }

  @Test
  void aSoundDataFileVerifies() {
    enter("belly pan off");
    assertEquals(0, run("verify", "--data", data()));
    assertTrue(out.contains("1 job, 2 entries, 0 sound clips: all in order"), out);
  }

  /** A copy taken before is a file that is in order, and yet not what was sealed. */
  @Test
  void aSealShowsThatAJobWasCutOffAndAVisitLeavesItGood() throws IOException {
    enter("belly pan off");
    Path before = folder.resolve("before.tallyback");
    Files.copy(data(), before);
    enter("belly pan back on");
    assertEquals(0, run("close", "--data", data()));
    String seal = out.lines().filter(line -> line.startsWith("seal ")).findFirst().orElseThrow();
    assertTrue(seal.matches("seal job-1/4/([0-9a-f]{4}-){5}[0-9a-f]{4}"), seal);

    assertEquals(0, run("verify", "--data", data(), "--seal", seal));
    assertTrue(out.contains("job job-1: entries 1 to 4 are those that were sealed\n"), out);
    for (String name : List.of("owner.pdf", "owner.html")) {
      Path record = folder.resolve(name);
      assertEquals(0, run("report", "--owner", "--data", data(), "--out", record), err);
      assertEquals(0, run("verify", "--data", data(), "--record", record), err);
      assertTrue(out.contains("job job-1: entries 1 to 4 are those that were sealed\n"), out);
      assertEquals(1, run("verify", "--data", before, "--record", record), err);
      assertTrue(out.contains("it was cut off after the seal was given"), out);
    }
    Path none = Files.writeString(folder.resolve("none.html"), "<p>a page</p>");
    assertEquals(2, run("verify", "--data", data(), "--record", none));
    assertOneLineWith("there is no seal in it");
    assertEquals(1, run("verify", "--data", before, "--seal", seal));
    assertTrue(
        out.contains(
            "seal of job job-1: expected 4 entries at least, as sealed, found 2: it was cut off after"
                + " the seal was given"),
        out);
    assertTrue(out.contains("1 problem"), out);
    String other = seal.substring(0, seal.length() - 1) + (seal.endsWith("0") ? "1" : "0");
    assertEquals(1, run("verify", "--data", data(), "--seal", other));
    assertTrue(out.contains("expected entry 4 as sealed, found another: job-1/4/"), out);
    assertEquals(2, run("verify", "--data", data(), "--seal", "job-1/four"));
    assertOneLineWith("expected a job, a number and six groups of four");

    assertEquals(2, run("enter", "--data", data(), "--job", "job-1", "belly pan off"));
    assertEquals(0, run("visit", "--data", data(), "--why", "bolts once more"));
    assertEquals("job-1 is open for a visit\n", out);
    assertEquals(0, run("enter", "--data", data(), "--job", "job-1", "belly pan off"), err);
    assertEquals(0, run("close", "--data", data()));
    assertEquals(0, run("verify", "--data", data(), "--seal", seal));
    assertTrue(
        out.contains(
            "job job-1: entries 1 to 4 are those that were sealed; 3 entries were added after it\n"),
        out);
    assertEquals(0, run("verify", "--data", data()));
    assertTrue(err.startsWith("what this can't show: that nobody wrote the whole file anew"), err);
  }

  @Test
  void anUnknownCommandIsWrongUse() {
    assertEquals(2, run("zzz"));
    assertOneLineWith("'zzz' is no command; 'tallyback --help' shows them all");
    assertEquals(2, run("chek"));
    assertOneLineWith("'chek' is no command; did you mean check");
    assertEquals(2, run("check", "monday"));
    assertOneLineWith("one word too many: 'monday'; 'tallyback check --help' shows the use");
    assertEquals(2, run("jobs", "--job", "monday"));
    assertOneLineWith("Unknown option: '--job'");
  }

  @Test
  void everyCommandHelpsWithinEightyColumns() {
    assertEquals(0, run("--help"));
    List<String> commands =
        out.lines()
            .filter(line -> line.matches("  [a-z]+ .*"))
            .map(line -> line.strip().replaceAll(" .*", ""))
            .toList();
    assertEquals(23, commands.size(), commands::toString);
    for (String command : commands) {
      assertEquals(0, run(command, "--help"), command);
      assertTrue(out.startsWith("Usage: tallyback " + command), out);
      out.lines().forEach(line -> assertTrue(line.length() <= 80, line));
    }
  }

  @Test
  void withoutATimeARecordingEndedWhenItsFileWasLastChanged() throws IOException {
    Path first = Files.copy(Path.of("demo-data/audio/004-090120.wav"), folder.resolve("a.wav"));
    Path second = Files.copy(Path.of("demo-data/audio/005-090150.wav"), folder.resolve("b.wav"));
    Files.setLastModifiedTime(first, FileTime.from(NOON));
    Files.setLastModifiedTime(second, FileTime.from(NOON));
    long lengthMs = (Files.size(first) - 44) / 32;
    assertEquals(0, run("hear", first, second, "--plan", PLAN, "--json"), err);
    List<Instant> told = new ArrayList<>();
    for (String line : out.lines().toList()) {
      JsonNode utterance = new ObjectMapper().readTree(line);
      told.add(
          Instant.parse(utterance.get("entry").get("happenedAt").asText())
              .minusMillis(utterance.get("startMs").asLong()));
    }
    assertEquals(List.of(NOON.minusMillis(lengthMs), NOON), told);
  }

  @Test
  void aCommandThatIsStillToComeIsSaidToBe() {
    assertEquals(2, run("backup"));
    assertEquals(
        "'backup' is not in this version yet; 'tallyback --help' shows what is"
            + System.lineSeparator(),
        err);
  }

  @Test
  void phrasesShowThePlansOwnNames() {
    assertEquals(0, run("phrases", PLAN));
    assertTrue(out.contains("big jug") || out.contains("belly pan"), out);
  }
}
