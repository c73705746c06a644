package tallyback.dialogue.answers;

import java.util.List;
import java.util.function.Function;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tallyback.model.Entry;
import tallyback.model.Statement;
import tallyback.phrase.CardSection;
import tallyback.phrase.Question;
import tallyback.phrase.Question.OfFluid;
import tallyback.phrase.Question.OfItem;
import tallyback.phrase.Question.OfJob;
import tallyback.phrase.Question.OfListening;
import tallyback.phrase.Question.OfSpeaker;
import tallyback.phrase.Question.OfVoice;
import tallyback.phrase.Question.ReadBackLast;
import tallyback.phrase.ReadBack;
import tallyback.plan.Plan;
import tallyback.reconcile.Outcome;
import tallyback.reconcile.Reconciler;
import tallyback.reconcile.TearDown;

/** Answers questions about one job. */
public final class Answers {

  private final Plan plan;
  private final Function<Statement, ReadBack> readBack;
  private final Supplier<List<CardSection>> card;
  private final Function<List<Entry>, Outcome> judge;
  private final OfItems items;

  /**
   * For the jobs of a plan.
   *
   * @param plan the plan
   * @param readBack how a statement is said back
   * @param card what can be said, by topic
   * @param judge what the reconciler makes of entries
   */
  public Answers(
      Plan plan,
      Function<Statement, ReadBack> readBack,
      Supplier<List<CardSection>> card,
      Function<List<Entry>, Outcome> judge) {
    this.plan = plan;
    this.readBack = readBack;
    this.card = card;
    this.judge = judge;
    this.items = new OfItems(plan, readBack);
  }

  /** The same without earlier jobs to judge by. */
  public Answers(
      Plan plan, Function<Statement, ReadBack> readBack, Supplier<List<CardSection>> card) {
    this(plan, readBack, card, entries -> Reconciler.reconcile(plan, entries));
  }

  /** How a statement is said back aloud. */
  public String readBack(Statement statement) {
    return readBack.apply(statement).spoken();
  }

  /**
   * Answers.
   *
   * @param question the question; of an order to the voice only what is said to it
   * @param entries all entries of the job so far, by number
   * @param last what was said last, aloud; empty for nothing
   */
  public Answer answer(Question question, List<Entry> entries, String last) {
    Told told = told(question, entries, last);
    return new Answer(question, told.spoken(), told.shown().replace(": \n", ":\n"));
  }

  /**
   * Answers what was ordered of the listening.
   *
   * @param way the way ordered
   * @param outcome what became of the order
   */
  public Answer carriedOut(OfListening way, Ways.Outcome outcome) {
    String says =
        switch (outcome) {
          case NOW -> AnswerText.listens(way);
          case NO_WORD -> AnswerText.NO_WORD;
          case NOTHING_TO_HOLD -> AnswerText.NOTHING_TO_HOLD;
          case NOT_LIVE -> AnswerText.NOT_LIVE;
        };
    return new Answer(way, says, says);
  }

  /**
   * Answers who speaks, or expects another voice.
   *
   * @param actor plan id of who said last that he or she speaks
   * @param voices where the sound is heard; null where all is typed
   */
  public Answer whoSpeaks(OfSpeaker asked, String actor, @Nullable Voices voices) {
    String wanted = asked.voice();
    String says;
    if (wanted == null) {
      String expected = voices == null ? null : voices.expected();
      says = AnswerText.speaking(plan.label(actor), expected);
    } else if (voices == null) {
      says = AnswerText.NOTHING_HEARD;
    } else {
      boolean anybody = wanted.equals(OfSpeaker.ANYBODY);
      says =
          voices.expect(anybody ? null : wanted)
              ? AnswerText.expectsVoice(anybody ? null : wanted)
              : AnswerText.voiceNotTaught(wanted);
    }
    return new Answer(asked, says, says);
  }

  private Told told(Question question, List<Entry> entries, String last) {
    if (question instanceof OfVoice order) {
      return toldOfVoice(order, last);
    }
    if (question instanceof OfSpeaker) {
      return Told.same(AnswerText.NOTHING_HEARD);
    }
    if (question instanceof OfItem asked) {
      return items.answer(asked.topic(), asked.item() == null ? lastItem(entries) : asked.item());
    }
    // Without a plan that is what came off.
    Plan expected = TearDown.expected(plan, entries);
    OfTheJob job = new OfTheJob(expected, readBack, entries, judge.apply(entries));
    if (question instanceof OfFluid asked) {
      return new OfFluids(expected, job.outcome()).answer(asked.topic(), asked.fluid());
    }
    if (question instanceof ReadBackLast asked) {
      return job.readBackLast(asked.entries());
    }
    return question == OfJob.CAN_SAY ? sayable() : job.answer((OfJob) question);
  }

  private static Told toldOfVoice(OfVoice order, String last) {
    return switch (order) {
      case SAY_AGAIN ->
          Told.same(
              AnswerText.AGAIN + ": " + (last.isEmpty() ? AnswerText.NOTHING_SAID_YET : last));
      case LOUDER -> Told.same(AnswerText.LOUDER);
      case QUIETER -> Told.same(AnswerText.QUIETER);
    };
  }

  private static String lastItem(List<Entry> entries) {
    for (int i = entries.size() - 1; i >= 0; i--) {
      String item = OfItems.itemOf(entries.get(i).statement());
      if (item != null) {
        return item;
      }
    }
    return "";
  }

  private Told sayable() {
    List<CardSection> sections = card.get();
    List<String> examples =
        sections.stream()
            .filter(section -> !section.topic().equals(AnswerText.ANSWERS))
            .map(section -> section.examples().get(0))
            .limit(Aloud.MOST)
            .toList();
    String all =
        String.join(
            "\n",
            sections.stream()
                .map(
                    section ->
                        "  " + section.topic() + ": " + String.join(" · ", section.examples()))
                .toList());
    return new Told(
        AnswerText.YOU_CAN_SAY + ", " + AnswerText.forExample(String.join(". ", examples)),
        AnswerText.YOU_CAN_SAY + ":\n" + all);
  }
}
