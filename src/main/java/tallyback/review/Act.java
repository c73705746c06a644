package tallyback.review;

import java.time.Instant;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;
import tallyback.model.Statement.FindingEnd;

/** What a reviewer does. Entries are named by their number in the job. */
public sealed interface Act {

  /** The reason, in the reviewer's words. */
  String why();

  /**
   * A finding is answered.
   *
   * @param finding its id
   * @param read what it said when it was read ({@code Finding.says}); null to take it as it is now
   * @param end what became of it
   * @param by who put it right, agreed to it, or is to look again
   * @param why what was done, or why it may stay so
   * @param again the day on which it is to be looked at, or null
   */
  record Answer(
      String finding,
      @Nullable String read,
      FindingEnd end,
      String by,
      String why,
      @Nullable LocalDate again)
      implements Act {}

  /**
   * An entry is to mean something else.
   *
   * @param seq its number
   * @param words what it is to say
   */
  record Change(long seq, String words, String why) implements Act {}

  /**
   * An entry that was in doubt is right as it stands.
   *
   * @param seq its number
   */
  record Confirm(long seq, String why) implements Act {}

  /**
   * An entry happened at another time.
   *
   * @param seq its number
   * @param to when
   */
  record Retime(long seq, Instant to, String why) implements Act {}

  /**
   * An entry doesn't count.
   *
   * @param seq its number
   */
  record Withdraw(long seq, String why) implements Act {}

  /**
   * Something was forgotten, or done just now.
   *
   * @param words what it is to say
   * @param at when it happened; null for what the reviewer did himself just now, which needs no
   *     reason
   */
  record Add(String words, @Nullable Instant at, String why) implements Act {}

  /**
   * What was not understood is settled.
   *
   * @param seq its number
   * @param words what it said; null when nothing of it is wanted
   */
  record Settle(long seq, @Nullable String words, String why) implements Act {}
}
