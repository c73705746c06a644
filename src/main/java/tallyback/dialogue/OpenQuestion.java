package tallyback.dialogue;

import java.time.Instant;
import java.util.List;
import tallyback.model.Statement;
import tallyback.model.Unit;

/**
 * Something understood that waits for an answer.
 *
 * @param asked the utterance
 * @param words the words of the reading asked about
 * @param statement what it would be noted as
 * @param further what was said in the same breath
 * @param unitChoices the units that may be meant when none was said
 * @param happenedAt when it happened
 * @param doubtful true while the recogniser's doubt is not settled
 * @param reading which of the utterance's readings is asked about
 * @param why why it can't be as it was heard, as a sentence; empty when it can
 * @param accepted true when the speaker said that it is so all the same
 */
record OpenQuestion(
    Utterance asked,
    String words,
    Statement statement,
    List<Statement> further,
    List<Unit> unitChoices,
    Instant happenedAt,
    boolean doubtful,
    int reading,
    String why,
    boolean accepted) {

  /** The speaker said yes: that settles what was asked. */
  OpenQuestion confirmed() {
    return with(statement, words, "", accepted || !why.isEmpty());
  }

  /** It can't be as it was heard. */
  OpenQuestion doubtedBecause(String reason) {
    return new OpenQuestion(
        asked,
        words,
        statement,
        further,
        unitChoices,
        happenedAt,
        doubtful,
        reading,
        reason,
        false);
  }

  /** The speaker put another value, unit or place: that settles the doubt. */
  OpenQuestion saying(Statement now) {
    return saying(now, words);
  }

  /** The speaker said it once more. */
  OpenQuestion saying(Statement now, String again) {
    return with(now, again, "", false);
  }

  private OpenQuestion with(Statement now, String again, String reason, boolean isSo) {
    return new OpenQuestion(
        asked, again, now, further, unitChoices, happenedAt, false, reading, reason, isSo);
  }
}
