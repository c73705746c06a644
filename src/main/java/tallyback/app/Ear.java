package tallyback.app;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tallyback.audio.Clip;
import tallyback.phrase.EntryGrammar;
import tallyback.phrase.WordGraph;
import tallyback.speech.Doubt;
import tallyback.speech.Hearing;
import tallyback.speech.Judgement;
import tallyback.speech.ListeningMode;
import tallyback.speech.Reading;
import tallyback.speech.Recogniser;
import tallyback.speech.RecogniserSettings;
import tallyback.speech.sphinx.SphinxRecognisers;

/**
 * The recogniser listening for one plan: a clip goes in, what it may have been comes out, with the
 * decision whether to note, ask or reject. One thread; {@link #close} frees the models.
 */
public final class Ear implements AutoCloseable {

  private final Recogniser recogniser;
  private final Doubt doubt;
  private final @Nullable String attention;

  private Ear(Recogniser recogniser, @Nullable String attention) {
    this.recogniser = recogniser;
    this.doubt = Doubt.defaults();
    this.attention = attention;
  }

  /**
   * What was made of a clip.
   *
   * @param judgement note, ask or reject
   * @param readings the words, best first; empty when rejected
   * @param snrDb signal-to-noise ratio of the clip in dB
   * @param logScore how well the best reading explains the sound; compares hearings of one clip
   */
  public record Heard(Judgement judgement, List<String> readings, double snrDb, double logScore) {

    /** Copies the readings. */
    public Heard {
      readings = List.copyOf(readings);
    }
  }

  /**
   * Starts reading the acoustic model for the next ear to open, while the plan is read: together
   * they are most of the time to first listening.
   */
  public static void loadAhead() {
    EntryGrammar.loadAhead();
    SphinxRecognisers.loadAhead();
  }

  /**
   * Opens the ear.
   *
   * @param plan what may be said
   * @param attention a word that every entry must begin with, or null for none
   * @throws WrongUse if the attention word has no pronunciation
   */
  public static Ear open(LoadedPlan plan, @Nullable String attention) {
    requireKnown(plan, attention);
    WordGraph entries = plan.grammar().entries();
    Map<ListeningMode, WordGraph> grammars =
        Map.of(
            ListeningMode.ENTRIES,
            attention == null ? entries : Attention.before(entries, attention),
            ListeningMode.ANSWERS,
            plan.grammar().answers());
    return new Ear(
        SphinxRecognisers.open(
            grammars,
            plan.lexicon(),
            words -> meaning(plan, attention, words),
            RecogniserSettings.defaults()),
        attention);
  }

  /**
   * Checks the attention word before any work is done.
   *
   * @throws WrongUse if it has no pronunciation
   */
  public static void requireKnown(LoadedPlan plan, @Nullable String attention) {
    if (attention != null && !plan.lexicon().knows(attention)) {
      throw new WrongUse(
          "--attention "
              + attention
              + ": expected a word with a known pronunciation; choose another, or add it under"
              + " pronunciations in the plan");
    }
  }

  /** Two readings are rivals only when they would be noted differently. */
  private static Object meaning(LoadedPlan plan, @Nullable String attention, List<String> words) {
    return plan.grammar().sense(stripped(attention, words));
  }

  private static List<String> stripped(@Nullable String attention, List<String> words) {
    return !words.isEmpty() && words.get(0).equals(attention)
        ? words.subList(1, words.size())
        : words;
  }

  /** Listens for an entry. */
  public Heard entry(Clip clip) {
    return heard(clip, recogniser.hear(clip, ListeningMode.ENTRIES));
  }

  /**
   * Listens for an answer. One that is itself in doubt is none, for it would settle the doubt of
   * another.
   */
  public Heard answer(Clip clip) {
    Heard heard = heard(clip, recogniser.hear(clip, ListeningMode.ANSWERS));
    return heard.judgement() == Judgement.ASK
        ? new Heard(Judgement.REJECT, List.of(), heard.snrDb(), heard.logScore())
        : heard;
  }

  /** While a question is open: an answer or another entry, whichever explains the sound better. */
  static Heard better(Heard answer, Heard entry) {
    return entry.logScore() > answer.logScore() ? entry : answer;
  }

  /**
   * Where a piece of the sound is missing or clipped a word may be lost, however clear the rest.
   */
  private static Judgement wholeOrAsked(Clip clip, Judgement judgement) {
    return judgement == Judgement.NOTE && clip.isSpoilt() ? Judgement.ASK : judgement;
  }

  private Heard heard(Clip clip, Hearing hearing) {
    Judgement judgement = wholeOrAsked(clip, doubt.judge(hearing));
    List<String> readings =
        judgement == Judgement.REJECT
            ? List.of()
            : hearing.readings().stream()
                .map(Reading::texts)
                .map(words -> String.join(" ", stripped(attention, words)))
                .toList();
    double score =
        hearing.isRejected() ? Double.NEGATIVE_INFINITY : hearing.readings().get(0).logScore();
    return new Heard(judgement, readings, hearing.level().snrDb(), score);
  }

  @Override
  public void close() {
    recogniser.close();
  }
}
