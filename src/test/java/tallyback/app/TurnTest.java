package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import org.junit.jupiter.api.Test;

class TurnTest {

  private static final Instant NINE = Instant.parse("2026-03-02T09:00:00Z");

  private final Turn turn = new Turn();

  @Test
  void withoutTheWordItIsNobodysTurn() {
    assertFalse(turn.wouldTakeUp(NINE));
    assertFalse(turn.mayAnswer(NINE));
  }

  @Test
  void whatBeginsWithinThreeSecondsFollowsTheWord() {
    turn.called(NINE);
    assertTrue(turn.wouldTakeUp(NINE.plusMillis(3000)));
  }

  @Test
  void whatBeginsLaterDoesNot() {
    turn.called(NINE);
    assertFalse(turn.wouldTakeUp(NINE.plusMillis(3001)));
  }

  @Test
  void theWordCountsForOneUtterance() {
    turn.called(NINE);
    turn.over();
    assertFalse(turn.wouldTakeUp(NINE.plusMillis(1000)));
  }

  @Test
  void whatWasRecordedBeforeDoesNotFollow() {
    turn.called(NINE);
    assertFalse(turn.wouldTakeUp(NINE.minusMillis(1)));
  }

  @Test
  void aQuestionMayBeAnsweredForFifteenSecondsMoreThanOnce() {
    turn.asked(NINE);
    assertTrue(turn.mayAnswer(NINE.plusSeconds(10)));
    assertTrue(turn.mayAnswer(NINE.plusSeconds(15)));
    assertFalse(turn.mayAnswer(NINE.plusMillis(15_001)));
  }
}
