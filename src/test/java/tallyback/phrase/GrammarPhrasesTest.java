package tallyback.phrase;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import tallyback.model.Statement;

/** Phrases that the grammar itself makes. */
class GrammarPhrasesTest {

  private static final int PHRASES = 6_000;
  private static final long SEED = 20260303L;

  @Test
  void everyPhraseOfTheGrammarHasExactlyOneMeaning() {
    PhraseMaker maker =
        new PhraseMaker(DemoGrammar.GRAMMAR.compiledEntries(), new SplittableRandom(SEED));
    List<String> wrong = new ArrayList<>();
    for (int number = 0; number < PHRASES; number++) {
      String phrase = String.join(" ", maker.next());
      Optional<Meaning> meaning = DemoGrammar.GRAMMAR.read(phrase);
      boolean question = DemoGrammar.GRAMMAR.readQuestion(phrase).isPresent();
      boolean entry = meaning.isPresent() && meaning.get().words().equals(phrase);
      if (question == entry) {
        wrong.add(phrase);
      }
    }
    System.out.println("seed " + SEED + ": " + PHRASES + " phrases, " + maker.coverage());
    assertEquals(List.of(), wrong, () -> "seed " + SEED);
  }

  @Test
  void everyPhraseOfAnAnswerHasExactlyOneMeaning() {
    PhraseMaker maker =
        new PhraseMaker(DemoGrammar.GRAMMAR.compiledAnswers(), new SplittableRandom(SEED));
    for (int number = 0; number < 2_000; number++) {
      String phrase = String.join(" ", maker.next());
      assertTrue(DemoGrammar.GRAMMAR.readAnswer(phrase).isPresent(), phrase);
    }
  }

  @Test
  void whatIsReadBackIsReadAsTheSameStatement() {
    PhraseMaker maker =
        new PhraseMaker(DemoGrammar.GRAMMAR.compiledEntries(), new SplittableRandom(SEED + 1));
    List<String> wrong = new ArrayList<>();
    int repeated = 0;
    for (int number = 0; number < PHRASES; number++) {
      String phrase = String.join(" ", maker.next());
      if (DemoGrammar.GRAMMAR.readQuestion(phrase).isPresent()) {
        continue;
      }
      Meaning meaning = DemoGrammar.GRAMMAR.read(phrase).orElseThrow();
      Statement statement = meaning.statement();
      ReadBack back = DemoGrammar.GRAMMAR.readBack(statement);
      assertTrue(!back.spoken().isBlank() && !back.written().isBlank(), phrase);
      Optional<Meaning> again = DemoGrammar.GRAMMAR.read(back.spoken());
      // What leaves its unit open is asked about, not read back.
      if (again.isPresent() && meaning.unitChoices().isEmpty()) {
        repeated++;
        // "Earth lead back on" is a state of the machine first, and the lead's own move with it.
        boolean same =
            again.get().statement().equals(statement) || again.get().further().contains(statement);
        if (!same) {
          wrong.add(
              phrase + " | " + back.spoken() + " | " + statement + " | " + again.get().statement());
        }
      }
    }
    System.out.println(
        "seed "
            + (SEED + 1)
            + ": "
            + repeated
            + " of "
            + PHRASES
            + " read-backs are phrases themselves");
    assertEquals(List.of(), wrong.stream().limit(10).toList(), wrong.size() + " differ");
    assertTrue(repeated > PHRASES / 2, "only " + repeated);
  }

  @Test
  void everyExampleOfThePhraseCardCanBeSaid() {
    List<CardSection> card = DemoGrammar.GRAMMAR.card();
    assertTrue(card.size() >= 9, card.toString());
    for (CardSection section : card) {
      for (String example : section.examples()) {
        boolean said =
            section.topic().equals("Answers")
                ? DemoGrammar.GRAMMAR.readAnswer(example).isPresent()
                : section.topic().equals("Questions")
                    ? DemoGrammar.GRAMMAR.readQuestion(example).isPresent()
                    : DemoGrammar.GRAMMAR.read(example).isPresent();
        assertTrue(said, section.topic() + ": " + example);
      }
    }
  }
}
