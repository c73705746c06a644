package tallyback.speech.sphinx;

import edu.cmu.sphinx.decoder.search.Token;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.atomic.AtomicReference;
import org.jspecify.annotations.Nullable;
import tallyback.audio.Clip;
import tallyback.audio.LevelMeter;
import tallyback.audio.LevelReport;
import tallyback.phrase.Lexicon;
import tallyback.phrase.WordGraph;
import tallyback.speech.Hearing;
import tallyback.speech.ListeningMode;
import tallyback.speech.ListeningSettings;
import tallyback.speech.Meaning;
import tallyback.speech.Reading;
import tallyback.speech.RecogniserSettings;
import tallyback.speech.ScoredCandidate;
import tallyback.speech.Word;
import tallyback.speech.adapt.Lesson;
import tallyback.speech.adapt.NoiseModel;
import tallyback.speech.adapt.ProfileOfAnotherModel;
import tallyback.speech.adapt.TeachableRecogniser;
import tallyback.speech.adapt.VoiceProfile;

/** Listens with the Sphinx4 library. Thread rule and closing as in {@link TeachableRecogniser}. */
final class SphinxRecogniser implements TeachableRecogniser {

  /** Rivals are few: no path of theirs need be given up early. */
  private static final double WIDE_BEAM = 1e-80;

  private static final int MANY_STATES = 20_000;

  /** How many rivals that come to the same are set aside one by one before all are looked at. */
  private static final int MOST_ROUNDS = 3;

  /** Above this ratio there is no room to be heard behind the speech. */
  private static final double BARE_ABOVE_DB = 40;

  /**
   * What fits worse may be bare, and is heard with a room's noise under it, or come from a vocal
   * tract shorter than those of the model, and is heard as from a longer one.
   */
  private static final double FAMILIAR_FIT = 10;

  /** By how much; tuned. */
  private static final double LONGER_TRACT = 1.12;

  /** A worse likeness at first may be chance; tuned. */
  private static final double MUCH_BETTER_FIT = 11;

  /** So small a change of voice leaves what is right as it is, and often not what is wrong. */
  private static final double ANOTHER_TRACT = 1.05;

  /**
   * Of a large grammar no more is kept between hearings: some 200 MB. The demo's plan comes to that
   * with two hundred utterances of all kinds.
   */
  private static final int MOST_SEGMENTS = 180_000;

  /** A voice is learned once more with what was learned of it. */
  private static final int LEARNING_ROUNDS = 2;

  private static final double ROOM_BELOW_SPEECH_DB = 27;

  private static final double FRAMES_PER_SECOND = 1000.0 / Features.FRAME_SHIFT_MS;

  private final Parts parts;
  private final AtomicReference<@Nullable Thread> owner = new AtomicReference<>();
  private volatile boolean closed;

  private SphinxRecogniser(Parts parts) {
    this.parts = parts;
  }

  static TeachableRecogniser open(
      Map<ListeningMode, WordGraph> grammars,
      Lexicon lexicon,
      Meaning meaning,
      ListeningSettings settings) {
    if (grammars.isEmpty()) {
      throw new IllegalArgumentException(
          "no grammar: expected one for at least one listening mode");
    }
    TreeSet<String> words = new TreeSet<>();
    grammars.values().forEach(grammar -> words.addAll(grammar.words()));
    Pronouncer.requireKnown(lexicon, words);
    LibraryLog.quieten();
    Parts parts = new Parts(grammars, lexicon, meaning, settings);
    parts.prime();
    return new SphinxRecogniser(parts);
  }

  @Override
  public Hearing hear(Clip clip, ListeningMode mode) {
    checkOwner();
    AttentionSearch oneWord = parts.oneWord.get(mode);
    if (oneWord != null) {
      return oneWord(clip, mode, oneWord);
    }
    EntryGraphSearch listening = parts.listening.get(mode);
    if (listening == null) {
      throw new IllegalArgumentException(
          "no grammar was opened for " + mode + "; open the recogniser with one");
    }
    LevelReport level = LevelMeter.measure(clip);
    // A short answer has little before it to tell the noise by, and lost one of thirty.
    NoisyFrames.Sound sound =
        mode == ListeningMode.ENTRIES
            ? NoisyFrames.lessNoisy(clip, level)
            : NoisyFrames.asItIs(clip, level);
    Attempt usual = usual(sound.clip(), sound.level(), listening);
    // One short word fits badly as often as not, and a squeezed "stop" may fit "no".
    boolean unfamiliar =
        mode == ListeningMode.ENTRIES && !parts.knowsTheVoice() && usual.fit() < FAMILIAR_FIT;
    Attempt heard =
        unfamiliar ? orLongerTract(usual, sound.clip(), sound.level(), listening) : usual;
    boolean alone = heard.other() == null && heard.reading() != null;
    if (mode == ListeningMode.ENTRIES && alone) {
      double tract = heard.fit() > usual.fit() ? LONGER_TRACT : 1;
      heard = heard.beside(asAnotherVoice(tract, sound.clip(), listening));
    }
    Hearing hearing = hearing(heard, listening, level, clip, sound.heardSnrDb());
    listening.graph().shrink(MOST_SEGMENTS);
    return hearing;
  }

  private Attempt usual(Clip clip, LevelReport level, EntryGraphSearch listening) {
    List<TiedMixtures.Frame> frames = parts.frames.matched(clip, level);
    if (parts.noise.isMatched()) {
      return inNoise(frames, clip, listening);
    }
    Attempt plain = attempt(listening, frames, clip);
    return isBare(level) && plain.fit() < FAMILIAR_FIT
        ? attempt(listening, parts.inRoom(clip, level), clip)
        : plain;
  }

  /** What is heard in the quiet as from a slightly longer vocal tract than the one believed in. */
  private List<String> asAnotherVoice(double tract, Clip clip, EntryGraphSearch listening) {
    parts.features.lengthenTract(tract * ANOTHER_TRACT);
    try {
      return texts(listening.search.best(parts.features.of(clip)));
    } finally {
      parts.features.lengthenTract(1);
    }
  }

  /** The frames are searched twice: with their differences as they are, then retaken. */
  private Attempt inNoise(List<TiedMixtures.Frame> frames, Clip clip, EntryGraphSearch listening) {
    List<String> first = texts(listening.search.best(frames));
    parts.noise.retakeDifferences(frames);
    return attempt(listening, frames, clip).beside(first);
  }

  private static List<String> texts(Optional<Token> best) {
    return best.map(BestPath::of).map(BestPath::texts).orElse(List.of());
  }

  /**
   * The better of two attempts: the usual one, and one that takes the voice for a woman's or a
   * youth's of short vocal tract. The frames of both keep their scores.
   */
  private Attempt orLongerTract(
      Attempt usual, Clip clip, LevelReport level, EntryGraphSearch listening) {
    parts.features.lengthenTract(LONGER_TRACT);
    try {
      List<TiedMixtures.Frame> frames =
          isBare(level) ? parts.inRoom(clip, level) : parts.frames.matched(clip, level);
      Attempt longer =
          parts.noise.isMatched()
              ? inNoise(frames, clip, listening)
              : attempt(listening, frames, clip);
      return longer.fit() > usual.fit() + MUCH_BETTER_FIT ? longer : usual;
    } finally {
      parts.features.lengthenTract(1);
    }
  }

  private static boolean isBare(LevelReport level) {
    return level.snrDb() > BARE_ABOVE_DB;
  }

  private Hearing hearing(
      Attempt attempt,
      EntryGraphSearch listening,
      LevelReport level,
      Clip clip,
      double heardSnrDb) {
    Reading reading = attempt.reading();
    if (reading == null
        || reading.fit() < listening.settings.leastFit()
        || parts.isOtherWords(reading, listening, attempt.frames())) {
      return rejected(clip, level, attempt.fillerScore());
    }
    List<String> other = attempt.other();
    boolean contested = other != null && !parts.meansTheSame(reading.texts(), other);
    List<String> besides = contested && other != null ? other : List.of();
    return new Hearing(
        withRivals(reading, besides, listening, attempt, clip),
        attempt.fillerScore(),
        contested,
        level,
        clip,
        heardSnrDb);
  }

  /**
   * What a search came to.
   *
   * @param frames what was searched
   * @param filler the best row of phones; null when there is too little to hear
   * @param reading the best reading; null when there is none
   * @param other what the clip was heard as in a second way, empty for nothing; null when there was
   *     none. Two ways that come to the same are seldom both wrong
   */
  private record Attempt(
      List<TiedMixtures.Frame> frames,
      @Nullable BestPath filler,
      @Nullable Reading reading,
      @Nullable List<String> other) {

    Attempt beside(List<String> heard) {
      return new Attempt(frames, filler, reading, heard);
    }

    double fillerScore() {
      return filler == null ? Double.NEGATIVE_INFINITY : LibraryMath.toNaturalLog(filler.score());
    }

    double fit() {
      return reading == null ? Double.NEGATIVE_INFINITY : reading.fit();
    }
  }

  private static Attempt attempt(
      EntryGraphSearch listening, List<TiedMixtures.Frame> frames, Clip clip) {
    if (frames.size() < NoisyFrames.FEWEST) {
      return new Attempt(frames, null, null, null);
    }
    BestPath filler = listening.filler.best(frames);
    Reading reading =
        listening
            .search
            .best(frames)
            .map(BestPath::of)
            .filter(path -> !path.words().isEmpty())
            .map(path -> listening.reading(path, filler, clip))
            .orElse(null);
    return new Attempt(frames, filler, reading, null);
  }

  private List<Reading> withRivals(
      Reading reading,
      List<String> besides,
      EntryGraphSearch listening,
      Attempt attempt,
      Clip clip) {
    BestPath filler = Objects.requireNonNull(attempt.filler(), "there is a reading");
    List<Reading> readings = new ArrayList<>();
    readings.add(reading);
    parts.rivalsOf(reading.texts(), besides, listening, attempt.frames()).stream()
        .map(rival -> listening.reading(rival, filler, clip))
        .sorted(Comparator.comparingDouble(Reading::logScore).reversed())
        .forEach(readings::add);
    return readings;
  }

  private static Hearing rejected(Clip clip, LevelReport level, double fillerScore) {
    return new Hearing(List.of(), fillerScore, false, level, clip);
  }

  /** Where the one word stands near the beginning, if it does. */
  private Hearing oneWord(Clip clip, ListeningMode mode, AttentionSearch search) {
    LevelReport level = LevelMeter.measure(clip);
    List<TiedMixtures.Frame> frames = parts.frames.matched(clip, level);
    Optional<AttentionSearch.Found> found =
        frames.size() < NoisyFrames.FEWEST ? Optional.empty() : search.best(frames);
    if (found.isEmpty()) {
      return rejected(clip, level, Double.NEGATIVE_INFINITY);
    }
    double fillerScore = LibraryMath.toNaturalLog(found.get().filler());
    Reading reading = reading(found.get(), clip);
    return reading.fit() < parts.settings.of(mode).leastFit()
        ? rejected(clip, level, fillerScore)
        : new Hearing(List.of(reading), fillerScore, false, level, clip);
  }

  private static Reading reading(AttentionSearch.Found found, Clip clip) {
    double overFiller = LibraryMath.toNaturalLog(found.overFiller());
    double seconds = (found.endFrame() - found.firstFrame()) / FRAMES_PER_SECOND;
    return new Reading(
        List.of(
            new Word(
                found.word(),
                clip.startMs() + (long) found.firstFrame() * Features.FRAME_SHIFT_MS,
                clip.startMs() + (long) found.endFrame() * Features.FRAME_SHIFT_MS,
                overFiller / seconds)),
        LibraryMath.toNaturalLog(found.filler()) + overFiller);
  }

  @Override
  public void use(List<NoiseModel> learned) {
    checkOwner();
    parts.noise.use(
        learned.stream()
            .map(
                model -> {
                  if (model instanceof NoiseTransform transform) {
                    return transform;
                  }
                  throw new IllegalArgumentException(
                      "this was learned for another recogniser; learn it anew");
                })
            .toList());
  }

  @Override
  public List<ScoredCandidate> score(Clip clip, List<List<String>> candidates) {
    checkOwner();
    TreeSet<String> words = new TreeSet<>();
    candidates.forEach(words::addAll);
    Pronouncer.requireKnown(parts.lexicon, words);
    List<TiedMixtures.Frame> frames = parts.frames.sharpened(clip);
    List<ScoredCandidate> scored = new ArrayList<>();
    for (List<String> candidate : candidates) {
      Optional<Token> best =
          frames.size() < NoisyFrames.FEWEST
              ? Optional.empty()
              : parts
                  .constrained(
                      WordGraph.ofPhrases(List.of(candidate)),
                      parts.settings.of(ListeningMode.ENTRIES))
                  .best(frames);
      double logScore =
          best.map(token -> LibraryMath.toNaturalLog(token.getScore()))
              .orElse(Double.NEGATIVE_INFINITY);
      scored.add(new ScoredCandidate(candidate, logScore));
    }
    return List.copyOf(scored);
  }

  @Override
  public void expect(@Nullable VoiceProfile voice) {
    checkOwner();
    parts.expect(voice);
  }

  @Override
  public Optional<Reading> follow(Lesson lesson) {
    checkOwner();
    Pronouncer.requireKnown(parts.lexicon, lesson.words());
    Clip clip = lesson.clip();
    List<TiedMixtures.Frame> frames = parts.frames.matched(clip, LevelMeter.measure(clip));
    if (frames.size() < NoisyFrames.FEWEST) {
      return Optional.empty();
    }
    EntryGraphSearch said = parts.onlyOf(lesson.words());
    return said.search()
        .best(frames)
        .map(path -> said.reading(BestPath.of(path), said.filler().best(frames), clip));
  }

  @Override
  public VoiceProfile learn(List<Lesson> lessons) {
    checkOwner();
    TreeSet<String> words = new TreeSet<>();
    lessons.forEach(lesson -> words.addAll(lesson.words()));
    Pronouncer.requireKnown(parts.lexicon, words);
    VoiceProfile before = parts.voice;
    try {
      return parts.learn(lessons);
    } finally {
      parts.expect(before);
    }
  }

  @Override
  public String model() {
    return parts.models.mixtures().fingerprint();
  }

  private void checkOwner() {
    if (closed) {
      throw new IllegalStateException("this recogniser is closed; open another");
    }
    Thread caller = Thread.currentThread();
    Thread known = owner.updateAndGet(first -> first == null ? caller : first);
    if (known != caller) {
      throw new IllegalStateException(
          "this recogniser belongs to thread "
              + (known == null ? "?" : known.getName())
              + "; called from "
              + caller.getName());
    }
  }

  @Override
  public void close() {
    closed = true;
    parts.release();
  }

  /** A grammar, the search over it, and what it is set against. */
  private record EntryGraphSearch(
      WordGraph grammar,
      EntryGraph graph,
      Search search,
      Filler filler,
      RecogniserSettings settings,
      NoiseMatch noise,
      @Nullable OtherWords otherWords) {

    Reading reading(BestPath path, BestPath filler, Clip clip) {
      double wordPrice = settings.wordInsertionLogProbability(noise.isMatched());
      List<Word> words = new ArrayList<>();
      for (BestPath.Span span : path.words()) {
        float better =
            path.scoreOver(span.firstFrame(), span.endFrame())
                - filler.scoreOver(span.firstFrame(), span.endFrame());
        double seconds = (span.endFrame() - span.firstFrame()) / FRAMES_PER_SECOND;
        words.add(
            new Word(
                span.text(),
                clip.startMs() + (long) span.firstFrame() * Features.FRAME_SHIFT_MS,
                clip.startMs() + (long) span.endFrame() * Features.FRAME_SHIFT_MS,
                (LibraryMath.toNaturalLog(better) - wordPrice) / seconds));
      }
      return new Reading(words, LibraryMath.toNaturalLog(path.score()));
    }
  }

  /** Everything that is made once per recogniser. */
  private static final class Parts {
    private final Lexicon lexicon;
    private final Meaning meaning;
    private final SoundAlike sounds;
    private final ListeningSettings settings;
    private final PhoneModels models;
    private final Pronouncer pronouncer;
    private final Features features;
    private final NoiseMatch noise;
    private final NoisyFrames frames;
    private final Filler plainFiller;
    private @Nullable VoiceProfile voice;
    private final Map<ListeningMode, EntryGraphSearch> listening =
        new EnumMap<>(ListeningMode.class);
    private final Map<ListeningMode, AttentionSearch> oneWord = new EnumMap<>(ListeningMode.class);

    Parts(
        Map<ListeningMode, WordGraph> grammars,
        Lexicon lexicon,
        Meaning meaning,
        ListeningSettings settings) {
      this.lexicon = lexicon;
      this.meaning = meaning;
      sounds = new SoundAlike(lexicon);
      this.settings = settings;
      models = PhoneModels.load();
      pronouncer = new Pronouncer(lexicon, models);
      features = new Features(models);
      Map<Double, Filler> fillers = new HashMap<>();
      plainFiller = filler(ListeningMode.ENTRIES, fillers);
      noise =
          new NoiseMatch(models.mixtures(), plainFiller, models.cepstrum(), models.pauseCodebook());
      frames = new NoisyFrames(features, noise);
      grammars.forEach(
          (mode, grammar) -> {
            if (mode.isOneWord()) {
              oneWord.put(
                  mode, new AttentionSearch(grammar, pronouncer, models, filler(mode, fillers)));
            } else {
              listening.put(mode, listening(mode, grammar, fillers));
            }
          });
    }

    private EntryGraphSearch listening(
        ListeningMode mode, WordGraph grammar, Map<Double, Filler> fillers) {
      RecogniserSettings ofMode = settings.of(mode);
      OtherWords otherWords =
          mode == ListeningMode.ANSWERS
              ? new OtherWords(grammar, lexicon, graph -> constrained(graph, ofMode))
              : null;
      EntryGraph graph = graph(grammar, pronouncer, ofMode);
      return new EntryGraphSearch(
          grammar,
          graph,
          new Search(graph, beam(ofMode), ofMode.maxActiveStates()),
          filler(mode, fillers),
          ofMode,
          noise,
          otherWords);
    }

    /** Modes that price a phone alike share a filler. */
    private Filler filler(ListeningMode mode, Map<Double, Filler> fillers) {
      return fillers.computeIfAbsent(
          settings.of(mode).phoneInsertionLogProbability(),
          price -> new Filler(models, LibraryMath.fromNaturalLog(price)));
    }

    /** Whether ordinary words explain a clip so much better that it was no answer. */
    boolean isOtherWords(
        Reading reading, EntryGraphSearch listening, List<TiedMixtures.Frame> frames) {
      if (listening.otherWords == null) {
        return false;
      }
      double durationMs =
          reading.words().stream().mapToLong(word -> word.endMs() - word.startMs()).sum();
      return listening
          .otherWords
          .best(frames, reading.words().size())
          .map(other -> (reading.logScore() - LibraryMath.toNaturalLog(other)) / durationMs * 1000)
          .filter(overOthers -> !settings.isAnswer(reading, overOthers))
          .isPresent();
    }

    Search constrained(WordGraph grammar, RecogniserSettings settings) {
      return constrained(grammar, pronouncer, settings, beam(settings), settings.maxActiveStates());
    }

    private Search constrained(
        WordGraph grammar,
        Pronouncer pronouncer,
        RecogniserSettings settings,
        double beam,
        int maxActiveStates) {
      return new Search(graph(grammar, pronouncer, settings), beam, maxActiveStates);
    }

    private EntryGraph graph(
        WordGraph grammar, Pronouncer pronouncer, RecogniserSettings settings) {
      return new EntryGraph(
          grammar,
          pronouncer,
          models,
          wordPrice(settings),
          LibraryMath.fromNaturalLog(settings.silenceInsertionLogProbability()));
    }

    private WordPrice wordPrice(RecogniserSettings settings) {
      float quiet = LibraryMath.fromNaturalLog(settings.wordInsertionLogProbability(false));
      float inNoise = LibraryMath.fromNaturalLog(settings.wordInsertionLogProbability(true));
      return () -> noise.isMatched() ? inNoise : quiet;
    }

    /**
     * The frames of a clip with the noise of a room under it: the model was made from recordings in
     * rooms. Sound with nothing at all beneath it, behind a noise gate or from a synthesiser, has
     * holes in its spectrum that no phone of the model has.
     */
    List<TiedMixtures.Frame> inRoom(Clip clip, LevelReport level) {
      noise.undo();
      return features.of(clip, level.activeDbfs() - ROOM_BELOW_SPEECH_DB);
    }

    // ---- a voice that was taught

    boolean knowsTheVoice() {
      return voice != null;
    }

    void expect(@Nullable VoiceProfile expected) {
      if (Objects.equals(expected, voice)) {
        return;
      }
      TiedMixtures mixtures = models.mixtures();
      if (expected != null) {
        if (!expected.model().equals(mixtures.fingerprint())) {
          throw new ProfileOfAnotherModel(expected.model(), mixtures.fingerprint());
        }
        if (!mixtures.takes(expected)) {
          throw new IllegalArgumentException("the voice has not the model's shape");
        }
      }
      noise.undo();
      mixtures.become(expected, models.codebooksOfSpeech());
      voice = expected;
    }

    /** A search that finds nothing but these words. */
    EntryGraphSearch onlyOf(List<String> words) {
      WordGraph grammar = WordGraph.ofPhrases(List.of(words));
      RecogniserSettings entries = settings.of(ListeningMode.ENTRIES);
      EntryGraph graph = graph(grammar, pronouncer, entries);
      return new EntryGraphSearch(
          grammar,
          graph,
          new Search(graph, WIDE_BEAM, MANY_STATES),
          plainFiller,
          entries,
          noise,
          null);
    }

    VoiceProfile learn(List<Lesson> lessons) {
      VoiceProfile learned = null;
      for (int round = 0; round < LEARNING_ROUNDS; round++) {
        expect(learned);
        VoiceLearning learning = new VoiceLearning(models.mixtures(), models.codebooksOfSpeech());
        lessons.forEach(lesson -> learnFrom(lesson, learning));
        learned = learning.learned();
      }
      return Objects.requireNonNull(learned, "there was a round");
    }

    private void learnFrom(Lesson lesson, VoiceLearning learning) {
      noise.undo();
      List<TiedMixtures.Frame> frames = features.of(lesson.clip());
      if (frames.size() >= NoisyFrames.FEWEST) {
        onlyOf(lesson.words())
            .search()
            .best(frames)
            .ifPresent(path -> learning.add(frames, BestPath.senones(path)));
      }
    }

    /** Hears a clip of known words: a recogniser that does not is never handed out. */
    void prime() {
      Pronouncer known = new Pronouncer(Priming.LEXICON, models);
      RecogniserSettings tuned = RecogniserSettings.defaults();
      List<String> heard =
          constrained(Priming.GRAMMAR, known, tuned, beam(tuned), tuned.maxActiveStates())
              .best(features.of(Priming.clip()))
              .map(token -> BestPath.of(token).texts())
              .orElse(List.of());
      if (!heard.equals(Priming.WORDS)) {
        throw new IllegalStateException(
            "the recogniser does not hear: expected "
                + Priming.WORDS
                + " from the bundled clip, found "
                + heard
                + "; build the jar again");
      }
    }

    /**
     * The strongest readings among those that differ from the best in words that are easily
     * mistaken: at most one that is no longer, and one that is; and, where it is neither, what was
     * heard besides.
     */
    List<BestPath> rivalsOf(
        List<String> best,
        List<String> besides,
        EntryGraphSearch listening,
        List<TiedMixtures.Frame> frames) {
      Object meant = meaning.of(best);
      List<BestPath> rivals = new ArrayList<>();
      for (Set<List<String>> phrases : Rivals.of(best, listening.grammar, sounds)) {
        strongestOf(phrases, meant, listening.settings, frames).ifPresent(rivals::add);
      }
      boolean known = rivals.stream().anyMatch(rival -> rival.texts().equals(besides));
      if (!besides.isEmpty() && !known) {
        likeliest(Set.of(besides), listening.settings, frames).ifPresent(rivals::add);
      }
      return rivals;
    }

    /** Whether two rows of words, of which the second may be empty, would be noted alike. */
    boolean meansTheSame(List<String> one, List<String> other) {
      return !other.isEmpty() && meaning.of(one).equals(meaning.of(other));
    }

    /**
     * The likeliest of some phrases that does not come to what was meant. Whether two phrases come
     * to the same is costly to tell, so only those that win are looked at.
     */
    private Optional<BestPath> strongestOf(
        Set<List<String>> phrases,
        Object meant,
        RecogniserSettings settings,
        List<TiedMixtures.Frame> frames) {
      for (int round = 0; round < MOST_ROUNDS && !phrases.isEmpty(); round++) {
        Optional<BestPath> best = likeliest(phrases, settings, frames);
        if (best.isEmpty() || !meaning.of(best.get().texts()).equals(meant)) {
          return best;
        }
        phrases.remove(best.get().texts());
      }
      phrases.removeIf(phrase -> meaning.of(phrase).equals(meant));
      return phrases.isEmpty() ? Optional.empty() : likeliest(phrases, settings, frames);
    }

    private Optional<BestPath> likeliest(
        Set<List<String>> phrases, RecogniserSettings settings, List<TiedMixtures.Frame> frames) {
      return constrained(WordGraph.ofPhrases(phrases), pronouncer, settings, WIDE_BEAM, MANY_STATES)
          .best(frames)
          .map(BestPath::of);
    }

    private static double beam(RecogniserSettings settings) {
      return Math.exp(settings.beamLogWidth());
    }

    void release() {
      listening.clear();
    }
  }
}
