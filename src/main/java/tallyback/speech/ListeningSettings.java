package tallyback.speech;

import java.util.EnumMap;
import java.util.Map;

/**
 * How to listen in each mode. The defaults are the tuned values behind every published figure: what
 * rejects talk in a grammar of some hundred words turns down half the answers to a yes or no, and a
 * word that is only looked for among any phones needs a limit of its own.
 *
 * @param byMode the search's settings; {@link ListeningMode#ATTENTION} looks at the price of a
 *     phone of the filler and at {@link RecogniserSettings#leastFit} only
 * @param leastOfOneWord an answer of one word is rejected when an ordinary word explains its sound
 *     better by more than this: natural log of the likelihood ratio, per second of the answer.
 *     Higher rejects more.
 * @param leastOfMoreWords the same for a longer answer, of which more can be asked
 * @param ofAnswers what makes an answer doubtful; entries are judged {@link ByTrust}
 */
public record ListeningSettings(
    Map<ListeningMode, RecogniserSettings> byMode,
    double leastOfOneWord,
    double leastOfMoreWords,
    Doubt ofAnswers) {

  /**
   * Real people say "stop" with a fit down to here; what is no answer must be told by its words.
   */
  private static final double LEAST_FIT_OF_ANSWERS = -130;

  /** In noise an answer fits worse too, and is still held against ordinary words. */
  private static final double ADDED_FIT_OF_ANSWERS = 30;

  private static final double LEAST_OF_ONE_WORD = -100;

  private static final double LEAST_OF_MORE_WORDS = 0;

  /** Several words are long enough to fit as an entry does. */
  private static final double LEAST_FIT_OF_MORE_WORDS = -50;

  private static final double LEAST_FIT_OF_ATTENTION = -80;

  /** A short word: only looked for where nothing else was understood. */
  private static final double LEAST_FIT_OF_MEMO = -60;

  /** Copies the settings. */
  public ListeningSettings {
    byMode = new EnumMap<>(byMode);
  }

  /**
   * The tuned values.
   *
   * @return the defaults
   */
  public static ListeningSettings defaults() {
    RecogniserSettings entries = RecogniserSettings.defaults();
    return new ListeningSettings(
        Map.of(
            ListeningMode.ENTRIES,
            entries,
            ListeningMode.ANSWERS,
            entries.withLeastFit(LEAST_FIT_OF_ANSWERS),
            ListeningMode.ATTENTION,
            entries.withLeastFit(LEAST_FIT_OF_ATTENTION),
            ListeningMode.MEMO,
            entries.withLeastFit(LEAST_FIT_OF_MEMO)),
        LEAST_OF_ONE_WORD,
        LEAST_OF_MORE_WORDS,
        tunedForAnswers());
  }

  private static Doubt tunedForAnswers() {
    Doubt entries = Doubt.defaults();
    Doubt.Noise noise = entries.noise();
    return new Doubt(
        LEAST_FIT_OF_ANSWERS,
        entries.leastWordFit(),
        entries.margins(),
        new Doubt.Noise(noise.quietDb(), noise.loudDb(), ADDED_FIT_OF_ANSWERS, noise.addedMargin()),
        entries.strangeness());
  }

  /**
   * The same settings for every mode, the rest as tuned.
   *
   * @param settings how to search
   * @return the settings
   */
  public static ListeningSettings same(RecogniserSettings settings) {
    Map<ListeningMode, RecogniserSettings> byMode = new EnumMap<>(ListeningMode.class);
    for (ListeningMode mode : ListeningMode.values()) {
      byMode.put(mode, settings);
    }
    return new ListeningSettings(byMode, LEAST_OF_ONE_WORD, LEAST_OF_MORE_WORDS, tunedForAnswers());
  }

  /**
   * Whether what was read as an answer can be one.
   *
   * @param reading the answer
   * @param overOtherWords natural log of the likelihood ratio to ordinary words, per second of it
   * @return false when it is to be rejected
   */
  public boolean isAnswer(Reading reading, double overOtherWords) {
    return reading.words().size() == 1
        ? overOtherWords >= leastOfOneWord
        : overOtherWords >= leastOfMoreWords && reading.fit() >= LEAST_FIT_OF_MORE_WORDS;
  }

  /**
   * How to search in a mode.
   *
   * @param mode the mode
   * @return its settings
   * @throws IllegalArgumentException if there are none
   */
  public RecogniserSettings of(ListeningMode mode) {
    RecogniserSettings settings = byMode.get(mode);
    if (settings == null) {
      throw new IllegalArgumentException("no settings for " + mode + "; give some");
    }
    return settings;
  }

  /**
   * Who decides in a mode what a hearing is worth.
   *
   * @param mode the mode
   * @return its judge
   */
  public Judge judge(ListeningMode mode) {
    return mode == ListeningMode.ANSWERS ? ofAnswers : ByTrust.defaults();
  }
}
