package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import tallyback.app.CameraClock.Fit;
import tallyback.app.CameraClock.Mark;
import tallyback.app.CameraClock.Shot;

/** By how much a camera's clock was off, from what was said and what it wrote. */
class CameraClockTest {

  private static final Instant NINE = Instant.parse("2026-03-02T09:00:00Z");

  private static Mark mark(int number, int secondsAfterNine) {
    return new Mark(number, "", NINE.plusSeconds(secondsAfterNine));
  }

  private static Shot shot(String name, int secondsAfterNine) {
    return new Shot(name, NINE.plusSeconds(secondsAfterNine));
  }

  @Test
  void aPhotoBelongsToTheNearestMarkWithinAMinute() {
    List<Mark> marks = List.of(mark(1, 0), mark(2, 600));
    assertEquals(Optional.of(marks.get(0)), CameraClock.belongsTo(NINE.plusSeconds(60), marks));
    assertEquals(Optional.of(marks.get(1)), CameraClock.belongsTo(NINE.plusSeconds(540), marks));
    assertEquals(Optional.empty(), CameraClock.belongsTo(NINE.plusSeconds(61), marks));
    assertEquals(Optional.empty(), CameraClock.belongsTo(NINE, List.of()));
  }

  @Test
  void aPhotoBetweenTwoMarksBelongsToNeither() {
    List<Mark> marks = List.of(mark(1, 0), mark(2, 60));
    assertEquals(Optional.empty(), CameraClock.belongsTo(NINE.plusSeconds(30), marks));
    assertEquals(Optional.empty(), CameraClock.belongsTo(NINE.plusSeconds(21), marks));
    assertEquals(Optional.of(marks.get(0)), CameraClock.belongsTo(NINE.plusSeconds(20), marks));
    assertEquals(
        Optional.empty(),
        CameraClock.belongsTo(NINE, List.of(mark(1, 0), mark(2, 0))),
        "two marks at one time");
  }

  @Test
  void whatFitsIsSaidForEachMark() {
    Fit fit =
        CameraClock.fit(
            List.of(mark(2, 600), mark(1, 0), mark(3, 1200)),
            List.of(shot("a", 3590), shot("b", 3602), shot("c", 4250)),
            Duration.ofHours(-1));
    assertEquals(2, fit.matched());
    assertEquals(List.of(1, 2, 3), fit.pairs().stream().map(pair -> pair.mark().number()).toList());
    assertEquals(Duration.ofSeconds(2), fit.pairs().get(0).after(), "b is nearer than a");
    assertEquals(Duration.ofSeconds(50), fit.pairs().get(1).after());
  }

  @Test
  void oneMarkAloneProposesNothing() {
    assertEquals(List.of(), CameraClock.proposals(List.of(mark(1, 0)), List.of(shot("a", 3600))));
    assertEquals(List.of(), CameraClock.proposals(List.of(), List.of(shot("a", 3600))));
    assertEquals(List.of(), CameraClock.proposals(List.of(mark(1, 0), mark(2, 9)), List.of()));
  }

  @Test
  void whatFitsAlikeIsProposedAlikeTheSmallestFirst() {
    List<Fit> fits =
        CameraClock.proposals(
            List.of(mark(1, 0), mark(2, 600)),
            List.of(shot("a", 1000), shot("b", 1600), shot("c", 9000), shot("d", 9600)));
    assertEquals(
        List.of(Duration.ofSeconds(-1000), Duration.ofSeconds(-9000)),
        fits.stream().map(Fit::offset).toList());
  }

  /** Marks some seconds beside their photos, other photos in between, the clock off by anything. */
  @Test
  void theRightOffsetIsFound() {
    long seed = 20261127;
    Random chance = new Random(seed);
    for (int job = 0; job < 300; job++) {
      Duration wrong = Duration.ofSeconds(chance.nextInt(200_000_000) - 100_000_000);
      List<Mark> marks = new ArrayList<>();
      List<Shot> shots = new ArrayList<>();
      int seconds = 0;
      int count = 5 + chance.nextInt(10);
      for (int i = 1; i <= count; i++) {
        seconds += 150 + chance.nextInt(3000);
        marks.add(mark(i, seconds));
        shots.add(
            new Shot("m" + i, NINE.plusSeconds(seconds + chance.nextInt(20) - 10L).minus(wrong)));
      }
      for (int i = 0; i < 10; i++) {
        shots.add(new Shot("x" + i, NINE.plusSeconds(chance.nextInt(seconds)).minus(wrong)));
      }
      Duration found = CameraClock.proposals(marks, shots).get(0).offset();
      assertTrue(
          found.minus(wrong).abs().toSeconds() <= 45,
          "seed " + seed + " job " + job + ": " + found + " for " + wrong);
    }
  }

  @Test
  void offsetsAreWrittenAsTheyAreRead() {
    for (String text : List.of("0", "+1h2m3s", "-45s", "+400d1s", "-1d23h59m59s")) {
      assertEquals(text, Offset.text(Offset.read(text).orElseThrow()));
    }
    assertEquals(Optional.of(Duration.ofMinutes(90)), Offset.read("90m"));
    assertEquals(Optional.of(Duration.ofHours(-1)), Offset.read("\u22121h"));
    for (String text : List.of("", "+", "-", "h", "1", "1x", "1h-2m", "1:02:03", "+ 1h")) {
      assertEquals(Optional.empty(), Offset.read(text), text);
    }
  }
}
