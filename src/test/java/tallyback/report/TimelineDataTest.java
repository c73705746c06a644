package tallyback.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.app.CheckedJob;
import tallyback.app.LongJob;
import tallyback.books.Books;
import tallyback.books.FluidAccount;
import tallyback.books.ItemAccount;
import tallyback.books.Ledger;
import tallyback.books.Standing;
import tallyback.model.Account;
import tallyback.report.TimelineData.Asked;
import tallyback.report.TimelineData.Candidate;
import tallyback.report.TimelineData.Curve;
import tallyback.report.TimelineData.DoubtKind;
import tallyback.report.TimelineData.Found;
import tallyback.report.TimelineData.Link;
import tallyback.report.TimelineData.Mark;
import tallyback.report.TimelineData.Offset;
import tallyback.report.TimelineData.Point;

/**
 * What a timeline is made of: everything in a lane, doubts told, sums that are those of the books.
 */
class TimelineDataTest {

  private static final Instant MADE = Instant.parse("2026-04-01T10:00:00Z");
  private static final ObjectMapper MAPPER = new ObjectMapper();

  @TempDir private static Path folder;

  @SuppressWarnings("NullAway.Init") // set before the tests
  private static CheckedJob job;

  @SuppressWarnings("NullAway.Init") // set before the tests
  private static TimelineData data;

  @BeforeAll
  static void write() {
    Path file = folder.resolve("jobs.tallyback");
    LongJob.write(file, 300);
    job = CheckedJob.read(file, LongJob.JOB);
    data = TimelineData.of(job.record(MADE, null));
  }

  private static Mark said(String words) {
    return data.entries().stream()
        .filter(mark -> mark.words().equals(words))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void everyEntryIsInALane() {
    Set<String> lanes = new HashSet<>();
    data.lanes().forEach(lane -> lanes.add(lane.id()));
    assertEquals(300, data.entries().size());
    data.entries().forEach(mark -> assertTrue(lanes.contains(mark.lane()), mark::toString));
    assertEquals("tray", said("five cover bolts off").lane());
    assertEquals("fluids", said("drained").lane());
    assertEquals("torques", said("cover bolts to forty newton metres").lane());
    assertEquals("readings", said("temperature forty degrees").lane());
    assertEquals("pauses", said("a break").lane());
    assertEquals("steps", said("open up done").lane());
    assertEquals("repairs", said("scratch that").lane());
    assertEquals("other", said("look at this").lane());
    TimelineData orchard = TimelineData.of(OrchardJob.record());
    assertEquals(OrchardJob.record().entries().size(), orchard.entries().size());
  }

  @Test
  void everyKindOfDoubtIsTold() {
    Set<String> seen = new HashSet<>();
    data.entries().forEach(mark -> seen.addAll(mark.doubts()));
    assertTrue(seen.containsAll(LongJob.doubts()), seen::toString);
    assertEquals(List.of("unconfirmed"), said("torqued the cover bolts to forty").doubts());
    assertTrue(said("torqued the cover bolts to forty").sure().startsWith("unconfirmed: it was"));
    assertEquals(List.of("not-understood"), said("").doubts());
    assertTrue(said("").sure().startsWith("too noisy"), said("").sure());
    assertEquals(List.of("retimed"), said("hydraulics off").doubts());
    assertFalse(said("hydraulics off").struck());
    assertEquals(List.of(), said("six not five").doubts());
  }

  @Test
  void everyReadingOfASoundIsShownAndWhatWasAsked() {
    Mark answered = said("two flange nuts off");
    assertEquals(
        List.of(
            new Candidate("two flange nuts lost", false),
            new Candidate("two flange nuts off", true)),
        answered.heard());
    assertEquals(List.of("no", "yes"), answered.asked().stream().map(Asked::answer).toList());
    assertEquals(List.of("asked"), answered.doubts());
    assertEquals("confirmed: asked about, and answered", answered.sure());
    Mark open = said("torqued the cover bolts to forty");
    assertEquals(List.of(new Asked("40 what?", "")), open.asked());
    assertEquals(List.of(), open.heard());
    assertEquals(
        List.of("asked"),
        data.doubts().stream().filter(DoubtKind::settled).map(DoubtKind::id).toList());
    assertTrue(
        said("a break").sure().startsWith("confirmed: heard clearly, or answered"),
        "nobody kept how it was heard");
  }

  @Test
  void whatWasPutRightShowsBothReadings() {
    Mark first = said("five cover bolts off");
    Mark then = said("six not five");
    assertTrue(first.struck());
    assertEquals(List.of("corrected"), first.doubts());
    assertEquals(List.of(new Link("corrected by", then.seq())), first.links());
    assertEquals(List.of(new Link("corrects", first.seq())), then.links());
    assertEquals("cover bolts: 5 off", first.meaning());
    assertEquals("cover bolts: 6 off", first.readings().get(0).meaning());
    assertEquals("six not five", first.readings().get(0).words());
    assertEquals("five cover bolts off", then.readings().get(0).words());
    assertEquals(List.of("withdrawn"), said("nine flange nuts off").doubts());
  }

  @Test
  void findingsAndEvidencePointAtEachOther() {
    assertFalse(data.findings().isEmpty());
    for (Found found : data.findings()) {
      for (long seq : found.entries()) {
        Mark mark = data.entries().get((int) seq - 1);
        assertEquals(seq, mark.seq());
        assertTrue(mark.findings().contains(found.number()), found::toString);
      }
    }
    for (Mark mark : data.entries()) {
      for (String number : mark.findings()) {
        Found found = data.findings().get(Integer.parseInt(number) - 1);
        assertTrue(found.entries().contains(mark.seq()), mark::toString);
      }
    }
  }

  @Test
  void curvesAreTheBooksAtAnyTime() {
    Books books = Books.of(job.plan(), job.entries());
    Curve tray = curve("tray");
    Curve gearbox = curve("fluids");
    long seed = 20260328;
    System.out.println("TimelineDataTest.curvesAreTheBooksAtAnyTime seed " + seed);
    Random random = new Random(seed);
    for (int round = 0; round < 200; round++) {
      long at = data.fromMs() + (long) (random.nextDouble() * (data.toMs() - data.fromMs()));
      List<Standing> some =
          books.standing().stream()
              .filter(said -> said.entry().confirmed())
              .filter(said -> said.entry().happenedAt().toEpochMilli() <= at)
              .toList();
      Ledger ledger = books.of(some);
      int inTray = 0;
      for (ItemAccount account : ledger.items().values()) {
        inTray += account.count(Account.TRAY);
      }
      assertEquals(inTray, valueAt(tray, at), 1e-9);
      FluidAccount then = ledger.fluid("gearbox").orElseThrow();
      // 40 litres were in it before.
      assertEquals(40 - then.litres(Account.SYSTEM).toDouble(), valueAt(gearbox, at), 1e-9);
    }
  }

  private static Curve curve(String lane) {
    return data.curves().stream()
        .filter(each -> each.lane().equals(lane))
        .findFirst()
        .orElseThrow();
  }

  private static double valueAt(Curve curve, long at) {
    double value = 0;
    for (Point point : curve.points()) {
      if (point.ms() <= at) {
        value = point.value();
      }
    }
    return value;
  }

  @Test
  void theClockGoesForwardOverNight() {
    long change = Instant.parse("2026-03-29T01:00:00Z").toEpochMilli();
    assertEquals(List.of(new Offset(data.fromMs(), 60), new Offset(change, 120)), data.offsets());
    assertTrue(data.stretches().size() >= 2, "the night is folded");
    assertTrue(
        data.entries().stream()
            .anyMatch(mark -> mark.whole().startsWith("Sunday 29 March 2026, ")));
  }

  @Test
  void pausesAndNightsLast() {
    List<String> names =
        data.bars().stream()
            .filter(bar -> bar.lane().equals("pauses"))
            .map(TimelineData.Bar::name)
            .toList();
    assertEquals(List.of("Pause", "Left"), names);
  }

  @Test
  void hostileTextStaysText() throws IOException {
    Pattern script = Pattern.compile("<script|</script");
    long fair = script.matcher(page("fair words")).results().count();
    long seed = 20260329;
    System.out.println("TimelineDataTest.hostileTextStaysText seed " + seed);
    Random random = new Random(seed);
    for (int round = 0; round < 100; round++) {
      String hostile = HostileText.from(random);
      String json = TimelineData.of(OrchardJob.named(hostile)).json();
      assertFalse(json.contains("<"), json);
      JsonNode entry = MAPPER.readTree(json).path("entries").get(5);
      assertEquals(SafeText.visible(hostile), entry.path("words").asText());
      assertEquals(fair, script.matcher(page(hostile)).results().count(), hostile);
    }
  }

  private static String page(String name) {
    return HtmlTimeline.page(OrchardJob.named(name), Map.of());
  }

  @Test
  void theFileNeedsNothingFromOutside() {
    String page = page("fair words");
    for (String reach :
        List.of("http:", "https:", "url(", "@import", " src=", "<link", "<iframe")) {
      assertFalse(page.contains(reach), reach);
    }
  }
}
