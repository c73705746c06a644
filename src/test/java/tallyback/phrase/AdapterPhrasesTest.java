package tallyback.phrase;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import tallyback.model.Amount;
import tallyback.model.Statement;
import tallyback.model.Statement.MeantAt;
import tallyback.model.Statement.Tightened;
import tallyback.model.Statement.TighteningOrder;
import tallyback.model.Statement.TightnessState;
import tallyback.model.Statement.TorqueAt;
import tallyback.model.Unit;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;

/** What is said of a torque through a crowfoot, and of the order in which a group was tightened. */
class AdapterPhrasesTest {

  private static final String PLAN =
      """
      tallyback-plan: 1
      name: Pipe on the bench saw
      items:
        - say: [cover nuts]
          thing: nut
          count: 6
          torque: {value: 40 N·m, tolerance: ±2 N·m, tolerance-from: invented manual p. 3, sequence: true}
      instruments:
        - say: [crowfoot]
          kind: wrench
          from: 10 N·m
          to: 100 N·m
          tolerance: 4 %
          adapter: {wrench: 300 mm, reach: 100 mm, angle: 0°}
      """;

  private static final EntryGrammar GRAMMAR = EntryGrammar.of(plan(PLAN));

  private static Plan plan(String text) {
    return PlanReader.read("plan.yaml", text).plan().orElseThrow();
  }

  private static Tightened cover(
      @Nullable String torque,
      @Nullable String wrench,
      @Nullable TorqueAt at,
      @Nullable TighteningOrder order) {
    Amount amount = torque == null ? null : Amount.of(torque, Unit.NEWTON_METRE);
    return new Tightened(
        TightnessState.TORQUED,
        "cover-nuts",
        null,
        null,
        null,
        false,
        amount,
        null,
        null,
        wrench,
        at,
        order);
  }

  private static void means(Statement expected, String... phrases) {
    for (String phrase : phrases) {
      assertEquals(Optional.of(expected), GRAMMAR.read(phrase).map(Meaning::statement), phrase);
    }
  }

  @Test
  void aTorqueIsMeantAtTheWrenchOrAtTheBolt() {
    means(
        cover("40", "crowfoot", TorqueAt.AT_BOLT, null),
        "torqued the cover nuts to forty newton metres with the crowfoot at the bolt",
        "cover nuts to forty newton metres at the bolt with the crowfoot",
        "cover nuts 40 N·m with the crowfoot at the bolt");
    means(
        cover("30", "crowfoot", TorqueAt.AT_WRENCH, null),
        "cover nuts to thirty newton metres at the wrench using the crowfoot");
    means(
        cover("30", "crowfoot", null, null),
        "cover nuts to thirty newton metres with the crowfoot");
  }

  @Test
  void theOrderIsSaid() {
    means(
        cover("40", null, null, TighteningOrder.IN_SEQUENCE),
        "torqued the cover nuts to forty newton metres in sequence",
        "cover nuts to 40 Nm in sequence");
    means(
        cover("40", "crowfoot", TorqueAt.AT_BOLT, TighteningOrder.CROSSWISE),
        "cover nuts to forty newton metres with the crowfoot at the bolt crosswise");
    means(
        cover(null, null, null, TighteningOrder.CROSSWISE),
        "torqued the cover nuts crosswise",
        "cover nuts torqued crosswise");
  }

  @Test
  void theQuestionIsAnswered() {
    assertEquals(
        Optional.of(new MeantAt(TorqueAt.AT_BOLT)),
        GRAMMAR.readAnswer("at the bolt").map(Meaning::statement));
    assertEquals(
        Optional.of(new MeantAt(TorqueAt.AT_WRENCH)),
        GRAMMAR.readAnswer("at the wrench").map(Meaning::statement));
  }

  /** What is read back is what was said, so that it can be said the same way again. */
  @Test
  void whatIsReadBackReadsTheSame() {
    for (Tightened told :
        List.of(
            cover("40", "crowfoot", TorqueAt.AT_BOLT, TighteningOrder.IN_SEQUENCE),
            cover("30", "crowfoot", TorqueAt.AT_WRENCH, null),
            cover(null, null, null, TighteningOrder.CROSSWISE))) {
      means(told, GRAMMAR.readBack(told).spoken());
    }
    assertEquals(
        "torqued cover nuts · 40 N·m · crowfoot · at the bolt · in sequence",
        GRAMMAR
            .readBack(cover("40", "crowfoot", TorqueAt.AT_BOLT, TighteningOrder.IN_SEQUENCE))
            .written());
  }

  @Test
  void theGrammarIsFitForUseAndTheCardSaysHow() {
    assertEquals(List.of(), GRAMMAR.lint(new CmuWords()));
    List<String> examples =
        GRAMMAR.card().stream().flatMap(section -> section.examples().stream()).toList();
    assertTrue(
        examples.contains("cover nuts to forty newton metres with the crowfoot at the wrench"),
        examples::toString);
    assertTrue(examples.contains("cover nuts torqued in sequence"), examples::toString);
  }

  @Test
  void aPlanWithoutAdapterAndSequenceHasNoWordsForThem() {
    EntryGrammar plain =
        EntryGrammar.of(
            plan(
                """
                tallyback-plan: 1
                name: Cover
                items:
                  - say: [cover nuts]
                    thing: nut
                    count: 6
                    torque: {value: 40 N·m, tolerance: ±2 N·m, tolerance-from: invented manual p. 3}
                """));
    assertFalse(plain.entries().words().contains("sequence"));
    assertFalse(
        plain.answers().words().contains("bolt") && plain.readAnswer("at the bolt").isPresent());
  }

  @Test
  void aThingCalledBoltKeepsItsName() {
    EntryGrammar grammar =
        EntryGrammar.of(plan(PLAN.replace("say: [cover nuts]", "say: [cover nuts, bolt]")));
    assertEquals(List.of(), grammar.lint(new CmuWords()));
    assertEquals(
        Optional.of(new MeantAt(TorqueAt.AT_BOLT)),
        grammar.readAnswer("at the fastener").map(Meaning::statement));
  }
}
