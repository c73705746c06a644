package tallyback.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TimeZone;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import tallyback.model.Entry;
import tallyback.model.Statement;
import tallyback.model.Verdict;
import tallyback.model.Verdict.Answer;
import tallyback.reconcile.Outcome;
import tallyback.reconcile.Reconciler;

class HtmlRecordTest {

  private static final Pattern TAG = Pattern.compile("<[^>]*>");

  @Test
  void isThePageAsAgreed() {
    Golden.assertSame("record.html", HtmlRecord.page(OrchardJob.record()));
  }

  @Test
  void isTheSameInAnotherLanguageAndZone() {
    String page = HtmlRecord.page(OrchardJob.record());
    assertEquals(page, Elsewhere.call(() -> HtmlRecord.page(OrchardJob.record())));
  }

  @Test
  void needsNothingFromOutside() {
    String page = HtmlRecord.page(OrchardJob.record());
    for (String reach :
        List.of(
            "http:", "https:", "url(", "@import", "src=", "<script", "<link", "<iframe",
            "<object")) {
      assertFalse(page.contains(reach), reach);
    }
  }

  @Test
  void everyLinkLeadsSomewhereOnThePageAndNoIdIsThereTwice() {
    String page = HtmlRecord.page(OrchardJob.record());
    List<String> ids = all("id=\"([^\"]*)\"", page);
    Set<String> known = new HashSet<>(ids);
    assertEquals(known.size(), ids.size(), "an id stands twice");
    List<String> links = all("href=\"#([^\"]*)\"", page);
    assertTrue(links.size() > 40, () -> links.size() + " links");
    assertTrue(known.containsAll(links), () -> "dead link among " + links);
  }

  @Test
  void hostileTextStaysText() {
    long seed = 20260302;
    System.out.println("HtmlRecordTest.hostileTextStaysText seed " + seed);
    Random random = new Random(seed);
    List<String> fair = tags(HtmlRecord.page(OrchardJob.named("fair words")));
    for (int round = 0; round < 200; round++) {
      String hostile = HostileText.from(random);
      String page = HtmlRecord.page(OrchardJob.named(hostile));
      assertTrue(fair.equals(tags(page)), () -> "it became markup: " + hostile);
      assertTrue(
          unescaped(page).contains(SafeText.visible(hostile)),
          () -> "it is not on the page as it was said: " + hostile);
    }
  }

  @Test
  void aClearVerdictIsNeverABareYes() {
    String page = HtmlRecord.page(quiet(List.of("hose clamps")));
    assertTrue(page.contains("NOTHING AGAINST IT"));
    assertTrue(
        page.contains(
            "Nothing against it in what you told me; not said: 1 thing that this doesn't hang on, listed below."));
    assertTrue(page.contains("<li>hose clamps</li>"));
  }

  @Test
  void nothingLeftUnsaidIsStillNoYes() {
    String page = HtmlRecord.page(quiet(List.of()));
    assertTrue(page.contains("not said: whatever the plan does not ask for."));
    assertTrue(page.contains("What it does not ask for was not checked."));
  }

  @Test
  void aJobWithNothingInItHasWordsInsteadOfBlanks() {
    String page = HtmlRecord.page(quiet(List.of()));
    for (String words :
        List.of(
            "No findings in what was said",
            "Nothing was said to be wrong",
            "Nothing was said about new or old parts",
            "No reading was said",
            "The plan names no fluid system",
            "The plan names no torque",
            "The plan names no steps",
            "nobody yet")) {
      assertTrue(page.contains(words), words);
    }
  }

  @Test
  void takesWhatTheReconcilerMakes() {
    JobRecord job = OrchardJob.record();
    Outcome outcome = Reconciler.reconcile(job.plan(), job.entries());
    JobRecord reconciled = new JobRecord(job.plan(), job.heading(), outcome, job.entries(), null);
    assertFalse(outcome.findings().isEmpty());
    assertTrue(
        HtmlRecord.page(reconciled).contains("id=\"finding-" + outcome.findings().size() + "\""));
    String console = TextTables.of(reconciled, TextTables.Paint.PLAIN).all();
    console.lines().forEach(line -> assertTrue(line.codePointCount(0, line.length()) <= 100, line));
  }

  @Test
  void aMemoIsHeardAgainOnThePageItself() {
    JobRecord job = OrchardJob.record();
    String hash = "0a".repeat(32);
    List<Entry> entries =
        job.entries().stream()
            .map(entry -> entry.statement() instanceof Statement.Memo ? named(entry, hash) : entry)
            .toList();
    JobRecord kept = new JobRecord(job.plan(), job.heading(), job.outcome(), entries, job.heard());
    assertFalse(HtmlRecord.page(kept).contains("<audio"), "no sound at hand, no player");
    String page = HtmlRecord.page(kept.with(Map.of(hash, new byte[] {'R', 'I', 'F', 'F'})));
    assertTrue(
        page.contains(
            "<audio controls preload=\"metadata\" src=\"data:audio/wav;base64,UklGRg==\""),
        page);
    assertTrue(page.contains("media-src data:"), "and the page may play it");
  }

  private static Entry named(Entry entry, String clip) {
    return new Entry(
        entry.id(),
        entry.job(),
        entry.seq(),
        entry.happenedAt(),
        entry.recordedAt(),
        entry.zone(),
        entry.actor(),
        entry.device(),
        entry.source(),
        entry.certainty(),
        entry.words(),
        clip,
        entry.statement());
  }

  private static JobRecord quiet(List<String> unchecked) {
    Instant noon = Instant.parse("2026-03-02T11:00:00Z");
    return new JobRecord(
        OrchardJob.plan(),
        new JobRecord.Heading("quiet", noon, noon, noon, ZoneId.of("Europe/Oslo")),
        new Outcome(
            new Verdict(Answer.CLEAR, Answer.CLEAR, Answer.CLEAR),
            List.of(),
            unchecked.stream().map(each -> new Outcome.Unsaid(each, List.of())).toList(),
            List.of(),
            List.of(),
            List.of(),
            List.of(),
            List.of()),
        List.of(),
        null);
  }

  /**
   * Every tag of the page; labels in the picture without their place, which depends on their
   * length.
   */
  private static List<String> tags(String page) {
    return all("(" + TAG.pattern() + ")", page).stream()
        .map(tag -> tag.startsWith("<text ") ? "<text>" : tag)
        .toList();
  }

  private static List<String> all(String pattern, String page) {
    List<String> found = new ArrayList<>();
    Matcher matcher = Pattern.compile(pattern).matcher(page);
    while (matcher.find()) {
      found.add(matcher.group(1));
    }
    return found;
  }

  private static String unescaped(String page) {
    return page.replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&#34;", "\"")
        .replace("&#39;", "'")
        .replace("&amp;", "&");
  }

  /** Runs something as if on a machine of another language and zone. */
  static final class Elsewhere {
    private Elsewhere() {}

    static <T> T call(java.util.function.Supplier<T> work) {
      Locale locale = Locale.getDefault();
      TimeZone zone = TimeZone.getDefault();
      try {
        Locale.setDefault(Locale.forLanguageTag("ar-EG-u-nu-arab"));
        TimeZone.setDefault(TimeZone.getTimeZone("Pacific/Apia"));
        return work.get();
      } finally {
        Locale.setDefault(locale);
        TimeZone.setDefault(zone);
      }
    }
  }
}
