package tallyback.dialogue;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tallyback.dialogue.answers.Answers;
import tallyback.model.Amount;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.Tightened;
import tallyback.model.Statement.TorqueAt;
import tallyback.model.Unit;
import tallyback.phrase.EntryGrammar;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;

/** A torque through a crowfoot: the tool asks where it is meant. */
class WrenchOrBoltTest {

  private static final Instant NINE = Instant.parse("2026-03-02T09:00:00Z");

  private static final Plan PLAN =
      PlanReader.read(
              "plan.yaml",
              """
              tallyback-plan: 1
              name: Pipe on the bench saw
              items:
                - say: [union nuts]
                  thing: nut
                  count: 2
                  torque: {value: 40 N·m, tolerance: ±2 N·m, tolerance-from: invented manual p. 3}
              instruments:
                - say: [crowfoot]
                  kind: wrench
                  from: 10 N·m
                  to: 100 N·m
                  tolerance: 4 %
                  adapter: {wrench: 300 mm, reach: 100 mm, angle: 0°}
                - say: [marked crowfoot]
                  kind: wrench
                  from: 10 N·m
                  to: 100 N·m
                  tolerance: 4 %
                  adapter: {wrench: 300 mm, reach: 100 mm, angle: 0°, said: at-wrench}
                - say: [square crowfoot]
                  kind: wrench
                  from: 10 N·m
                  to: 100 N·m
                  tolerance: 4 %
                  adapter: {wrench: 300 mm, reach: 100 mm, angle: 90°}
              """)
          .plan()
          .orElseThrow();

  private final List<Entry> noted = new ArrayList<>();
  private final Dialogue dialogue = dialogue();
  private int said;

  private Dialogue dialogue() {
    EntryGrammar grammar = EntryGrammar.of(PLAN);
    Interpreter interpreter = Interpreter.of(grammar);
    return new Dialogue(
        PLAN,
        interpreter,
        new Answers(PLAN, grammar::readBack, grammar::card),
        (draft, clip) -> {
          Entry entry = draft.noted(noted.size() + 1L, null);
          noted.add(entry);
          return entry;
        },
        new Dialogue.Setting("job", "test", "mechanic", ZoneOffset.UTC, InstantSource.fixed(NINE)),
        List.of());
  }

  private Reply say(String words) {
    said++;
    return dialogue.take(
        new Utterance(
            "u" + said, NINE.plusSeconds(60L * said), Source.SPOKEN, List.of(words), false, null));
  }

  private Tightened last() {
    return (Tightened) noted.get(noted.size() - 1).statement();
  }

  @Test
  void itIsAskedWhenNobodySaysIt() {
    Reply reply = say("torqued the union nuts to forty newton metres with the crowfoot");
    assertEquals(Reply.Status.ASKED, reply.status());
    assertEquals("at the wrench or at the bolt?", reply.say());
    assertEquals(List.of(), noted);
    assertEquals(Reply.Status.NOTED, say("at the bolt").status());
    assertEquals(TorqueAt.AT_BOLT, last().torqueAt());
    assertEquals(Certainty.CONFIRMED, noted.get(0).certainty());
  }

  @Test
  void firstTheUnitThenWhere() {
    String asked = say("torqued the union nuts to one hundred forty with the crowfoot").say();
    assertTrue(asked.startsWith("140 what?"), asked);
    assertEquals("at the wrench or at the bolt?", say("newton metres").say());
    assertEquals(Reply.Status.NOTED, say("at the wrench").status());
    assertEquals(Amount.of("140", Unit.NEWTON_METRE), last().torque());
    assertEquals(TorqueAt.AT_WRENCH, last().torqueAt());
  }

  @Test
  void itIsNotAskedWhereItIsKnownOrChangesNothing() {
    assertEquals(
        Reply.Status.NOTED, say("union nuts to 40 N·m with the crowfoot at the bolt").status());
    assertEquals(Reply.Status.NOTED, say("union nuts to 40 N·m with the marked crowfoot").status());
    assertEquals(Reply.Status.NOTED, say("union nuts to 40 N·m with the square crowfoot").status());
    assertEquals(Reply.Status.NOTED, say("torqued the union nuts with the crowfoot").status());
  }

  /** It stays visible and closes nothing. */
  @Test
  void leftUnansweredItIsUnconfirmed() {
    say("union nuts to 40 N·m with the crowfoot");
    say("two union nuts off");
    assertEquals(Certainty.UNCONFIRMED, noted.get(0).certainty());
    assertEquals(2, noted.size());
  }

  @Test
  void anotherValueIsMeantWhereTheFirstWas() {
    say("union nuts to 40 N·m with the crowfoot at the bolt");
    assertEquals(Reply.Status.NOTED, say("correction 41 N·m").status());
    Corrected corrected = (Corrected) noted.get(1).statement();
    assertEquals(TorqueAt.AT_BOLT, ((Tightened) corrected.now()).torqueAt());
  }
}
