package tallyback.speech.adapt;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class BudgetTest {

  private static final long SECOND = 1_000_000_000L;

  @Test
  void savedWorkIsDoneAtHalfACore() {
    Budget budget = new Budget(0.2, 10 * SECOND);
    assertEquals(SECOND, budget.restNanos(SECOND, SECOND));
    assertEquals(SECOND, budget.restNanos(2 * SECOND, SECOND));
  }

  @Test
  void inTheLongRunItIsTheShare() {
    Budget budget = new Budget(0.2, 10 * SECOND);
    long time = 0;
    long worked = 0;
    long rest = 0;
    while (time < 3600 * SECOND) {
      rest = budget.restNanos(rest + SECOND / 20, SECOND / 20);
      worked += SECOND / 20;
      time += rest + SECOND / 20;
    }

    double share = (double) worked / time;
    assertTrue(share > 0.19 && share < 0.2 + 10.0 / 3600 + 0.001, Double.toString(share));
  }

  @Test
  void noMoreIsSavedThanTheMost() {
    Budget budget = new Budget(0.2, 2 * SECOND);
    assertEquals(0, budget.restNanos(1000 * SECOND, 0));
    assertEquals(5 * SECOND, budget.restNanos(0, 3 * SECOND));
  }
}
