package tallyback.report;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;

/**
 * Places times along a line from 0 to 100 percent. Long stretches without any entry, such as a
 * night, are folded to a narrow gap, so that the hours of work stay readable. Floating point is
 * good enough here: it only places marks on paper.
 */
final class TimeScale {

  private static final Duration FOLDED_FROM = Duration.ofHours(3);
  private static final double EDGE_PERCENT = 1.5;
  private static final double FOLD_PERCENT = 3;
  private static final int MOST_MARKS = 6;
  private static final List<Integer> MARK_STEPS_MINUTES =
      List.of(5, 10, 15, 30, 60, 120, 180, 360, 720);

  /** A stretch of time without a fold in it. */
  private record Stretch(Instant from, Instant to, double fromPercent, double toPercent) {}

  /** A mark on the time line. */
  record Mark(double percent, String label) {}

  /** Where time was folded. */
  record Fold(double fromPercent, double toPercent) {}

  private final List<Stretch> stretches;
  private final ZoneId zone;

  private TimeScale(List<Stretch> stretches, ZoneId zone) {
    this.stretches = stretches;
    this.zone = zone;
  }

  /** A scale that shows all of these times. */
  static TimeScale over(Collection<Instant> times, ZoneId zone) {
    return new TimeScale(spread(worked(times)), zone);
  }

  /** A stretch in which something was told at least every few hours. */
  record Worked(Instant from, Instant to) {}

  /** The stretches between long silences such as nights, in order, each at least a minute long. */
  static List<Worked> worked(Collection<Instant> times) {
    List<Worked> worked = new ArrayList<>();
    for (Instant each : times.stream().distinct().sorted().toList()) {
      Worked last = worked.isEmpty() ? null : worked.get(worked.size() - 1);
      if (last == null || Duration.between(last.to(), each).compareTo(FOLDED_FROM) > 0) {
        worked.add(new Worked(each, each.plusSeconds(60)));
      } else if (each.isAfter(last.to())) {
        worked.set(worked.size() - 1, new Worked(last.from(), each));
      }
    }
    return worked;
  }

  private static List<Stretch> spread(List<Worked> worked) {
    double totalSeconds = 0;
    for (Worked each : worked) {
      totalSeconds += seconds(each.from(), each.to());
    }
    double perSecond =
        (100 - 2 * EDGE_PERCENT - FOLD_PERCENT * (worked.size() - 1)) / Math.max(1, totalSeconds);
    List<Stretch> stretches = new ArrayList<>();
    double at = EDGE_PERCENT;
    for (Worked each : worked) {
      double to = at + seconds(each.from(), each.to()) * perSecond;
      stretches.add(new Stretch(each.from(), each.to(), at, to));
      at = to + FOLD_PERCENT;
    }
    return stretches;
  }

  private static double seconds(Instant from, Instant to) {
    return Math.max(1, Duration.between(from, to).toSeconds());
  }

  /** Where this time is, in percent; times outside the scale stand at its ends. */
  double percent(Instant time) {
    for (Stretch stretch : stretches) {
      if (!time.isAfter(stretch.to())) {
        if (time.isBefore(stretch.from())) {
          return stretch.fromPercent();
        }
        double share = seconds(stretch.from(), time) / seconds(stretch.from(), stretch.to());
        return time.equals(stretch.from())
            ? stretch.fromPercent()
            : stretch.fromPercent() + share * (stretch.toPercent() - stretch.fromPercent());
      }
    }
    return stretches.isEmpty() ? EDGE_PERCENT : stretches.get(stretches.size() - 1).toPercent();
  }

  /** The last time shown. */
  Instant end() {
    return stretches.get(stretches.size() - 1).to();
  }

  /** Round times of the day, few enough to stand beside each other on a narrow screen. */
  List<Mark> marks() {
    List<Mark> best = List.of();
    for (int index = MARK_STEPS_MINUTES.size() - 1; index >= 0; index--) {
      List<Mark> marks = marks(MARK_STEPS_MINUTES.get(index));
      if (marks.size() <= MOST_MARKS) {
        best = marks;
      }
    }
    return best;
  }

  private List<Mark> marks(int stepMinutes) {
    List<Mark> marks = new ArrayList<>();
    for (Stretch stretch : stretches) {
      ZonedDateTime from = stretch.from().atZone(zone);
      ZonedDateTime mark = from.truncatedTo(ChronoUnit.DAYS);
      while (!mark.toInstant().isAfter(stretch.to())) {
        if (!mark.toInstant().isBefore(stretch.from())) {
          marks.add(new Mark(percent(mark.toInstant()), ShopTime.clock(mark.toInstant(), zone)));
        }
        mark = mark.plusMinutes(stepMinutes);
      }
    }
    return marks;
  }

  /** The folds, with the day on which work went on after each. */
  List<Fold> folds() {
    List<Fold> folds = new ArrayList<>();
    for (int index = 1; index < stretches.size(); index++) {
      folds.add(new Fold(stretches.get(index - 1).toPercent(), stretches.get(index).fromPercent()));
    }
    return folds;
  }
}
