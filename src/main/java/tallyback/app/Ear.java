package tallyback.app;

import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.audio.Clip;
import tallyback.audio.LevelMeter;
import tallyback.dialogue.answers.Voices;
import tallyback.phrase.EntryGrammar;
import tallyback.phrase.PrintedWords;
import tallyback.phrase.WordGraph;
import tallyback.speech.Hearing;
import tallyback.speech.Judgement;
import tallyback.speech.ListeningMode;
import tallyback.speech.ListeningSettings;
import tallyback.speech.Reading;
import tallyback.speech.SecondEar;
import tallyback.speech.SecondKind;
import tallyback.speech.TwoOpinions;
import tallyback.speech.Word;
import tallyback.speech.adapt.NoiseModel;
import tallyback.speech.adapt.TeachableRecogniser;
import tallyback.speech.sphinx.SphinxRecognisers;

/**
 * The recogniser listening for one plan: a clip goes in, what it may have been comes out, with the
 * decision whether to note, ask or reject. With an attention word it also tells whether the clip
 * begins with it. Entries may be heard by a second recogniser besides: see {@link TwoOpinions}. One
 * thread; {@link #close} frees the models.
 */
public final class Ear implements AutoCloseable {

  /** What a memo that goes on in the same breath begins with. */
  private static final String MEMO = "memo";

  /** A word so short stands in other people's talk, too; in 115 pieces of it none fits better. */
  private static final double LEAST_FIT_UNCALLED = 50;

  /** The end of that word is drawn out, and what is shorter is no memo. */
  private static final long NO_MEMO_MS = 900;

  private final TeachableRecogniser recogniser;
  private final Expected voices;

  /**
   * So much of a clip behind the attention word is what the cutter leaves behind speech, and no
   * word more.
   */
  private static final long NOTHING_MORE_MS = 450;

  /** Sound before the end of the attention word that may belong to what follows it. */
  private static final long BEFORE_ITS_END_MS = 30;

  private final ListeningSettings settings;
  private final @Nullable String attention;
  private final @Nullable Aside aside;
  private @Nullable Called lastCall;

  private Ear(
      TeachableRecogniser recogniser,
      KnownVoices voices,
      ListeningSettings settings,
      @Nullable String attention,
      @Nullable Aside aside) {
    this.recogniser = recogniser;
    this.voices = new Expected(voices);
    this.settings = settings;
    this.attention = attention;
    this.aside = aside;
  }

  /** A second recogniser, and what makes sense of it. */
  private record Aside(SecondEar ear, PrintedWords reader, EntryGrammar grammar, SecondKind kind) {

    static Aside start(Second second, LoadedPlan plan) {
      return new Aside(
          second.start(plan),
          plan.grammar().printedWords(plan.lexicon()),
          plan.grammar(),
          second.kind());
    }
  }

  /** A clip that began with the attention word, and where that ended. */
  private record Called(Clip clip, long wordEndMs) {}

  /** How a clip stands to the attention word. */
  public enum Call {
    /** It doesn't begin with it, or there is none. */
    NONE,
    /** It begins with it and goes on. */
    AND_MORE,
    /** It is the word and nothing else. */
    ALONE
  }

  /**
   * What was made of a clip.
   *
   * @param judgement note, ask or reject
   * @param readings the words, best first; empty when rejected
   * @param snrDb signal-to-noise ratio of the clip in dB
   * @param logScore how much better the best reading explains the sound than any row of phones;
   *     compares hearings of one clip
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
   * @throws WrongUse if the attention word has no pronunciation, or the voice that is expected at
   *     first was learned with another acoustic model
   */
  public static Ear open(LoadedPlan plan, @Nullable String attention) {
    return open(plan, attention, null);
  }

  /**
   * Opens the ear with a second recogniser beside it.
   *
   * @param plan what may be said
   * @param attention a word that every entry must begin with, or null for none
   * @param second the second recogniser, or null for none
   * @throws WrongUse if the attention word has no pronunciation
   */
  public static Ear open(LoadedPlan plan, @Nullable String attention, @Nullable Second second) {
    requireKnown(plan, attention);
    // It reads its model while the first does.
    Aside aside = second == null ? null : Aside.start(second, plan);
    ListeningSettings settings = ListeningSettings.defaults();
    TeachableRecogniser recogniser = null;
    try {
      recogniser =
          SphinxRecognisers.open(
              grammars(plan.grammar(), attention),
              plan.lexicon(),
              words -> meaning(plan, attention, words),
              settings);
      return new Ear(
          recogniser, plan.voices().learnedWith(recogniser.model()), settings, attention, aside);
    } catch (RuntimeException e) {
      if (recogniser != null) {
        recogniser.close();
      }
      if (aside != null) {
        aside.ear().close();
      }
      throw e;
    }
  }

  /** Whose voice is listened for; told to the recogniser with the next clip, on its own thread. */
  private final class Expected implements Voices {
    private final KnownVoices known;
    private @Nullable String now;
    private boolean told;

    Expected(KnownVoices known) {
      this.known = known;
      now = known.first();
      told = now == null;
    }

    @Override
    public @Nullable String expected() {
      return now;
    }

    @Override
    public boolean expect(@Nullable String voice) {
      if (voice != null && !known.profiles().containsKey(voice)) {
        return false;
      }
      told &= Objects.equals(voice, now);
      now = voice;
      return true;
    }

    void tell() {
      if (!told) {
        recogniser.expect(now == null ? null : known.profiles().get(now));
        told = true;
      }
    }
  }

  /** Whose voice is listened for. */
  Voices voices() {
    return voices;
  }

  /** Whatever is like one of these noises is heard as was learned for it. */
  void use(List<NoiseModel> learned) {
    recogniser.use(learned);
  }

  private Hearing hear(Clip clip, ListeningMode mode) {
    voices.tell();
    return recogniser.hear(clip, mode);
  }

  private static Map<ListeningMode, WordGraph> grammars(
      EntryGrammar grammar, @Nullable String attention) {
    return attention == null
        ? Map.of(
            ListeningMode.ENTRIES,
            grammar.entries(),
            ListeningMode.ANSWERS,
            grammar.answers(),
            ListeningMode.MEMO,
            Attention.alone(MEMO))
        : Map.of(
            ListeningMode.ENTRIES,
            Attention.maybeBefore(grammar.entries(), attention),
            ListeningMode.ANSWERS,
            Attention.maybeBefore(grammar.answers(), attention),
            ListeningMode.MEMO,
            Attention.alone(MEMO),
            ListeningMode.ATTENTION,
            Attention.alone(attention));
  }

  /**
   * Checks the attention word before any work is done.
   *
   * @throws WrongUse if it has no pronunciation, or is a word that the plan's entries or answers
   *     use: then nobody could tell which it is
   */
  public static void requireKnown(LoadedPlan plan, @Nullable String attention) {
    if (attention != null && isUsed(plan.grammar(), attention)) {
      throw new WrongUse(
          "--attention "
              + attention
              + ": expected a word that no entry uses; choose another, such as toolmaker");
    }
    if (attention != null && !plan.lexicon().knows(attention)) {
      throw new WrongUse(
          "--attention "
              + attention
              + ": expected a word with a known pronunciation; choose another, or add it under"
              + " pronunciations in the plan");
    }
  }

  private static boolean isUsed(EntryGrammar grammar, String word) {
    return grammar.entries().words().contains(word) || grammar.answers().words().contains(word);
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

  /** Whether there is an attention word. */
  public boolean needsCalling() {
    return attention != null;
  }

  /** Listens for the attention word at the beginning of a clip. */
  public Call call(Clip clip) {
    if (attention == null) {
      return Call.NONE;
    }
    Hearing word = hear(clip, ListeningMode.ATTENTION);
    lastCall = word.isRejected() ? null : new Called(clip, wordEndMs(word));
    return call(clip, word, NOTHING_MORE_MS);
  }

  private static Call call(Clip clip, Hearing oneWord, long nothingMoreMs) {
    if (oneWord.isRejected()) {
      return Call.NONE;
    }
    return clip.endMs() - wordEndMs(oneWord) < nothingMoreMs ? Call.ALONE : Call.AND_MORE;
  }

  private static long wordEndMs(Hearing oneWord) {
    return oneWord.readings().get(0).words().get(0).endMs();
  }

  /**
   * Listens for "memo" at the beginning of a clip that was not understood.
   *
   * @param called whether the attention word stands before it
   */
  public Call memo(Clip clip, boolean called) {
    Clip from = clip;
    if (called) {
      Hearing word = hear(clip, ListeningMode.ATTENTION);
      from = word.isRejected() ? clip : clip.from(wordEndMs(word));
    }
    Hearing word = hear(from, ListeningMode.MEMO);
    boolean clear =
        called || word.isRejected() || word.readings().get(0).fit() >= LEAST_FIT_UNCALLED;
    return clear ? call(from, word, NO_MEMO_MS) : Call.NONE;
  }

  /** Listens for an entry. */
  public Heard entry(Clip clip) {
    SecondEar.Asked asked = askSecond(clip);
    return heard(hear(clip, ListeningMode.ENTRIES), ListeningMode.ENTRIES, asked);
  }

  /**
   * Listens for an entry in a clip that begins with the attention word: when no entry follows the
   * word, it was not understood.
   */
  public Heard calledEntry(Clip clip) {
    Called called = lastCall;
    SecondEar.Asked asked =
        askSecond(
            called != null && called.clip().equals(clip)
                ? clip.from(called.wordEndMs() - BEFORE_ITS_END_MS)
                : clip);
    return startingWithTheWord(hear(clip, ListeningMode.ENTRIES), ListeningMode.ENTRIES, asked);
  }

  private SecondEar.Asked askSecond(Clip clip) {
    return aside == null ? Optional::empty : aside.ear().ask(clip);
  }

  /** What is made of a clip that nobody listens to. */
  public Heard passedOver(Clip clip) {
    return new Heard(
        Judgement.REJECT, List.of(), LevelMeter.measure(clip).snrDb(), Double.NEGATIVE_INFINITY);
  }

  /**
   * Listens for an answer. One that is itself in doubt is none, for it would settle the doubt of
   * another.
   */
  public Heard answer(Clip clip) {
    return sure(heard(hear(clip, ListeningMode.ANSWERS), ListeningMode.ANSWERS, Optional::empty));
  }

  /** Listens for an answer in a clip that begins with the attention word. */
  public Heard calledAnswer(Clip clip) {
    return sure(
        startingWithTheWord(
            hear(clip, ListeningMode.ANSWERS), ListeningMode.ANSWERS, Optional::empty));
  }

  private static Heard sure(Heard heard) {
    return heard.judgement() == Judgement.ASK
        ? new Heard(Judgement.REJECT, List.of(), heard.snrDb(), heard.logScore())
        : heard;
  }

  private Heard startingWithTheWord(Hearing hearing, ListeningMode mode, SecondEar.Asked second) {
    boolean starts =
        !hearing.isRejected() && hearing.readings().get(0).words().get(0).text().equals(attention);
    return starts
        ? heard(hearing, mode, second)
        : new Heard(Judgement.REJECT, List.of(), hearing.level().snrDb(), Double.NEGATIVE_INFINITY);
  }

  /** While a question is open: an answer or another entry, whichever explains the sound better. */
  static Heard better(Heard answer, Heard entry) {
    return entry.logScore() > answer.logScore() ? entry : answer;
  }

  private Heard heard(Hearing whole, ListeningMode mode, SecondEar.Asked second) {
    Hearing hearing = withoutTheWord(whole);
    boolean fits =
        !hearing.isRejected() && hearing.readings().get(0).fit() >= settings.of(mode).leastFit();
    Judgement judgement = fits ? settings.judge(mode).judge(hearing) : Judgement.REJECT;
    if (judgement == Judgement.REJECT) {
      return new Heard(judgement, List.of(), hearing.level().snrDb(), Double.NEGATIVE_INFINITY);
    }
    double score = hearing.readings().get(0).logScore() - hearing.fillerScore();
    Aside beside = aside;
    Optional<List<String>> other =
        beside == null ? Optional.empty() : second.printed().flatMap(beside.reader()::phrase);
    if (beside == null || other.isEmpty()) {
      List<String> readings = hearing.readings().stream().map(Reading::line).toList();
      return new Heard(judgement, readings, hearing.level().snrDb(), score);
    }
    TwoOpinions both =
        TwoOpinions.of(
            hearing, settings.judge(mode), beside.kind(), other, beside.grammar()::sense);
    List<String> readings = both.readings().stream().map(words -> String.join(" ", words)).toList();
    return new Heard(both.judgement(), readings, hearing.level().snrDb(), score);
  }

  /** The attention word, which fits well, must not make up for what follows it and does not. */
  private Hearing withoutTheWord(Hearing hearing) {
    return new Hearing(
        hearing.readings().stream().map(this::withoutTheWord).toList(),
        hearing.fillerScore(),
        hearing.contested(),
        hearing.level(),
        hearing.clip(),
        hearing.heardSnrDb());
  }

  private Reading withoutTheWord(Reading reading) {
    List<Word> words = reading.words();
    return !words.isEmpty() && words.get(0).text().equals(attention)
        ? new Reading(words.subList(1, words.size()), reading.logScore())
        : reading;
  }

  @Override
  public void close() {
    recogniser.close();
    if (aside != null) {
      aside.ear().close();
    }
  }
}
