package tallyback.bench.hearing;

import java.util.List;
import tallyback.speech.Hearing;
import tallyback.speech.Judgement;
import tallyback.speech.Meaning;

/** What became of one utterance; every utterance is exactly one of these. */
enum Outcome {
  /** Noted without asking, and right. */
  EXACT,
  /** Asked, and what was said is among the readings offered. */
  ASKED_RIGHT,
  /** Asked, and it is not among them, or nothing should have been asked. */
  ASKED_WRONG,
  /** Noted without asking, and wrong, or nothing should have been noted. */
  NOTED_WRONG,
  /** No entry was made of it; right for speech that is none. */
  REJECTED;

  /**
   * Compares.
   *
   * @param said the words, none when nothing was said that the grammar holds
   * @param hearing what was heard
   * @param judgement what the program makes of it
   * @param meaning which words amount to the same
   */
  static Outcome of(List<String> said, Hearing hearing, Judgement judgement, Meaning meaning) {
    if (judgement == Judgement.REJECT) {
      return REJECTED;
    }
    int rightAt = rightAt(said, hearing, meaning);
    if (judgement == Judgement.NOTE) {
      return rightAt == 0 ? EXACT : NOTED_WRONG;
    }
    return rightAt >= 0 ? ASKED_RIGHT : ASKED_WRONG;
  }

  /** Which of the readings means what was said, from 0; -1 for none. */
  static int rightAt(List<String> said, Hearing hearing, Meaning meaning) {
    return said.isEmpty()
        ? -1
        : hearing.readings().stream()
            .map(reading -> meaning.of(reading.texts()))
            .toList()
            .indexOf(meaning.of(said));
  }
}
