package tallyback.speech.sphinx;

import java.util.List;
import java.util.Map;
import tallyback.phrase.Lexicon;
import tallyback.phrase.WordGraph;
import tallyback.speech.ListeningMode;
import tallyback.speech.ListeningSettings;
import tallyback.speech.Meaning;
import tallyback.speech.RecogniserSettings;
import tallyback.speech.adapt.Lesson;
import tallyback.speech.adapt.NoiseLearner;
import tallyback.speech.adapt.TeachableRecogniser;

/**
 * The one way to a recogniser. Thread rule: may be called from any thread; each call makes a
 * recogniser of its own.
 */
public final class SphinxRecognisers {

  private SphinxRecognisers() {}

  /**
   * Begins to read the acoustic model, which takes longest, while the caller still reads the plan
   * and compiles its grammar. The next recogniser opened takes it; calling again before that does
   * nothing. A program that never opens one may still end.
   */
  public static void loadAhead() {
    PhoneModels.loadAhead();
  }

  /**
   * Opens a recogniser and makes sure that it hears: a bundled clip is recognised before it is
   * handed out.
   *
   * @param grammars what may be said in each listening mode; at least one
   * @param lexicon how the words sound
   * @param meaning which readings amount to the same, and are no rivals
   * @param settings how to listen in each of these modes
   * @return an open recogniser, to be closed by the caller
   * @throws tallyback.speech.UnknownWords if any word of any grammar has no pronunciation; all of
   *     them are named
   */
  public static TeachableRecogniser open(
      Map<ListeningMode, WordGraph> grammars,
      Lexicon lexicon,
      Meaning meaning,
      ListeningSettings settings) {
    return SphinxRecogniser.open(grammars, lexicon, meaning, settings);
  }

  /**
   * Opens a learner of noises for recognisers from here. It reads a model of its own.
   *
   * @param known what is learned from, and checked on: every fifth is held back
   * @param grammar whose easily mistaken phrases are set against the known words
   * @param lexicon how the words sound
   * @param meaning which readings amount to the same
   * @return the learner
   * @throws tallyback.speech.UnknownWords if any word has no pronunciation; all of them are named
   */
  public static NoiseLearner learner(
      List<Lesson> known, WordGraph grammar, Lexicon lexicon, Meaning meaning) {
    return SphinxNoiseLearner.open(known, grammar, lexicon, meaning);
  }

  /**
   * Opens a recogniser that searches in the same way in every mode.
   *
   * @param grammars what may be said in each listening mode; at least one
   * @param lexicon how the words sound
   * @param meaning which readings amount to the same, and are no rivals
   * @param settings how to search
   * @return an open recogniser, to be closed by the caller
   * @throws tallyback.speech.UnknownWords if any word of any grammar has no pronunciation; all of
   *     them are named
   */
  public static TeachableRecogniser open(
      Map<ListeningMode, WordGraph> grammars,
      Lexicon lexicon,
      Meaning meaning,
      RecogniserSettings settings) {
    return open(grammars, lexicon, meaning, ListeningSettings.same(settings));
  }

  /**
   * Opens a recogniser to which different words always mean something different.
   *
   * @param grammars what may be said in each listening mode; at least one
   * @param lexicon how the words sound
   * @param settings how to search
   * @return an open recogniser, to be closed by the caller
   * @throws tallyback.speech.UnknownWords if any word of any grammar has no pronunciation; all of
   *     them are named
   */
  public static TeachableRecogniser open(
      Map<ListeningMode, WordGraph> grammars, Lexicon lexicon, RecogniserSettings settings) {
    return open(grammars, lexicon, Meaning.literal(), settings);
  }
}
