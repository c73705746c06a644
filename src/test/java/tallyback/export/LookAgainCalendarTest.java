package tallyback.export;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.StringReader;
import java.util.List;
import java.util.Random;
import net.fortuna.ical4j.data.CalendarBuilder;
import net.fortuna.ical4j.data.ParserException;
import net.fortuna.ical4j.model.Calendar;
import net.fortuna.ical4j.model.Component;
import net.fortuna.ical4j.model.component.VEvent;
import org.junit.jupiter.api.Test;
import tallyback.model.Statement;
import tallyback.model.Statement.LookAgain;
import tallyback.model.Statement.Span;
import tallyback.report.HostileText;
import tallyback.report.JobRecord;
import tallyback.report.JobWords;

/** Calendars as an independent reader (iCal4j) reads and judges them. */
class LookAgainCalendarTest {

  private static final long SEED = 5_545;

  private static List<VEvent> events(JobRecord job) throws IOException, ParserException {
    Calendar calendar = new CalendarBuilder().build(new StringReader(Export.calendar(job).text()));
    assertFalse(calendar.validate(true).hasErrors());
    return calendar.getComponents(Component.VEVENT);
  }

  private static LookAgain again(int count, Span span) {
    return new LookAgain(count, span, "outlet-nuts", false);
  }

  @Test
  void daysWeeksAndMonthsAreWholeDaysOfTheShopsCalendar() throws Exception {
    List<VEvent> events =
        events(
            new Told()
                .at(0, again(1, Span.DAYS))
                .at(1, again(2, Span.WEEKS))
                .at(2, again(12, Span.MONTHS))
                // Half past eleven at night, when it is still the day before in Greenwich or not.
                .at(14.5 * 3600, again(1, Span.DAYS))
                .record());
    assertEquals(
        List.of("20260303", "20260316", "20270302", "20260303"),
        events.stream().map(event -> event.getStartDate().getValue()).toList());
    for (VEvent event : events) {
      assertEquals("DATE", event.getStartDate().getParameter("VALUE").getValue());
    }
    assertEquals(
        "Look again: outlet nuts (Hollowbrook 30, orchard tractor)",
        events
            .get(0)
            .getSummary()
            .getValue()
            .replaceAll("\\(.*", "(Hollowbrook 30, orchard tractor)"));
  }

  @Test
  void hoursAreAMoment() throws Exception {
    assertEquals(
        "20260304T080000Z",
        events(new Told().at(0, again(48, Span.HOURS)).record()).get(0).getStartDate().getValue());
  }

  @Test
  void theDayIsThatOfTheShopAlsoBeforeMidnight() throws Exception {
    // 00:30 on the third in Oslo, 23:30 on the second in Greenwich.
    assertEquals(
        "20260304",
        events(new Told().at(15.5 * 3600, again(1, Span.DAYS)).record())
            .get(0)
            .getStartDate()
            .getValue());
  }

  @Test
  void aWithdrawnOneIsGoneAndAnUnconfirmedOneSaysSo() throws Exception {
    List<VEvent> events =
        events(
            new Told()
                .at(0, again(1, Span.DAYS))
                .at(10, new Statement.Undone(Told.id(2)))
                .unsure(20, new LookAgain(3, Span.DAYS, null, true))
                .record());
    assertEquals(1, events.size());
    String summary = events.get(0).getSummary().getValue();
    assertTrue(summary.startsWith("Look again: level ("), summary);
    assertTrue(summary.endsWith(" [not confirmed]"), summary);
  }

  @Test
  void writtenTwiceItIsTheSameEvent() throws Exception {
    JobRecord job = new Told().at(0, again(1, Span.DAYS)).at(1, again(1, Span.DAYS)).record();
    List<VEvent> events = events(job);
    assertEquals(Export.calendar(job).text(), Export.calendar(job).text());
    assertEquals(2, events.stream().map(event -> event.getUid().getValue()).distinct().count());
  }

  @Test
  void withNothingToLookAtThereIsNoCalendar() {
    Written written = Export.calendar(new Told().record());
    assertEquals(0, written.parts());
    assertEquals(List.of(ExportText.NOTHING_TO_LOOK_AT), written.notices());
  }

  @Test
  void hostileNamesStayInTheirLines() throws Exception {
    Random random = new Random(SEED);
    for (int round = 0; round < 200; round++) {
      String hostile = HostileText.from(random) + ";,:\\n\nBEGIN:VEVENT";
      JobRecord job = Told.named(hostile).at(0, again(1, Span.DAYS)).record();
      List<VEvent> events = events(job);
      assertEquals(1, events.size(), hostile);
      String shown =
          JobWords.harmless(hostile.replaceAll("[\\r\\n\\t\\u0085\\u2028\\u2029]+", " ")).strip();
      assertEquals(
          "Look again: " + shown + " (" + shown + ")",
          events.get(0).getSummary().getValue(),
          () -> "seed " + SEED);
    }
  }

  @Test
  void linesAreFoldedAndEndWithCrLf() {
    String text = Export.calendar(new Told().at(0, again(1, Span.DAYS)).record()).text();
    for (String line : text.split("\r\n", -1)) {
      assertTrue(line.getBytes(java.nio.charset.StandardCharsets.UTF_8).length <= 77, line);
      assertFalse(line.contains("\n"), line);
    }
  }
}
