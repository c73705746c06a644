package tallyback.dialogue;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

/** Left for the night half open, and taken up next day. */
class HandoverTest {

  private final Talk talk = new Talk();

  @Test
  void leavingReadsOutThreeThingsStopsFirst() {
    talk.sureOf(
        "anna speaking",
        "starting strip covers",
        "five belly pan bolts off",
        "six splash guard bolts off",
        "four pulley bolts off",
        "three outlet nuts off");
    String told = talk.sure("leaving for the night").reminder();
    assertEquals(
        "open: belly pan bolts: 0 on the machine, 5 in the tray; splash guard bolts: 0 on the"
            + " machine, 6 in the tray; pulley bolts: 0 on the machine, 4 in the tray; and six"
            + " more. Hang a do-not-start tag on it",
        told);
  }

  @Test
  void whoTakesItUpHearsWhereItWas() {
    talk.sureOf(
        "anna speaking",
        "starting strip covers",
        "five belly pan bolts off",
        "leaving for the night");
    talk.startAgain();
    String told = talk.sure("tobias speaking").reminder();
    assertTrue(
        told.startsWith(
            "left on Monday at 09:04 by anna. last: five belly pan bolts off. under way: strip"
                + " covers. open: "),
        told);
    assertFalse(talk.sure("carry on").reminder().contains("left on"));
  }

  @Test
  void carryOnWillDoToo() {
    talk.sureOf("five belly pan bolts off", "leaving for the night");
    assertTrue(talk.sure("carry on").reminder().startsWith("left on Monday at 09:02 by mechanic"));
  }

  @Test
  void aPauseIsNoNight() {
    talk.sureOf("five belly pan bolts off", "taking a break");
    assertEquals("", talk.sure("carry on").reminder());
  }

  @Test
  void nothingOpenIsSaidAsFarAsItWasTold() {
    Talk empty = Talk.about("tallyback-plan: 1\nname: Nothing\n");
    assertEquals(
        "nothing is open in what you told me", empty.sure("leaving for the night").reminder());
  }

  @Test
  void signsAndTolerancesAreNotForTheEar() {
    assertEquals(
        "18 foot pounds, which is 24.4 newton metres", Aloud.words("18 lbf·ft, which is 24.4 N·m"));
    assertEquals("0 on the machine, 5 in the tray", Aloud.words("0 on the machine, 5 in the tray"));
    assertEquals("0.5 inches", Aloud.words("0.5 in"));
    assertEquals("4.20 litres in", Aloud.words("4.20 L in"));
    assertEquals("short 1.00 litres", Aloud.words("short 1.00 L ± 0.17 L"));
    assertEquals("18 newton metres", Aloud.words("18 N·m ±2 N·m (workshop manual p. 45)"));
  }
}
