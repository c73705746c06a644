package tallyback.dialogue;

import java.time.Instant;
import tallyback.model.Statement;

/**
 * Something understood that waits for an answer.
 *
 * @param asked the utterance
 * @param words the words of the reading asked about
 * @param statement what it would be noted as
 * @param happenedAt when it happened
 * @param doubtful true while the recogniser's doubt is not settled
 * @param reading which of the utterance's readings is asked about
 */
record OpenQuestion(
    Utterance asked,
    String words,
    Statement statement,
    Instant happenedAt,
    boolean doubtful,
    int reading) {

  OpenQuestion confirmed() {
    return new OpenQuestion(asked, words, statement, happenedAt, false, reading);
  }

  /** The speaker put another value or unit: that settles the doubt. */
  OpenQuestion saying(Statement now) {
    return new OpenQuestion(asked, words, now, happenedAt, false, reading);
  }

  OpenQuestion saying(Statement now, String again) {
    return new OpenQuestion(asked, again, now, happenedAt, false, reading);
  }
}
