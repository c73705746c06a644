package tallyback.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class TimeScaleTest {

  private static final ZoneId ZONE = ZoneId.of("Europe/Oslo");
  private static final Instant NINE = Instant.parse("2026-03-02T08:00:00Z");

  @Test
  void marksAreRoundTimesOfTheShop() {
    TimeScale scale =
        TimeScale.over(
            List.of(NINE, NINE.plus(Duration.ofMinutes(45)), NINE.plus(Duration.ofMinutes(100))),
            ZONE);
    assertEquals(
        List.of("09:00", "09:30", "10:00", "10:30"),
        scale.marks().stream().map(TimeScale.Mark::label).toList());
  }

  @Test
  void aNightIsFolded() {
    TimeScale scale =
        TimeScale.over(
            List.of(
                NINE,
                NINE.plus(Duration.ofHours(2)),
                NINE.plus(Duration.ofHours(23)),
                NINE.plus(Duration.ofHours(25))),
            ZONE);
    assertEquals(1, scale.folds().size());
    double night =
        scale.percent(NINE.plus(Duration.ofHours(23)))
            - scale.percent(NINE.plus(Duration.ofHours(2)));
    double work = scale.percent(NINE.plus(Duration.ofHours(2))) - scale.percent(NINE);
    assertTrue(night < work / 10, () -> night + " against " + work);
  }

  @Test
  void oneInstantIsAScaleToo() {
    TimeScale scale = TimeScale.over(List.of(NINE), ZONE);
    assertTrue(scale.percent(NINE) >= 0 && scale.percent(NINE) <= 100);
  }

  @Test
  void laterNeverStandsLeftOfEarlierAndNothingLeavesThePicture() {
    long seed = 20260306;
    System.out.println("TimeScaleTest seed " + seed);
    Random random = new Random(seed);
    for (int round = 0; round < 500; round++) {
      List<Instant> times = new ArrayList<>();
      Instant time = NINE;
      for (int each = 1 + random.nextInt(20); each > 0; each--) {
        times.add(time);
        time = time.plusSeconds(random.nextInt(random.nextInt(5) == 0 ? 100_000 : 2_000));
      }
      TimeScale scale = TimeScale.over(times, ZONE);
      double last = 0;
      for (Instant each : times) {
        double at = scale.percent(each);
        assertTrue(at >= last - 1e-9 && at <= 100, () -> at + " for " + times);
        last = at;
      }
      assertTrue(scale.marks().size() <= 6);
    }
  }

  @Test
  void durationsReadLikeASheetOfPaper() {
    assertEquals("under 1 min", ShopTime.took(Duration.ofSeconds(20)));
    assertEquals("12 min", ShopTime.took(Duration.ofMinutes(12)));
    assertEquals("1 h 05 min", ShopTime.took(Duration.ofMinutes(65)));
  }
}
