package tallyback.web;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class PageClockTest {

  @Test
  void theFastestTripTells() {
    PageClock clock = new PageClock(1000, 61_300);
    assertEquals(60_300, clock.offsetMs());
    clock.measured(70_000, 10_010, 70_020);
    clock.measured(71_000, 11_900, 72_000);
    assertEquals(60_000, clock.offsetMs());
  }

  @Test
  void aClockThatIsSetIsFollowed() {
    PageClock clock = new PageClock(0, 0);
    clock.measured(0, 0, 2);
    for (int i = 1; i <= 12; i++) {
      clock.measured(1000L * i, 1000.0 * i - 3600_000, 1000L * i + 10);
    }
    assertEquals(3600_005, clock.offsetMs());
  }
}
