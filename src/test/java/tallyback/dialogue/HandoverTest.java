package tallyback.dialogue;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tallyback.dialogue.answers.Aloud;

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
        "open: belly pan bolts: zero on the machine, five in the tray; splash guard bolts: zero"
            + " on the machine, six in the tray; pulley bolts: zero on the machine, four in the"
            + " tray; and six more. Hang a do-not-start tag on it",
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
            "left on Monday at nine oh four by Anna. last: five belly pan bolts off. under way: strip"
                + " covers. open: "),
        told);
    assertFalse(talk.sure("carry on").reminder().contains("left on"));
  }

  @Test
  void carryOnWillDoToo() {
    talk.sureOf("five belly pan bolts off", "leaving for the night");
    assertTrue(
        talk.sure("carry on").reminder().startsWith("left on Monday at nine oh two by mechanic"));
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
        "eighteen, one eight, foot pounds, which is twenty four point four, two four point four,"
            + " newton metres",
        Aloud.of("18 lbf·ft, which is 24.4 N·m"));
    assertEquals(
        "zero on the machine, five in the tray", Aloud.of("0 on the machine, 5 in the tray"));
    assertEquals("zero point five inches", Aloud.of("0.5 in"));
    assertEquals("four point two zero litres in", Aloud.of("4.20 L in"));
    assertEquals("short one point zero zero litres", Aloud.of("short 1.00 L ± 0.17 L"));
    assertEquals(
        "eighteen, one eight, newton metres", Aloud.of("18 N·m ±2 N·m (workshop manual p. 45)"));
  }
}
