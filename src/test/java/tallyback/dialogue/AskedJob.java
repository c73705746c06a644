package tallyback.dialogue;

import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import tallyback.dialogue.answers.Answer;
import tallyback.dialogue.answers.Answers;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.phrase.EntryGrammar;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;
import tallyback.plan.PlanReading;

/** A small job that is told and asked about in words; each thing said a minute after the last. */
public final class AskedJob {

  private static final Instant NINE = Instant.parse("2026-03-02T09:00:00Z");

  private final List<Entry> noted = new ArrayList<>();
  private final Dialogue dialogue;
  private Instant now = NINE;
  private int said;

  /** A job after this plan, of which nothing is told yet. */
  public AskedJob(String planText) {
    PlanReading reading = PlanReader.read("plan.yaml", planText);
    Plan plan = reading.plan().orElseThrow(() -> new AssertionError(reading.faults().toString()));
    EntryGrammar grammar = EntryGrammar.of(plan);
    Interpreter interpreter = Interpreter.of(grammar);
    dialogue =
        new Dialogue(
            plan,
            interpreter,
            new Answers(plan, grammar::readBack, grammar::card),
            (draft, clip) -> {
              Entry entry = draft.noted(noted.size() + 1L, null);
              noted.add(entry);
              return entry;
            },
            new Dialogue.Setting(
                "job", "test", "mechanic", ZoneOffset.UTC, InstantSource.fixed(NINE)),
            List.of());
  }

  /** Says something that is heard for sure. */
  public Reply say(String words) {
    return heard(false, false, words);
  }

  /** Says several things, each of which must be noted. */
  public void tell(String... lines) {
    for (String line : lines) {
      Reply reply = say(line);
      if (reply.status() != Reply.Status.NOTED) {
        throw new AssertionError(line + ": " + reply);
      }
    }
  }

  /** Says something that is asked about, and leaves the question open for good. */
  public void unconfirmed(String words) {
    doubtful(words);
    dialogue.finish();
  }

  /** What may have been said, best first, in doubt. */
  Reply doubtful(String... readings) {
    return heard(true, false, readings);
  }

  /** The same behind the attention word. */
  Reply calledDoubtful(String... readings) {
    return heard(true, true, readings);
  }

  private Reply heard(boolean doubtful, boolean called, String... readings) {
    said++;
    now = now.plusSeconds(60);
    return dialogue.take(
        new Utterance(
            "u" + said, now, Source.SPOKEN, List.of(readings), doubtful, null, called, 40));
  }

  /** The answer to a question. */
  public Answer ask(String question) {
    Reply reply = say(question);
    Answer answer = reply.answer();
    if (reply.status() != Reply.Status.ANSWERED || answer == null) {
      throw new AssertionError(question + ": " + reply);
    }
    return answer;
  }

  /** All that was noted. */
  public List<Entry> noted() {
    return List.copyOf(noted);
  }

  boolean isWaitingForAnswer() {
    return dialogue.isWaitingForAnswer();
  }
}
