package tallyback.dialogue;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import tallyback.dialogue.answers.Answers;
import tallyback.log.Draft;
import tallyback.model.Amount;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.JobOpened;
import tallyback.phrase.EntryGrammar;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;

/** Somebody talking to a dialogue about the demo job, one utterance a minute from nine o'clock. */
final class Talk {

  static final Instant NINE = Instant.parse("2026-03-02T09:00:00Z");

  private static final Plan PLAN = readPlan();
  private static final EntryGrammar GRAMMAR = EntryGrammar.of(PLAN);

  final List<Entry> noted = new ArrayList<>();
  private final Plan plan;
  private final Interpreter interpreter;
  private final Answers answers;
  private Dialogue dialogue;
  private int said;

  /** A job with nothing noted, not even its opening. */
  Talk() {
    this(PLAN, GRAMMAR);
  }

  private Talk(Plan plan, EntryGrammar grammar) {
    this.plan = plan;
    interpreter = Interpreter.of(grammar);
    answers = new Answers(plan, grammar::readBack, grammar::card);
    dialogue = start();
  }

  /** Where these voices were taught. */
  static Talk withVoices(String... names) {
    return new Talk(PLAN, EntryGrammar.of(PLAN, List.of(names)));
  }

  /** About another plan. */
  static Talk about(String planText) {
    Plan plan = PlanReader.read("plan.yaml", planText).plan().orElseThrow();
    return new Talk(plan, EntryGrammar.of(plan));
  }

  /** A job that was opened at eight. */
  static Talk opened() {
    Talk talk = new Talk();
    Instant eight = NINE.minusSeconds(3600);
    talk.note(
        new Draft(
            "opening",
            "job",
            eight,
            eight,
            ZoneOffset.UTC,
            "tallyback",
            "test",
            Source.TOOL,
            tallyback.model.Certainty.CONFIRMED,
            "job opened",
            new JobOpened("plan", "0".repeat(64), "text")));
    talk.startAgain();
    return talk;
  }

  private static Plan readPlan() {
    try {
      return PlanReader.read(Path.of("demo-data/plan.yaml")).plan().orElseThrow();
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private Dialogue start() {
    return new Dialogue(
        plan,
        interpreter,
        answers,
        (draft, clip) -> note(draft),
        new Dialogue.Setting("job", "test", "mechanic", ZoneOffset.UTC, InstantSource.fixed(NINE)),
        List.copyOf(noted));
  }

  /** The tool is started again. */
  void startAgain() {
    dialogue = start();
  }

  Dialogue dialogue() {
    return dialogue;
  }

  private Entry note(Draft draft) {
    Entry entry = draft.noted(noted.size() + 1L, null);
    noted.add(entry);
    return entry;
  }

  Reply sure(String words) {
    return say(false, words);
  }

  /** Several things in a row. */
  void sureOf(String... each) {
    for (String words : each) {
      sure(words);
    }
  }

  Reply doubtful(String... readings) {
    return say(true, readings);
  }

  Reply say(boolean doubtful, String... readings) {
    said++;
    return dialogue.take(
        new Utterance(
            "u" + said,
            NINE.plusSeconds(60L * said),
            Source.SPOKEN,
            List.of(readings),
            doubtful,
            null));
  }

  Entry lastEntry() {
    return noted.get(noted.size() - 1);
  }

  Statement last() {
    return lastEntry().statement();
  }

  static Amount amountOf(Statement statement) {
    return Amounts.of(statement).orElseThrow();
  }
}
