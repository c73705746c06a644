package tallyback.dialogue;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import tallyback.model.HowHeard.Asked;
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
 * @param talk what was asked of it so far, and answered
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
    boolean accepted,
    List<Asked> talk) {

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
        false,
        talk);
  }

  /** After what was asked of it before. */
  OpenQuestion after(List<Asked> before) {
    return new OpenQuestion(
        asked,
        words,
        statement,
        further,
        unitChoices,
        happenedAt,
        doubtful,
        reading,
        why,
        accepted,
        before);
  }

  /** It is asked. */
  OpenQuestion asking(String question) {
    List<Asked> now = new ArrayList<>(talk);
    now.add(new Asked(question, null));
    return after(List.copyOf(now));
  }

  /** What was asked, once these words have answered the last of it. */
  List<Asked> answeredBy(String words) {
    List<Asked> now = new ArrayList<>(talk);
    if (!now.isEmpty()) {
      Asked last = now.remove(now.size() - 1);
      now.add(new Asked(last.question(), words));
    }
    return List.copyOf(now);
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
        asked, again, now, further, unitChoices, happenedAt, false, reading, reason, isSo, talk);
  }
}
