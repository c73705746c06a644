package tallyback.report.owner;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.StringReader;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.xml.sax.InputSource;
import tallyback.model.Entry;
import tallyback.model.Statement;
import tallyback.model.Statement.About;
import tallyback.model.Statement.Written;
import tallyback.model.Verdict;
import tallyback.model.Verdict.Answer;
import tallyback.reconcile.Outcome;
import tallyback.report.HostileText;
import tallyback.report.JobRecord;
import tallyback.report.OrchardJob;
import tallyback.report.owner.Form.Paper;
import tallyback.report.owner.Form.Picture;
import tallyback.report.owner.Form.Units;

/** What the owner reads, as a page for the screen. */
class OwnerRecordTest {

  static final Form METRIC = new Form(Paper.A4, Units.METRIC, List.of());
  private static final Pattern TAG = Pattern.compile("<[^>]*>");

  private static String page(JobRecord job) {
    return OwnerRecord.html(job, METRIC).replace('\u00a0', ' ');
  }

  /** The orchard job with other answers and nothing standing against it. */
  static JobRecord judged(Answer answer, List<String> unchecked) {
    JobRecord job = OrchardJob.record();
    Outcome outcome = job.outcome();
    return new JobRecord(
        job.plan(),
        job.heading(),
        new Outcome(
            new Verdict(answer, answer, answer),
            List.of(),
            unchecked.stream().map(each -> new Outcome.Unsaid(each, List.of())).toList(),
            outcome.balances(),
            outcome.fluids(),
            outcome.tightness(),
            outcome.steps(),
            outcome.standing()),
        job.entries(),
        null);
  }

  /** The same with words for the owner. */
  static JobRecord with(JobRecord job, Written... words) {
    List<Entry> standing = new ArrayList<>(job.outcome().standing());
    Entry last = standing.get(standing.size() - 1);
    for (Written each : words) {
      standing.add(said(last, each));
    }
    Outcome outcome = job.outcome();
    return new JobRecord(
        job.plan(),
        job.heading(),
        new Outcome(
            outcome.verdict(),
            outcome.findings(),
            outcome.unsaid(),
            outcome.balances(),
            outcome.fluids(),
            outcome.tightness(),
            outcome.steps(),
            standing),
        job.entries(),
        null);
  }

  private static Entry said(Entry like, Statement statement) {
    return new Entry(
        like.id() + statement,
        like.job(),
        like.seq(),
        like.happenedAt(),
        like.recordedAt(),
        like.zone(),
        like.actor(),
        like.device(),
        like.source(),
        like.certainty(),
        "typed",
        null,
        statement);
  }

  @Test
  void whatStandsAgainstItStandsFirst() {
    String page = page(OrchardJob.record());
    int answer = page.indexOf("Do not use this machine, and do not start it.");
    assertTrue(answer > 0, page);
    assertTrue(answer < page.indexOf("<h2>Not checked</h2>"));
    assertTrue(page.indexOf("<h2>Not checked</h2>") < page.indexOf("Why it came in"));
  }

  @Test
  void itIsNeverABareYes() {
    String page = page(judged(Answer.CLEAR, List.of("a test run")));
    assertTrue(page.contains("Nothing that was told speaks against using this machine."));
    assertTrue(page.contains("That is no guarantee"));
    assertTrue(page.contains("<b>Nobody said:</b> a test run"), page);
    assertTrue(
        page(judged(Answer.CLEAR, List.of())).contains("What it doesn't ask for was not checked."));
  }

  @Test
  void whatIsNotKnownIsNoPassEither() {
    String page = page(judged(Answer.OPEN, List.of("a test run")));
    assertTrue(page.contains("It is not known whether this machine may be used."));
    assertFalse(page.contains("Nothing that was told speaks against"));
  }

  @Test
  void ofWhatNobodyWroteDownThatIsSaid() {
    String page = page(OrchardJob.record());
    for (String words :
        List.of(
            "<b>Complaint:</b> nothing was written down",
            "<b>Condition on arrival:</b> nothing was written down",
            "<b>Extra work:</b> none was written down",
            "<b>Old fluid, waste:</b> nobody wrote down where it went",
            "When to look again was not said")) {
      assertTrue(page.contains(words), words);
    }
  }

  @Test
  void wordsForTheOwnerStandWhereTheyBelong() {
    String page =
        page(
            with(
                OrchardJob.record(),
                new Written(About.OWNER, "Ilsabet Fenwright"),
                new Written(About.COMPLAINT, "loses 2 L a week"),
                new Written(About.CAUSE, "seal worn"),
                new Written(About.EXTRA_WORK, "hose renewed"),
                new Written(About.ADVICE, "look again on 1 May"),
                new Written(About.OLD_PARTS, "in the box"),
                new Written(About.WASTE, "collection point"),
                new Written(About.SIGNED, "Vera Quill")));
    for (String words :
        List.of(
            "<td>Ilsabet Fenwright</td>",
            "<b>Complaint:</b> loses 2 L a week",
            "<b>Why:</b> seal worn",
            "<b>Extra work:</b> hose renewed",
            "<b>Agreed:</b> nobody wrote down that it was agreed with you",
            "Look again on 1 May",
            "<b>Old parts:</b> in the box",
            "<b>Old fluid, waste:</b> collection point",
            ">Vera Quill")) {
      assertTrue(page.contains(words), () -> words + " in " + page);
    }
    assertFalse(page.contains("When to look again was not said"));
  }

  @Test
  void measurementsAndFiguresAreInPlainWords() {
    String page = page(OrchardJob.record());
    assertTrue(page.contains("2140.5 hours"), page);
    assertTrue(page.contains("give or take"), page);
    assertTrue(page.contains("calibrated"), page);
    String us =
        OwnerRecord.html(OrchardJob.record(), new Form(Paper.LETTER, Units.US, List.of()))
            .replace('\u00a0', ' ');
    assertTrue(us.contains("187 \u00b0F (86 \u00b0C)"), us);
  }

  @Test
  void itIsFreeOfTheToolsOwnWords() {
    String page = page(OrchardJob.record()).toLowerCase(Locale.ROOT).replaceAll("<[^>]*>", " ");
    for (String word :
        List.of(
            "finding",
            "ledger",
            "unconfirmed",
            "verdict",
            "entry",
            "entries",
            "reconcil",
            "tray",
            "torqued",
            "scrap ",
            "null")) {
      assertFalse(page.contains(word), word);
    }
  }

  @Test
  void onlyWhatIsCertainIsShownAsNew() {
    String fair = page(OrchardJob.record());
    assertTrue(fair.contains("<b>New:</b> coolant pump, thermostat, lower hose, belt"), fair);
    assertTrue(fair.contains("<b>Old one put back:</b> pump gasket"), fair);
    assertTrue(fair.contains("<b>Moved over from the old part:</b> sender bracket"), fair);
  }

  @Test
  void hostileTextStaysText() throws Exception {
    long seed = 20260302;
    System.out.println("OwnerRecordTest.hostileTextStaysText seed " + seed);
    Random random = new Random(seed);
    List<String> fair = tags(OwnerRecord.html(OrchardJob.named("fair words"), METRIC));
    for (int round = 0; round < 100; round++) {
      String hostile = HostileText.from(random);
      String page = OwnerRecord.html(OrchardJob.named(hostile), METRIC);
      assertEquals(fair, tags(page), () -> "it became markup: " + hostile);
    }
  }

  /** What becomes a PDF is read as XML, and the page for the screen is made of the same. */
  @Test
  void itIsWellFormed() throws Exception {
    String page = OwnerRecord.html(OrchardJob.record(), METRIC).replace("<!DOCTYPE html>", "");
    DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new InputSource(new StringReader(page)));
  }

  @Test
  void picturesHaveWords() {
    Picture picture = new Picture("data:image/png;base64,AAAA", "the old pump, seal side");
    String page =
        OwnerRecord.html(OrchardJob.record(), new Form(Paper.A4, Units.METRIC, List.of(picture)));
    assertTrue(page.contains("alt=\"the old pump, seal side\""), page);
    String without = page(OrchardJob.record());
    assertTrue(without.contains("Taken during the work and not in here: lower hose"), without);
  }

  @Test
  void aJobWithNothingInItHasWordsInsteadOfBlanks() {
    Instant noon = Instant.parse("2026-03-02T11:00:00Z");
    JobRecord empty =
        new JobRecord(
            OrchardJob.record().plan(),
            new JobRecord.Heading("quiet", noon, noon, noon, ZoneId.of("Europe/Oslo")),
            new Outcome(
                new Verdict(Answer.OPEN, Answer.OPEN, Answer.OPEN),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of()),
            List.of(),
            null);
    String page = page(empty);
    for (String words :
        List.of(
            "No part of the work was said to be done.",
            "nothing was said to be new",
            "No reading was told.",
            "Nothing was laid down or told about tightening.",
            "not told",
            "not read",
            "nobody yet")) {
      assertTrue(page.contains(words), words);
    }
  }

  private static List<String> tags(String page) {
    List<String> found = new ArrayList<>();
    Matcher matcher = TAG.matcher(page);
    while (matcher.find()) {
      found.add(matcher.group());
    }
    return found;
  }
}
