package tallyback.export;

import biweekly.Biweekly;
import biweekly.ICalendar;
import biweekly.component.VEvent;
import biweekly.property.Classification;
import biweekly.property.Transparency;
import biweekly.util.DateTimeComponents;
import biweekly.util.ICalDate;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Date;
import java.util.List;
import java.util.UUID;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Statement.LookAgain;
import tallyback.model.Statement.Span;
import tallyback.reconcile.Outcome.Answered;
import tallyback.report.JobRecord;
import tallyback.report.JobWords;

/**
 * What is to be looked at again as events of a calendar (RFC 5545): hours give a moment, days,
 * weeks and months a whole day of the shop's calendar. An event has the same identity each time it
 * is written, so that importing it again makes no second one. One that is not confirmed is there
 * too and says so: looking in vain harms nobody.
 */
final class LookAgainCalendar {

  private LookAgainCalendar() {}

  static Written of(JobRecord job) {
    ICalendar calendar = new ICalendar();
    calendar.setProductId(ExportText.CALENDAR_ID);
    JobWords words = JobWords.of(job);
    int events = 0;
    for (Entry entry : job.outcome().standing()) {
      if (entry.statement() instanceof LookAgain again) {
        calendar.addEvent(event(job, words, entry, again));
        events++;
      }
    }
    for (Answered answered : job.outcome().answers()) {
      LocalDate day = answered.answer().again();
      if (day != null && answered.holds()) {
        calendar.addEvent(event(job, words, answered, day));
        events++;
      }
    }
    return events == 0
        ? new Written("", 0, List.of(ExportText.NOTHING_TO_LOOK_AT))
        : new Written(Biweekly.write(calendar).go(), events, List.of());
  }

  private static VEvent event(JobRecord job, JobWords words, Entry entry, LookAgain again) {
    VEvent event = event(entry);
    if (again.span() == Span.HOURS) {
      event.setDateStart(Date.from(entry.happenedAt().plus(again.count(), ChronoUnit.HOURS)), true);
    } else {
      event.setDateStart(date(again.dueOn(entry.happenedAt(), entry.zone())));
    }
    String what =
        (again.level()
            ? "level"
            : again.subject() == null ? "" : job.plan().label(again.subject()));
    String machine = job.plan().machine().name();
    event.setSummary(
        line(ExportText.lookAgain(what.isEmpty() ? job.plan().name() : what, machine))
            + (entry.confirmed() ? "" : " [" + ExportText.NOT_CONFIRMED + "]"));
    describe(event, job, words, entry);
    return event;
  }

  /** A finding that is to be looked at again, answered or not. */
  private static VEvent event(JobRecord job, JobWords words, Answered answered, LocalDate day) {
    VEvent event = event(answered.entry());
    event.setDateStart(date(day));
    Finding finding = answered.finding();
    event.setSummary(
        line(
            ExportText.lookAgain(
                finding == null ? job.plan().name() : finding.subject(),
                job.plan().machine().name())));
    describe(event, job, words, answered.entry());
    return event;
  }

  private static VEvent event(Entry entry) {
    VEvent event = new VEvent();
    String identity = entry.job() + "\n" + entry.id();
    event.setUid(UUID.nameUUIDFromBytes(identity.getBytes(StandardCharsets.UTF_8)).toString());
    event.setDateTimeStamp(Date.from(entry.recordedAt()));
    event.setTransparency(Transparency.transparent());
    event.setClassification(Classification.private_());
    return event;
  }

  private static void describe(VEvent event, JobRecord job, JobWords words, Entry entry) {
    event.setDescription(
        JobWords.harmless(
            ExportText.lookAgainBecause(
                line(entry.words()),
                line(job.plan().label(entry.actor())),
                words.dayAndClock(entry),
                line(entry.job()),
                line(words.title()))));
  }

  private static ICalDate date(LocalDate day) {
    return new ICalDate(
        new DateTimeComponents(day.getYear(), day.getMonthValue(), day.getDayOfMonth()), false);
  }

  private static String line(String text) {
    return Line.of(text).strip();
  }
}
