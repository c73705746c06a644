package tallyback.planning;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import tallyback.reconcile.TearDown.Taken;

class TearDownOrderTest {

  private static Taken taken(String id, int off, @Nullable Integer on) {
    return new Taken(id, List.of(id), false, off, on);
  }

  private static List<List<Integer>> needs(List<Taken> taken) {
    TearDownOrder order = new TearDownOrder(taken);
    return IntStream.range(0, taken.size()).mapToObj(order::of).toList();
  }

  /**
   * Worked by hand. Off in this order: guard, belt, fan, pump. Nothing is back yet, so the only
   * hint is that each came off after the one before, and may have been behind it: the pump goes on
   * first and needs nothing; the fan needs the pump; the belt needs the fan, and with it the pump,
   * which needs no line of its own; the guard needs the belt.
   */
  @Test
  void whileNothingIsBackEachNeedsTheOneThatCameOffAfterIt() {
    assertEquals(
        List.of(List.of(1), List.of(2), List.of(3), List.of()),
        needs(
            List.of(
                taken("guard", 1, null),
                taken("belt", 2, null),
                taken("fan", 3, null),
                taken("pump", 4, null))));
  }

  /**
   * Worked by hand. Off: guard (1), belt (2), tank (3), pump (4). Back: pump (11), belt (12), tank
   * (13), guard (14). In reverse the tank should have gone on before the belt; it went on after it,
   * so the belt does not need the tank. Both need the pump: it came off after them and went on
   * before them. The guard came off first and went on last, so it needs all three; the pump follows
   * from the belt (and from the tank), so the guard's own needs are belt and tank.
   */
  @Test
  void whatWentBackBeforeWhatCameOffLaterDoesNotNeedIt() {
    assertEquals(
        List.of(List.of(1, 2), List.of(3), List.of(3), List.of()),
        needs(
            List.of(
                taken("guard", 1, 14),
                taken("belt", 2, 12),
                taken("tank", 3, 13),
                taken("pump", 4, 11))));
  }

  /** Off: guard, belt. The belt is still off and the guard is on: so it was in nobody's way. */
  @Test
  void whatIsOnWhileTheOtherIsOffDoesNotNeedIt() {
    assertEquals(
        List.of(List.of(), List.of()),
        needs(List.of(taken("guard", 1, 11), taken("belt", 2, null))));
  }
}
