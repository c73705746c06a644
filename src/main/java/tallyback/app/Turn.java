package tallyback.app;

import java.time.Duration;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * Whose turn it is when there is an attention word: what may be said without it, and how long. One
 * thread.
 */
final class Turn {

  /**
   * After the word alone, what begins within this time follows it: whoever calls and takes a breath
   * is still speaking, and longer than this somebody else is as likely. Common practice, no source.
   */
  static final Duration AFTER_THE_WORD = Duration.ofSeconds(3);

  /**
   * An answer to a question needs no word for so long: time to look, not so long that a "yes" said
   * to somebody else settles it. Common practice, no source.
   */
  static final Duration TO_ANSWER = Duration.ofSeconds(15);

  /**
   * What is to be said again may be said so long, with the word after the time for an answer.
   * Common practice, no source.
   */
  static final Duration TO_SAY_AGAIN = Duration.ofSeconds(30);

  /**
   * After an entry that was called out, another may follow without the word: time to go on in the
   * same breath, "and another one". Common practice, no source.
   */
  static final Duration AFTER_AN_ENTRY = Duration.ofSeconds(6);

  private final boolean followOns;
  private @Nullable Instant notedAt;
  private @Nullable Instant calledAt;
  private @Nullable Instant askedAt;

  /** For recordings: only the word opens a turn. */
  Turn() {
    this(false);
  }

  /**
   * A turn of nobody.
   *
   * @param followOns whether an entry that was called out leaves the turn open for another
   */
  Turn(boolean followOns) {
    this.followOns = followOns;
  }

  /** False for recordings. */
  boolean isLive() {
    return followOns;
  }

  /** What was called out is noted, and was said back by then. */
  void noted(Instant end) {
    notedAt = end;
  }

  /** The word was said and nothing else; it ended then. */
  void called(Instant end) {
    calledAt = end;
  }

  /** A question was put; what led to it ended then. */
  void asked(Instant end) {
    askedAt = end;
  }

  /** Whether what begins now follows the word. */
  boolean wouldTakeUp(Instant begin) {
    return within(calledAt, begin, AFTER_THE_WORD)
        || (followOns && within(notedAt, begin, AFTER_AN_ENTRY));
  }

  /** Something was said: the word counts for one utterance. */
  void over() {
    calledAt = null;
    notedAt = null;
  }

  /** Whether what begins now may answer. */
  boolean mayAnswer(Instant begin) {
    return within(askedAt, begin, TO_ANSWER);
  }

  /** Whether what was to be said again is hardly meant any more. */
  boolean isTooLateToSayAgain(Instant now) {
    return askedAt == null || now.isAfter(askedAt.plus(TO_SAY_AGAIN));
  }

  private static boolean within(@Nullable Instant since, Instant begin, Duration time) {
    return since != null && !begin.isBefore(since) && !begin.isAfter(since.plus(time));
  }
}
