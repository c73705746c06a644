package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.speech.Clearness;

class NoiseWatchTest {

  private static final Instant NINE = Instant.parse("2026-03-02T09:00:00Z");
  private static final List<Double> SPEECH = Collections.nCopies(20, -30.0);
  private static final double CLEAR = 0.99;
  private static final double BETWEEN = (NoiseWatch.ENTER + NoiseWatch.LEAVE) / 2;
  private static final double UNCLEAR = NoiseWatch.ENTER - 0.01;
  private static final double QUIET_DB = -80;
  private static final double LOUD_DB = -31;

  private final NoiseWatch watch = new NoiseWatch();

  private boolean takes(double clearness) {
    return watch.takes(clearness, SPEECH);
  }

  /** The room stays as it is from one second to another, both after nine. */
  private void room(double db, int from, int to) {
    for (int ms = from * 1000; ms <= to * 1000; ms += 100) {
      watch.room(NINE.plusMillis(ms), Collections.nCopies(20, db));
    }
  }

  @Test
  void itIsQuietUntilItIsKnownNotToBe() {
    assertEquals(Noisiness.QUIET, watch.state());
    watch.room(NINE, List.of());
    assertEquals(Noisiness.QUIET, watch.state());
  }

  @Test
  void anUtteranceThatIsNotClearIsRefusedAtOnce() {
    assertTrue(takes(BETWEEN));
    assertFalse(takes(UNCLEAR));
    assertEquals(Noisiness.TOO_NOISY, watch.state());
  }

  @Test
  void fromThenOnMoreIsAskedOfTheNext() {
    takes(UNCLEAR);
    assertFalse(takes(BETWEEN));
    assertTrue(takes(NoiseWatch.LEAVE));
  }

  @Test
  void inARecordingAClearUtteranceEndsIt() {
    takes(UNCLEAR);
    takes(CLEAR);
    assertEquals(Noisiness.QUIET, watch.state());
    assertTrue(takes(BETWEEN));
  }

  @Test
  void inALiveRoomOnlyTheRoomDoes() {
    takes(CLEAR);
    room(LOUD_DB, 0, 3);
    assertEquals(Noisiness.TOO_NOISY, watch.state());
    assertTrue(takes(CLEAR), "whoever comes close is heard");
    assertEquals(Noisiness.TOO_NOISY, watch.state());
  }

  @Test
  void aRoomThatIsLoudForAMomentIsNotTooNoisy() {
    takes(CLEAR);
    room(LOUD_DB, 0, 1);
    room(QUIET_DB, 2, 3);
    room(LOUD_DB, 4, 5);
    assertFalse(watch.state() == Noisiness.TOO_NOISY);
    room(LOUD_DB, 5, 6);
    assertEquals(Noisiness.TOO_NOISY, watch.state());
  }

  @Test
  void itIsQuietAgainAfterThreeSecondsOfQuiet() {
    takes(CLEAR);
    room(LOUD_DB, 0, 3);
    room(QUIET_DB, 4, 6);
    assertEquals(Noisiness.TOO_NOISY, watch.state());
    room(LOUD_DB, 7, 7);
    room(QUIET_DB, 8, 10);
    assertEquals(Noisiness.TOO_NOISY, watch.state(), "it was loud in between");
    room(QUIET_DB, 10, 11);
    assertEquals(Noisiness.QUIET, watch.state());
  }

  @Test
  void aLevelThatSwaysBetweenTheTwoLimitsChangesNothing() {
    takes(CLEAR);
    room(QUIET_DB, 0, 5);
    int changes = 0;
    Noisiness last = watch.state();
    // Sways by one dB either way around the limit at which it becomes too noisy.
    for (int second = 6; second < 200; second++) {
      double prominence = limitDb() + (second % 2 == 0 ? 1 : -1);
      watch.room(NINE.plusSeconds(second), Collections.nCopies(20, -30 - prominence));
      changes += watch.state() == last ? 0 : 1;
      last = watch.state();
    }
    assertTrue(changes <= 1, "changed " + changes + " times");
  }

  @Test
  void untilSomebodySpeaksTheUsualVoiceIsTakenForHis() {
    room(-60, 0, 10);
    assertEquals(Noisiness.QUIET, watch.state());
    room(5, 10, 20);
    assertEquals(Noisiness.TOO_NOISY, watch.state());
  }

  private static double limitDb() {
    double prominence = 0;
    while (Clearness.at(prominence) < NoiseWatch.ENTER) {
      prominence += 0.1;
    }
    return prominence;
  }

  @Test
  void howLoudSomebodySpeaksCounts() {
    watch.takes(CLEAR, Collections.nCopies(20, -1.0));
    room(LOUD_DB, 0, 10);
    assertFalse(watch.state() == Noisiness.TOO_NOISY, "he speaks above it");
  }

  @Test
  void atTheStartItIsNotYetKnownToBeQuiet() {
    assertFalse(watch.isKnownQuiet());
    room(QUIET_DB, 0, 0);
    assertTrue(watch.isKnownQuiet());
  }

  @Test
  void atTheStartOfANoiseItIsNotQuietAnyMore() {
    takes(CLEAR);
    room(QUIET_DB, 0, 5);
    room(LOUD_DB, 6, 6);
    assertEquals(Noisiness.NOISY, watch.state());
    assertFalse(watch.isKnownQuiet());
  }

  @Test
  void whereTheRoomIsNotKnownAClearUtteranceTells() {
    takes(UNCLEAR);
    assertFalse(watch.isKnownQuiet());
    takes(CLEAR);
    assertTrue(watch.isKnownQuiet());
  }
}
