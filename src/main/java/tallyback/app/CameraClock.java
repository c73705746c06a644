package tallyback.app;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * By how much a camera's clock was off, from photo marks of a job and the times in photos. Nothing
 * here decides: it says what would fit, and how well.
 */
public final class CameraClock {

  /**
   * So far apart a photo and its mark may be: tool down, phone out, glove off. A choice of our own.
   */
  public static final Duration NEAR = Duration.ofSeconds(60);

  /** More pairs of a mark and a photo take too long to be compared. */
  private static final int MOST_PAIRS = 4_000_000;

  private static final int MOST_PROPOSALS = 3;

  private CameraClock() {}

  /**
   * A photo mark that stands in a job.
   *
   * @param number which photo
   * @param of what it was said to be of; empty when that wasn't said
   * @param at when it was said
   */
  public record Mark(int number, String of, Instant at) {}

  /**
   * A photo.
   *
   * @param name its name
   * @param at when it was taken by the camera's clock
   */
  public record Shot(String name, Instant at) {}

  /**
   * A mark and the photo that belongs to it.
   *
   * @param mark the mark
   * @param shot the nearest photo that belongs to it, or null when none does
   * @param after how long after the mark that was taken, negative before it; null without one
   */
  public record Pair(Mark mark, @Nullable Shot shot, @Nullable Duration after) {}

  /**
   * How marks and photos stand to each other when the clock is put right by this.
   *
   * @param offset what is added to the camera's times
   * @param pairs one for each mark, by when they were said
   */
  public record Fit(Duration offset, List<Pair> pairs) {

    /** Copies the list. */
    public Fit {
      pairs = List.copyOf(pairs);
    }

    /** How many marks have a photo. */
    public long matched() {
      return pairs.stream().filter(pair -> pair.shot() != null).count();
    }
  }

  /** How the marks fit when this is added to the camera's times. */
  public static Fit fit(List<Mark> marks, List<Shot> shots, Duration offset) {
    Map<Integer, Pair> nearest = new HashMap<>();
    for (Shot shot : shots) {
      Instant at = shot.at().plus(offset);
      belongsTo(at, marks)
          .ifPresent(
              mark ->
                  nearest.merge(
                      mark.number(),
                      new Pair(mark, shot, Duration.between(mark.at(), at)),
                      CameraClock::nearer));
    }
    return new Fit(
        offset,
        marks.stream()
            .sorted(Comparator.comparing(Mark::at))
            .map(mark -> nearest.getOrDefault(mark.number(), new Pair(mark, null, null)))
            .toList());
  }

  private static Pair nearer(Pair one, Pair other) {
    Duration first = one.after();
    Duration second = other.after();
    return second != null && (first == null || second.abs().compareTo(first.abs()) < 0)
        ? other
        : one;
  }

  /**
   * The mark that a photo belongs to: the nearest within {@link #NEAR}, unless another is hardly
   * farther, less than twice as far; then nobody can tell which.
   *
   * @param at when the photo was taken, by the clock put right
   */
  public static Optional<Mark> belongsTo(Instant at, List<Mark> marks) {
    Mark first = null;
    Duration least = NEAR;
    Duration second = null;
    for (Mark mark : marks) {
      Duration apart = Duration.between(mark.at(), at).abs();
      if (apart.compareTo(NEAR) > 0) {
        continue;
      }
      if (first == null || apart.compareTo(least) < 0) {
        second = first == null ? null : least;
        first = mark;
        least = apart;
      } else if (second == null || apart.compareTo(second) < 0) {
        second = apart;
      }
    }
    boolean doubtful =
        second != null && (second.equals(least) || second.compareTo(least.multipliedBy(2)) < 0);
    return doubtful ? Optional.empty() : Optional.ofNullable(first);
  }

  /**
   * What fits best, the best first: of offsets under which as many marks have a photo, up to three,
   * the smallest first. Empty when no two marks fit together, since any photo fits a single mark.
   */
  public static List<Fit> proposals(List<Mark> marks, List<Shot> shots) {
    if (marks.size() < 2 || (long) marks.size() * shots.size() > MOST_PAIRS) {
      return List.of();
    }
    List<Fit> found = new ArrayList<>();
    for (Duration offset : offsets(marks, shots)) {
      Fit fit = fit(marks, shots, offset);
      if (fit.matched() >= 2) {
        found.add(fit);
      }
    }
    found.sort(
        Comparator.comparingLong(Fit::matched).reversed().thenComparing(fit -> fit.offset().abs()));
    List<Fit> best = new ArrayList<>();
    for (Fit fit : found) {
      boolean asGood = best.isEmpty() || fit.matched() == best.get(0).matched();
      boolean another =
          best.stream()
              .allMatch(other -> other.offset().minus(fit.offset()).abs().compareTo(NEAR) > 0);
      if (asGood && another && best.size() < MOST_PROPOSALS) {
        best.add(fit);
      }
    }
    return best;
  }

  /**
   * Each pair of a mark and a photo says an offset; where many marks say nearly the same, there may
   * be the right one.
   */
  private static List<Duration> offsets(List<Mark> marks, List<Shot> shots) {
    Map<Integer, Integer> inWindow = new HashMap<>();
    record Said(long offsetMs, int mark) {}
    List<Said> all = new ArrayList<>(marks.size() * shots.size());
    for (int mark = 0; mark < marks.size(); mark++) {
      for (Shot shot : shots) {
        all.add(new Said(Duration.between(shot.at(), marks.get(mark).at()).toMillis(), mark));
      }
    }
    all.sort(Comparator.comparingLong(Said::offsetMs));
    int most = 2;
    List<long[]> windows = new ArrayList<>();
    int first = 0;
    for (int last = 0; last < all.size(); last++) {
      inWindow.merge(all.get(last).mark(), 1, Integer::sum);
      while (all.get(last).offsetMs() - all.get(first).offsetMs() > NEAR.toMillis()) {
        inWindow.computeIfPresent(
            all.get(first).mark(), (mark, count) -> count == 1 ? null : count - 1);
        first++;
      }
      if (inWindow.size() > most) {
        most = inWindow.size();
        windows.clear();
      }
      if (inWindow.size() == most) {
        keep(windows, first, last);
      }
    }
    List<Duration> offsets = new ArrayList<>();
    for (long[] window : windows) {
      long[] ms = new long[(int) (window[1] - window[0] + 1)];
      for (int i = 0; i < ms.length; i++) {
        ms[i] = all.get((int) window[0] + i).offsetMs();
      }
      Arrays.sort(ms);
      long middle = (ms[(ms.length - 1) / 2] + ms[ms.length / 2]) / 2;
      offsets.add(Duration.ofSeconds(Math.round(middle / 1000.0)));
    }
    return offsets;
  }

  /** Of windows one beside the other the first is enough; there are never many. */
  private static void keep(List<long[]> windows, int first, int last) {
    boolean joins = !windows.isEmpty() && windows.get(windows.size() - 1)[1] >= first;
    if (!joins && windows.size() < 1000) {
      windows.add(new long[] {first, last});
    }
  }
}
