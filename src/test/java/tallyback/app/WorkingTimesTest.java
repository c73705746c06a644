package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.app.WorkingTimes.Stretch;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.About;
import tallyback.model.Statement.FindingAnswered;
import tallyback.model.Statement.FindingEnd;
import tallyback.model.Statement.JobClosed;
import tallyback.model.Statement.LeftForNight;
import tallyback.model.Statement.Memo;
import tallyback.model.Statement.Retimed;
import tallyback.model.Statement.VisitBegun;
import tallyback.model.Statement.Written;

/** When somebody was at work, by what was told. */
class WorkingTimesTest {

  private final List<Entry> entries = new ArrayList<>();

  private static Instant at(String time) {
    return Instant.parse("2026-03-" + time + ":00Z");
  }

  private void told(String time, Statement statement) {
    int seq = entries.size() + 1;
    entries.add(
        new Entry(
            "e" + seq,
            "j",
            seq,
            at(time),
            at(time),
            ZoneOffset.UTC,
            "anna",
            "bench",
            Source.TYPED,
            Certainty.CONFIRMED,
            "",
            null,
            statement));
  }

  private List<Stretch> stretches() {
    return WorkingTimes.of(entries).stretches();
  }

  @Test
  void aNightAndALongSilenceAreNoWork() {
    told("02T09:00", new Memo());
    told("02T12:59", new Memo());
    told("02T15:00", new LeftForNight());
    told("02T18:00", new Memo());
    told("03T08:00", new Memo());
    assertEquals(
        List.of(
            new Stretch(at("02T09:00"), at("02T15:00")),
            new Stretch(at("02T18:00"), at("02T18:00")),
            new Stretch(at("03T08:00"), at("03T08:00"))),
        stretches());
  }

  @Test
  void whatIsTypedInTheOfficeLaterIsNoWork() {
    told("02T09:00", new Memo());
    told("02T10:00", new Memo());
    told("05T11:00", new JobClosed());
    told("09T08:00", new VisitBegun("photos"));
    told("09T08:01", new Written(About.OWNER, "Somebody Invented"));
    told(
        "09T19:00",
        new FindingAnswered(
            "problem-open e1", "worn", FindingEnd.ACCEPTED, "Orrin Vale", "his wish", null));
    assertEquals(List.of(new Stretch(at("02T09:00"), at("02T10:00"))), stretches());
  }

  @Test
  void anEntryCountsWhereItWasMovedTo() {
    told("02T09:00", new Memo());
    told("02T09:10", new Memo());
    told("02T09:11", new Retimed("e1", at("02T08:00")));
    assertEquals(List.of(new Stretch(at("02T08:00"), at("02T09:10"))), stretches());
  }

  @Test
  void theMarginHoldsOnBothSides() {
    told("02T09:00", new Memo());
    told("02T10:00", new Memo());
    WorkingTimes times = WorkingTimes.of(entries);
    Duration ten = Duration.ofMinutes(10);
    assertTrue(times.hold(at("02T08:50"), ten));
    assertTrue(times.hold(at("02T10:10"), ten));
    assertFalse(times.hold(at("02T08:49"), ten));
    assertFalse(times.hold(at("02T10:11"), ten));
    assertFalse(new WorkingTimes(List.of()).hold(at("02T09:00"), ten));
  }
}
