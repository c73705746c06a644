package tallyback.dialogue.answers;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import tallyback.dialogue.AskedJob;

/** What is answered, word for word, on a small job. */
class AnswersTest {

  /** A gearbox cover on a machine that does not exist. */
  private static final String PLAN =
      """
      tallyback-plan: 1
      name: Gear case cover resealed
      fluids:
        - {id: gear-oil, say: [gear oil], grade: gear oil of the maker}
      systems:
        - id: gear-case
          say: [gear case]
          fluid: gear-oil
          capacity: 2.4 L
          drains: [{id: case-drain, say: [drain hole]}]
      items:
        - {id: cover, say: [case cover]}
        - id: cover-bolts
          say: [cover bolts]
          thing: bolt
          count: 13
          of: cover
          thread: M8x1.25
          head: 13 mm
          length: 30 mm
          torque:
            value: 19 N·m
            tolerance: ±2 N·m
            tolerance-from: manual p. 7
            passes: 2
            sequence: true
        - {id: cover-seal, say: [cover seal], of: cover, renew: true}
        - id: arrow-plate
          say: [arrow plate]
          of: cover
          alignment: {angle: 90°, tolerance: 10°}
        - id: side-nuts
          say: [side nuts]
          thing: nut
          count: 2
          head: 9/16 in
          torque: {value: 30 N·m, tolerance: ±3 N·m, tolerance-from: manual p. 8}
        - id: wedge-pin
          say: [wedge pin]
          thing: pin
          of: cover
          temporary: true
      steps:
        - id: drain
          say: [drain oil]
          minutes: 15
          cautions: [Engine stopped and cold.]
        - id: open
          say: [open case]
          off: [cover-bolts, cover]
          needs: drain
          minutes: 20
        - id: shut
          say: [shut case]
          on: [cover-seal, cover, cover-bolts]
          needs: open
          minutes: 30
          cautions:
            - Hands away from the wheels.
            - The wedge pin out first.
      instruments:
        - {id: jug, say: [big jug], kind: vessel, from: 0.5 L, to: 5 L, tolerance: 5 %}
      """;

  private final AskedJob job = new AskedJob(PLAN);

  private void answers(String question, String spoken) {
    assertEquals(spoken, job.ask(question).spoken());
  }

  private void shows(String question, String shown) {
    assertEquals(shown, job.ask(question).shown());
  }

  @Test
  void torqueIsSaidTwiceSoThatATeenIsNoTen() {
    answers(
        "what's the torque of the cover bolts",
        "cover bolts: nineteen, one nine, newton metres, in two passes, in the maker's sequence;"
            + " see your manual, the plan says; your manual decides");
    shows(
        "torque of the cover bolts",
        "cover bolts: 19 N·m ±2 N·m (manual p. 7) · in 2 passes · in the maker's sequence; see"
            + " your manual, the plan says; your manual decides");
    answers(
        "torque of the side nuts",
        "side nuts: thirty, three zero, newton metres, the plan says; your manual decides");
  }

  @Test
  void torqueOfAPartIsThatOfItsBolts() {
    assertTrue(
        job.ask("what's the torque of the case cover")
            .spoken()
            .startsWith("case cover: cover bolts, nineteen, one nine, newton metres"));
  }

  @Test
  void whatThePlanDoesNotSayIsNotMadeUp() {
    answers("torque of the arrow plate", "arrow plate: no torque in the plan; see your manual");
    answers("size of the cover seal", "cover seal: no size in the plan; measure it");
    answers("order of the side nuts", "side nuts: no sequence in the plan; see your manual");
    answers(
        "which way round does the cover seal go",
        "cover seal: the plan doesn't say which way round; look for a mark, and see your manual");
    answers("where do the side nuts go", "side nuts: the plan doesn't say where; see your manual");
  }

  @Test
  void size() {
    answers(
        "what's the size of the cover bolts",
        "cover bolts: head thirteen, one three, millimetres. thread M eight by one point two five."
            + " length thirty, three zero, millimetres");
    shows("size of the cover bolts", "cover bolts: head 13 mm · thread M8x1.25 · length 30 mm");
    answers("size of the side nuts", "side nuts: head nine sixteenths inch");
  }

  @Test
  void orderWayRoundAndPlace() {
    answers(
        "what's the order of the cover bolts",
        "cover bolts: in two passes. in the maker's sequence; see your manual");
    answers(
        "which way round does the arrow plate go",
        "arrow plate: mark at three o'clock, the plan says; your manual decides");
    shows(
        "which way round does the arrow plate go",
        "arrow plate: mark at three o'clock, give or take 10°, the plan says; your manual decides");
    answers("where does the cover seal go", "cover seal: at the case cover, goes on in shut case");
    answers(
        "where does the wedge pin go",
        "wedge pin: at the case cover, only for the job, and out again");
  }

  @Test
  void itIsWhatWasSpokenOfLast() {
    answers("where does it go", "it: I don't know which one you mean; say its name");
    job.tell("case cover off", "engine stopped");
    answers("where does it go", "case cover: goes on in shut case");
  }

  @Test
  void nothingToldIsNoPass() {
    answers(
        "can I start it",
        "starting it: can't tell: nothing against it in what you told me. Not said: nothing was"
            + " said about the machine yet");
    answers("what's in the tray", "in the tray: nothing, by what you told me");
    answers("what isn't tight yet", "not tight yet: nothing was loosened, by what you told me");
    answers("read back the last", "the last: nothing noted yet");
    answers("where was I", "where you were: nothing noted yet");
    answers("how much is out", "gear case, out: nothing said of it yet");
    answers("how much do I pour", "gear case, to pour: nothing said of it yet");
    answers(
        "how long has it taken",
        "time: nothing noted yet, the plan expects one hour, five minutes for all its steps");
  }

  @Test
  void stopsComeFirstAndThreeAreEnough() {
    job.tell(
        "thirteen cover bolts off",
        "case cover off",
        "wedge pin in",
        "two side nuts off",
        "torqued the side nuts to thirteen newton metres");
    String spoken = job.ask("can I start it").spoken();
    assertTrue(spoken.startsWith("starting it: no. "), spoken);
    assertTrue(spoken.matches(".*\\. and \\w+ more(\\. Not said besides: .*)?"), spoken);
    String shown = job.ask("can I start it").shown();
    assertTrue(shown.contains("wedge pin: 1 still in. Don't start it"), shown);
    assertFalse(spoken.contains("±") || spoken.matches(".*\\d.*"), spoken);
  }

  @Test
  void aVerdictIsNeverABareYes() {
    job.tell("drained two point four litres from the drain hole into the big jug");
    job.tell("drain oil done", "starting the open case", "wedge pin in");
    job.tell("thirteen cover bolts off", "case cover off", "took off the cover seal");
    job.tell("open case done", "starting the shut case", "new cover seal in", "wedge pin out");
    job.tell("case cover back on", "arrow plate at three o'clock", "thirteen cover bolts back on");
    job.tell("thirteen cover bolts first pass to ten newton metres in sequence");
    job.tell("thirteen cover bolts second pass to nineteen newton metres in sequence");
    job.tell("shut case done", "two side nuts to thirty newton metres");
    job.tell("poured in two point four litres of gear oil from the big jug");
    answers(
        "can I start it",
        "starting it: can't tell: nothing against it in what you told me. Not said: tools, pins and"
            + " rags out of the bay");
    job.tell("tools and rags out");
    answers(
        "can I start it",
        "starting it: nothing against it in what you told me. Not said: cover bolts: with which"
            + " wrench. side nuts: with which wrench. overload, not judged: two groups. and two"
            + " more");
    answers(
        "can it go to work",
        "going to work: can't tell: nothing against it in what you told me. Not said: a test run");
    answers(
        "what isn't tight yet", "not tight yet: nothing of what you loosened, by what you told me");
    answers("what's left", "left: nothing of what is in the plan, by what you told me");
    answers("what's in the tray", "in the tray: the old cover seal");
  }

  @Test
  void whatIsNextComesWithItsCautions() {
    answers("what's next", "next: drain oil. Mind: Engine stopped and cold");
    answers("what may go wrong here", "drain oil: Engine stopped and cold");
    job.tell("starting the drain oil");
    answers("what's next", "next: finish drain oil, begun at nine oh three");
    job.tell("drain oil done");
    answers("what's next", "next: open case");
    answers(
        "what may go wrong here",
        "open case: no cautions in the plan; your manual and local rules decide");
    job.tell("skipped the open case");
    answers("what can go wrong", "shut case: Hands away from the wheels. The wedge pin out first");
    job.tell("shut case done");
    answers("what's next", "next: no step is left, by what you told me");
    answers(
        "what may go wrong here", "cautions: no step at hand; your manual and local rules decide");
  }

  @Test
  void whatIsLeft() {
    job.tell("drain oil done", "wedge pin in", "thirteen cover bolts off");
    answers(
        "what is left to do",
        "left: still in, to come out: wedge pin. two steps: open case, shut case. still off: cover"
            + " bolts. not tight: cover bolts");
  }

  @Test
  void theTrayByCount() {
    job.tell(
        "thirteen cover bolts off",
        "case cover off",
        "two side nuts off",
        "took off the cover seal");
    answers(
        "what have I still got in the tray",
        "in the tray: case cover, all thirteen, one three, cover bolts, cover seal, and one more");
    shows(
        "what's in the tray",
        "in the tray:\n  case cover\n  all 13 cover bolts\n  cover seal\n  both side nuts");
    job.tell("one side nut back on", "new cover seal in");
    shows(
        "what's in the tray",
        "in the tray:\n  case cover\n  all 13 cover bolts\n  one of the side nuts\n  the old cover"
            + " seal");
  }

  @Test
  void whatWasNotConfirmedIsSaidNotToBeCounted() {
    job.tell("two side nuts off");
    job.unconfirmed("one side nut back on");
    answers(
        "what's in the tray", "in the tray: both side nuts. not confirmed and not counted: one");
  }

  @Test
  void notTightYet() {
    job.tell("two side nuts off", "thirteen cover bolts off", "two side nuts back on");
    answers(
        "what isn't tight yet",
        "not tight yet: side nuts, nothing said. cover bolts, thirteen, one three, off");
    job.tell("torqued the side nuts to thirteen newton metres");
    assertTrue(
        job.ask("what isn't tight yet")
            .spoken()
            .startsWith("not tight yet: side nuts, torqued to thirteen, one three, newton metres"),
        job.ask("what isn't tight yet").spoken());
  }

  @Test
  void fluidOutInShortAndToPour() {
    job.tell("drained two point one oh litres from the drain hole into the big jug");
    job.tell("spilled about two hundred mils");
    answers(
        "how much is out",
        "gear case, out: two point one litres, and zero point two litres spilled");
    answers("how much is in", "gear case, in: zero litres");
    answers(
        "how much do I pour",
        "gear case, to pour: two point three litres by the jugs; engine stopped and cold, then read"
            + " the level");
    job.tell("poured in one point three litres of gear oil from the big jug");
    answers("how much gear oil is short", "gear case, short: one litre");
    assertTrue(job.ask("how much is short").shown().startsWith("gear case, short: 1.00 L ± "));
    job.tell("poured in one litre of gear oil from the big jug");
    answers(
        "how much is missing", "gear case, short: as much in as out, as far as the jugs can tell");
    answers(
        "how much do I pour",
        "gear case, to pour: as much in as out, as far as the jugs can tell; engine stopped and"
            + " cold, then read the level");
    job.tell("poured in one litre of gear oil from the big jug");
    answers("how much is short", "gear case, short: nothing, one litre more in than out");
  }

  @Test
  void moreThanItHoldsIsNotPoured() {
    job.tell("drained two litres from the drain hole");
    job.say("drained two litres from the drain hole");
    job.tell("yes");
    answers(
        "how much do I pour",
        "gear case, to pour: four litres by the jugs, but it holds two point four litres by the"
            + " plan, so some amount is wrong: fill to the mark and no further; engine stopped and"
            + " cold, then read the level");
  }

  @Test
  void anAmountThatWasNotSaidIsSaidToBeMissing() {
    job.tell("drained two litres from the drain hole", "spilled some gear oil");
    answers(
        "how much is out",
        "gear case, out: two litres. some of it was said without an amount and isn't counted");
  }

  @Test
  void theLastEntriesAreReadBackWithWhatWasCorrected() {
    job.tell("case cover off", "thirteen cover bolts off", "correction eleven");
    answers("read back the last", "the last: eleven cover bolts off");
    answers("read back the last two", "the last two: case cover off. eleven cover bolts off");
    shows("read back the last two", "the last two:\n  off case cover\n  off 11 × cover bolts");
    answers("where was I", "where you were: Last: eleven cover bolts off, at nine oh two");
  }

  @Test
  void howLongByWhatWasTold() {
    job.tell("starting the drain oil", "drain oil done");
    answers(
        "how long has it taken",
        "time: one minute of work told, the plan expects one hour, five minutes for all its steps");
    shows(
        "how long should it take",
        "time: 1 min of work told, the plan expects 1 h 05 min for all its steps\n  drain oil:"
            + " 1 min (plan 15 min)");
  }

  @Test
  void whatWasNotSaidMostWeightyFirst() {
    job.tell("thirteen cover bolts off");
    String spoken = job.ask("what haven't I said").spoken();
    assertTrue(
        spoken.startsWith("not said: whether the wedge pin went in and came out again. "), spoken);
    assertFalse(spoken.contains("("), spoken);
  }

  @Test
  void whatCanBeSaidIsByExample() {
    String spoken = job.ask("what can I say").spoken();
    assertTrue(spoken.startsWith("you can say, for example: drained two point one litres"), spoken);
    assertTrue(job.ask("what can I say").shown().contains("\n  Questions: what's next · "));
  }

  @Test
  void aPlanOfNothingIsAnsweredToo() {
    AskedJob bare = new AskedJob("tallyback-plan: 1\nname: bare\n");
    assertEquals("next: the plan has no steps", bare.ask("what's next").spoken());
    assertEquals("fluid, out: the plan has no fluid system", bare.ask("how much is out").spoken());
    assertEquals(
        "time: nothing noted yet, the plan gives no times",
        bare.ask("how long has it taken").spoken());
    bare.tell("six bolts off");
    assertEquals("the last: six bolts off", bare.ask("read back the last").spoken());
    assertEquals("in the tray: six bolts", bare.ask("what's in the tray").spoken());
  }
}
