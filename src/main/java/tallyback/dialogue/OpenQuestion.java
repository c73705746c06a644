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
 */
record OpenQuestion(
    Utterance asked,
    String words,
    Statement statement,
    List<Statement> further,
    List<Unit> unitChoices,
    Instant happenedAt,
    boolean doubtful,
    int reading) {

  /** The speaker said yes. */
  OpenQuestion confirmed() {
    return saying(statement, words);
  }

  /** The speaker put another value, unit or place: that settles the doubt. */
  OpenQuestion saying(Statement now) {
    return saying(now, words);
  }

  /** The speaker said it once more. */
  OpenQuestion saying(Statement now, String again) {
    return new OpenQuestion(asked, again, now, further, unitChoices, happenedAt, false, reading);
  }
}
