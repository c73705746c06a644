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
  void aClockThatIsSetIsFollowedAtOnceHoweverFastTheTripsWereBefore() {
    PageClock clock = new PageClock(0, 0);
    assertEquals(0, clock.measured(0, 0, 2));
    assertEquals(3600_004, clock.measured(1000, 1000.0 - 3600_000, 1010));
    assertEquals(3600_005, clock.offsetMs());
    assertEquals(-3600_005, clock.measured(2000, 2005, 2010));
    assertEquals(0, clock.offsetMs());
  }

  @Test
  void aSlowTripIsNoClockThatWasSet() {
    PageClock clock = new PageClock(0, 0);
    clock.measured(1000, 1001, 1002);
    assertEquals(0, clock.measured(2000, 2001, 8000));
    assertEquals(0, clock.offsetMs());
  }

  @Test
  void aTripDuringWhichTheClockWasSetBackIsNotTakenForAFastOne() {
    PageClock clock = new PageClock(0, 0);
    clock.measured(1000, 1001, 1002);
    clock.measured(2000, 2001, 2000 - 600_000);
    clock.measured(5000 - 600_000, 5002, 5004 - 600_000);
    assertEquals(-600_000, clock.offsetMs());
  }
}
