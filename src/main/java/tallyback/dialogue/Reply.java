package tallyback.dialogue;

import java.util.List;
import org.jspecify.annotations.Nullable;
import tallyback.dialogue.answers.Answer;
import tallyback.model.Entry;

/**
 * What became of an utterance.
 *
 * @param status noted, asked, answered, or rejected
 * @param entry the entry that is now in the log because of it, or null; when rejected, what was
 *     kept as not understood
 * @param leftOpen entries noted as unconfirmed just before, because their question was never
 *     answered
 * @param say what to tell the speaker: the question, or why nothing was noted; empty for a plain
 *     note, which is read back; of an answer what is spoken
 * @param readings the words as understood, best first
 * @param reminder what else to tell the speaker: what a correction puts right, what is still to be
 *     said, that something before was not understood; after an answer, the question that is still
 *     open; empty for nothing
 * @param answer what is answered to the speaker's question, for ear and eye; else null
 */
public record Reply(
    Status status,
    @Nullable Entry entry,
    List<Entry> leftOpen,
    String say,
    List<String> readings,
    String reminder,
    @Nullable Answer answer) {

  /** The things that can become of an utterance. */
  public enum Status {
    /** In the log. */
    NOTED,
    /** Understood, waiting for an answer. */
    ASKED,
    /** A question of the speaker's was answered; nothing is noted because of it. */
    ANSWERED,
    /** No entry, or nothing that could be noted now. */
    REJECTED
  }

  /** Copies its lists. */
  public Reply {
    leftOpen = List.copyOf(leftOpen);
    readings = List.copyOf(readings);
  }

  /** One that answers nothing. */
  public Reply(
      Status status,
      @Nullable Entry entry,
      List<Entry> leftOpen,
      String say,
      List<String> readings,
      String reminder) {
    this(status, entry, leftOpen, say, readings, reminder, null);
  }

  /** One without a reminder. */
  Reply(
      Status status,
      @Nullable Entry entry,
      List<Entry> leftOpen,
      String say,
      List<String> readings) {
    this(status, entry, leftOpen, say, readings, "");
  }

  /** The same with something more to tell, after what there is. */
  Reply alsoReminding(String of) {
    return new Reply(
        status,
        entry,
        leftOpen,
        say,
        readings,
        reminder.isEmpty() ? of : reminder + (reminder.endsWith(".") ? " " : ". ") + of,
        answer);
  }
}
