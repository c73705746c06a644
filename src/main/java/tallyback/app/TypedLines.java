package tallyback.app;

import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.format.DateTimeParseException;
import java.util.List;
import tallyback.dialogue.Dialogue;
import tallyback.dialogue.Reply;
import tallyback.dialogue.Utterance;
import tallyback.dialogue.answers.Answer;
import tallyback.model.Entry;
import tallyback.model.Source;

/** Typed lines on their way into the log. One thread, that of the desk. */
public final class TypedLines {

  private final JobDesk desk;
  private final Dialogue dialogue;

  /** Lines for the job at this desk. */
  public TypedLines(JobDesk desk) {
    this.desk = desk;
    this.dialogue = desk.dialogue();
  }

  /**
   * What became of a line.
   *
   * @param status noted, asked, answered or rejected
   * @param line what to show
   * @param leftOpen what was asked before and is now noted as unconfirmed, one line each
   */
  public record Told(Reply.Status status, String line, List<String> leftOpen) {

    /** Copies the list. */
    public Told {
      leftOpen = List.copyOf(leftOpen);
    }
  }

  /**
   * Takes one line, possibly with its time in front.
   *
   * @return what became of it; a line that is no entry is told with the nearest phrases, and
   *     nothing of it is noted
   */
  public Told enter(String line) {
    String words = line.strip();
    Instant at = desk.setting().clock().instant();
    if (words.startsWith("@")) {
      int blank = words.indexOf(' ');
      String time = blank < 0 ? words.substring(1) : words.substring(1, blank);
      try {
        at = OffsetDateTime.parse(time).toInstant();
      } catch (DateTimeParseException e) {
        return new Told(
            Reply.Status.REJECTED,
            notNoted(words, "expected a time such as @2026-03-02T09:15:00+01:00, found @" + time),
            List.of());
      }
      words = blank < 0 ? "" : words.substring(blank + 1).strip();
    }
    // A line with a time of its own tells of what was done before: a caution would come too late.
    dialogue.sayCautions(!line.strip().startsWith("@"));
    Reply reply =
        dialogue.take(new Utterance(desk.freshId(), at, Source.TYPED, List.of(words), false, null));
    return told(words, reply);
  }

  private Told told(String words, Reply reply) {
    List<String> leftOpen = reply.leftOpen().stream().map(this::unconfirmed).toList();
    return new Told(reply.status(), line(words, reply), leftOpen);
  }

  private String line(String words, Reply reply) {
    return switch (reply.status()) {
      case NOTED -> {
        Entry entry = reply.entry();
        String more = reply.reminder().isEmpty() ? "" : "; " + reply.reminder();
        yield "noted: " + (entry == null ? words : readBack(entry)) + more;
      }
      case ASKED -> "asked: " + reply.say();
      case ANSWERED -> answered(reply);
      case REJECTED ->
          notNoted(
              words,
              reply.say().isEmpty() ? desk.plan().grammar().whyNot(words).toString() : reply.say());
    };
  }

  private static String answered(Reply reply) {
    Answer answer = reply.answer();
    String shown = answer == null ? reply.say() : answer.shown();
    return reply.reminder().isEmpty() ? shown : shown + "\nasked: " + reply.reminder();
  }

  private static String notNoted(String words, String why) {
    return "not noted: \"" + words + "\": " + why;
  }

  private String unconfirmed(Entry entry) {
    return "noted as unconfirmed: " + readBack(entry) + "; type it again in full to confirm it";
  }

  private String readBack(Entry entry) {
    return desk.plan().grammar().readBack(entry.statement()).written();
  }

  /** Ends the lines: questions nobody answered are noted as unconfirmed and told, one line each. */
  public List<String> finish() {
    return dialogue.finish().stream().map(this::unconfirmed).toList();
  }
}
