package tallyback.phrase;

import java.util.Arrays;
import tallyback.phrase.Question.FluidTopic;
import tallyback.phrase.Question.ItemTopic;
import tallyback.phrase.Question.OfFluid;
import tallyback.phrase.Question.OfItem;
import tallyback.phrase.Question.OfJob;
import tallyback.phrase.Question.OfListening;
import tallyback.phrase.Question.OfMemo;
import tallyback.phrase.Question.OfSpeaker;
import tallyback.phrase.Question.OfVoice;
import tallyback.phrase.Question.ReadBackLast;

/**
 * Makes a question of what the grammar gives out for a phrase.
 *
 * <p>Thread rule: stateless.
 */
final class QuestionReader {

  private static final String ASKED = "ask";

  private QuestionReader() {}

  /** True for a phrase that asks something, and so is no entry. */
  static boolean isQuestion(Parse parse) {
    return parse.pieces().stream()
        .anyMatch(piece -> piece instanceof Piece.Tag tag && tag.text().startsWith(ASKED + ":"));
  }

  /** The question of a phrase that is one. */
  static Question question(Parse parse) {
    Said said = new Said(parse.pieces());
    String asked = said.need(ASKED);
    if (asked.equals("READ_BACK")) {
      Integer count = said.count();
      return new ReadBackLast(count == null ? 1 : count);
    }
    if (asked.equals("SPEAKER")) {
      return new OfSpeaker(said.get("voice"));
    }
    if (isOneOf(ItemTopic.values(), asked)) {
      return new OfItem(ItemTopic.valueOf(asked), said.get("item"));
    }
    if (isOneOf(FluidTopic.values(), asked)) {
      return new OfFluid(FluidTopic.valueOf(asked), said.get("fluid"));
    }
    if (isOneOf(OfListening.values(), asked)) {
      return OfListening.valueOf(asked);
    }
    if (isOneOf(OfMemo.values(), asked)) {
      return OfMemo.valueOf(asked);
    }
    return isOneOf(OfVoice.values(), asked) ? OfVoice.valueOf(asked) : OfJob.valueOf(asked);
  }

  private static boolean isOneOf(Enum<?>[] constants, String name) {
    return Arrays.stream(constants).anyMatch(each -> each.name().equals(name));
  }
}
