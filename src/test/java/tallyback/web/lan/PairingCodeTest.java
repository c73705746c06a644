package tallyback.web.lan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.Test;
import tallyback.web.lan.PairingCode.Outcome;

/** A code that lets one device in. */
class PairingCodeTest {

  private final AtomicReference<Instant> now =
      new AtomicReference<>(Instant.parse("2026-03-02T09:00:00Z"));

  private final PairingCode code = new PairingCode(now::get);

  private static String other(String digits, int by) {
    return "%08d".formatted((Integer.parseInt(digits) + by) % 100_000_000);
  }

  @Test
  void isGoodOnceHoweverItIsSpaced() {
    String digits = code.renew().digits();
    assertTrue(digits.matches("[0-9]{8}"), digits);
    assertEquals(Outcome.RIGHT, code.say(" " + digits.substring(0, 4) + " " + digits.substring(4)));
    assertEquals(Outcome.NONE, code.say(digits));
  }

  @Test
  void thereIsNoneBeforeSomebodyAsksForIt() {
    assertEquals(Outcome.NONE, code.say("00000000"));
    assertEquals(Outcome.NONE, code.say(""));
  }

  @Test
  void endsAfterTenMinutes() {
    String digits = code.renew().digits();
    now.set(now.get().plusSeconds(599));
    assertEquals(Outcome.WRONG, code.say(other(digits, 1)));
    now.set(now.get().plusSeconds(1));
    assertEquals(Outcome.NONE, code.say(digits));
  }

  @Test
  void isNoLongerGoodAfterFiveWrongOnes() {
    String digits = code.renew().digits();
    for (int i = 1; i < 5; i++) {
      assertEquals(Outcome.WRONG, code.say(other(digits, i)));
    }
    assertEquals(Outcome.SHUT, code.say(other(digits, 5)));
    assertEquals(Outcome.NONE, code.say(digits));
    assertEquals(Outcome.RIGHT, code.say(code.renew().digits()));
  }

  @Test
  void anOlderOneEndsWithANewerOne() {
    String first = code.renew().digits();
    String second = code.renew().digits();
    assertNotEquals(first, second);
    assertEquals(Outcome.WRONG, code.say(first));
    assertEquals(Outcome.RIGHT, code.say(second));
  }
}
