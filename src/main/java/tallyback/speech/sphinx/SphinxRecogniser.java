package tallyback.speech.sphinx;

import edu.cmu.sphinx.decoder.search.Token;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
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
import tallyback.speech.Meaning;
import tallyback.speech.Reading;
import tallyback.speech.Recogniser;
import tallyback.speech.RecogniserSettings;
import tallyback.speech.ScoredCandidate;
import tallyback.speech.Word;

/** Listens with the Sphinx4 library. Thread rule and closing as in {@link Recogniser}. */
final class SphinxRecogniser implements Recogniser {

  /** A clip with fewer frames holds no word, and the library's search needs a few to begin with. */
  private static final int FEWEST_FRAMES = 10;

  /** Rivals are few: no path of theirs need be given up early. */
  private static final double WIDE_BEAM = 1e-80;

  private static final int MANY_STATES = 20_000;

  /** How many rivals that come to the same are set aside one by one before all are looked at. */
  private static final int MOST_ROUNDS = 3;

  /** Above this ratio of speech to noise, matching the model to the noise changes nothing. */
  private static final double NOISY_BELOW_DB = 30;

  private static final double FRAMES_PER_SECOND = 1000.0 / Features.FRAME_SHIFT_MS;

  private final Parts parts;
  private final AtomicReference<@Nullable Thread> owner = new AtomicReference<>();
  private volatile boolean closed;

  private SphinxRecogniser(Parts parts) {
    this.parts = parts;
  }

  static Recogniser open(
      Map<ListeningMode, WordGraph> grammars,
      Lexicon lexicon,
      Meaning meaning,
      RecogniserSettings settings) {
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
    EntryGraphSearch listening = parts.listening.get(mode);
    if (listening == null) {
      throw new IllegalArgumentException(
          "no grammar was opened for " + mode + "; open the recogniser with one");
    }
    LevelReport level = LevelMeter.measure(clip);
    List<TiedMixtures.Frame> frames = parts.matched(clip, level);
    if (frames.size() < FEWEST_FRAMES) {
      return rejected(clip, level, Double.NEGATIVE_INFINITY);
    }
    BestPath filler = parts.filler.best(frames);
    double fillerScore = LibraryMath.toNaturalLog(filler.score());
    Optional<BestPath> best = listening.search.best(frames).map(BestPath::of);
    if (best.isEmpty() || best.get().words().isEmpty()) {
      return rejected(clip, level, fillerScore);
    }
    Reading reading = reading(best.get(), filler, clip);
    if (reading.fit() < parts.settings.leastFit()) {
      return rejected(clip, level, fillerScore);
    }
    List<Reading> readings = new ArrayList<>();
    readings.add(reading);
    parts.rivalsOf(reading.texts(), listening.grammar, frames).stream()
        .map(rival -> reading(rival, filler, clip))
        .sorted(Comparator.comparingDouble(Reading::logScore).reversed())
        .forEach(readings::add);
    return new Hearing(readings, fillerScore, level, clip);
  }

  private static Hearing rejected(Clip clip, LevelReport level, double fillerScore) {
    return new Hearing(List.of(), fillerScore, level, clip);
  }

  private Reading reading(BestPath path, BestPath filler, Clip clip) {
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
              (LibraryMath.toNaturalLog(better) - parts.settings.wordInsertionLogProbability())
                  / seconds));
    }
    return new Reading(words, LibraryMath.toNaturalLog(path.score()));
  }

  @Override
  public List<ScoredCandidate> score(Clip clip, List<List<String>> candidates) {
    checkOwner();
    TreeSet<String> words = new TreeSet<>();
    candidates.forEach(words::addAll);
    Pronouncer.requireKnown(parts.lexicon, words);
    List<TiedMixtures.Frame> frames = parts.matched(clip, LevelMeter.measure(clip));
    List<ScoredCandidate> scored = new ArrayList<>();
    for (List<String> candidate : candidates) {
      Optional<Token> best =
          frames.size() < FEWEST_FRAMES
              ? Optional.empty()
              : parts.constrained(WordGraph.ofPhrases(List.of(candidate))).best(frames);
      double logScore =
          best.map(token -> LibraryMath.toNaturalLog(token.getScore()))
              .orElse(Double.NEGATIVE_INFINITY);
      scored.add(new ScoredCandidate(candidate, logScore));
    }
    return List.copyOf(scored);
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

  /** A grammar and the search over it. */
  private record EntryGraphSearch(WordGraph grammar, Search search) {}

  /** Everything that is made once per recogniser. */
  private static final class Parts {
    private final Lexicon lexicon;
    private final Meaning meaning;
    private final SoundAlike sounds;
    private final RecogniserSettings settings;
    private final PhoneModels models;
    private final Pronouncer pronouncer;
    private final Features features;
    private final Filler filler;
    private final NoiseMatch noise;
    private final Map<ListeningMode, EntryGraphSearch> listening =
        new EnumMap<>(ListeningMode.class);

    Parts(
        Map<ListeningMode, WordGraph> grammars,
        Lexicon lexicon,
        Meaning meaning,
        RecogniserSettings settings) {
      this.lexicon = lexicon;
      this.meaning = meaning;
      sounds = new SoundAlike(lexicon);
      this.settings = settings;
      models = PhoneModels.load();
      pronouncer = new Pronouncer(lexicon, models);
      features = new Features(models);
      filler =
          new Filler(models, LibraryMath.fromNaturalLog(settings.phoneInsertionLogProbability()));
      noise = new NoiseMatch(models.mixtures(), filler, models.cepstrum());
      grammars.forEach(
          (mode, grammar) ->
              listening.put(mode, new EntryGraphSearch(grammar, constrained(grammar))));
    }

    Search constrained(WordGraph grammar) {
      return constrained(grammar, pronouncer, beam(), settings.maxActiveStates());
    }

    private Search constrained(
        WordGraph grammar, Pronouncer pronouncer, double beam, int maxActiveStates) {
      EntryGraph graph =
          new EntryGraph(
              grammar,
              pronouncer,
              models,
              LibraryMath.fromNaturalLog(settings.wordInsertionLogProbability()),
              LibraryMath.fromNaturalLog(settings.silenceInsertionLogProbability()));
      return new Search(graph, beam, maxActiveStates);
    }

    /**
     * The frames of a clip, with the model matched to its noise; none of a clip that is too short.
     */
    List<TiedMixtures.Frame> matched(Clip clip, LevelReport level) {
      List<TiedMixtures.Frame> frames = features.of(clip);
      if (frames.size() >= FEWEST_FRAMES && level.snrDb() < NOISY_BELOW_DB) {
        noise.match(frames);
      } else {
        noise.undo();
      }
      return frames;
    }

    /** Hears a clip of known words: a recogniser that does not is never handed out. */
    void prime() {
      Pronouncer known = new Pronouncer(Priming.LEXICON, models);
      List<String> heard =
          constrained(Priming.GRAMMAR, known, beam(), settings.maxActiveStates())
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
     * mistaken: at most one that is no longer, and one that is.
     */
    List<BestPath> rivalsOf(List<String> best, WordGraph grammar, List<TiedMixtures.Frame> frames) {
      Object meant = meaning.of(best);
      return Rivals.of(best, grammar, sounds).stream()
          .map(phrases -> strongestOf(phrases, meant, frames))
          .flatMap(Optional::stream)
          .toList();
    }

    /**
     * The likeliest of some phrases that does not come to what was meant. Whether two phrases come
     * to the same is costly to tell, so only those that win are looked at.
     */
    private Optional<BestPath> strongestOf(
        Set<List<String>> phrases, Object meant, List<TiedMixtures.Frame> frames) {
      for (int round = 0; round < MOST_ROUNDS && !phrases.isEmpty(); round++) {
        Optional<BestPath> best = likeliest(phrases, frames);
        if (best.isEmpty() || !meaning.of(best.get().texts()).equals(meant)) {
          return best;
        }
        phrases.remove(best.get().texts());
      }
      phrases.removeIf(phrase -> meaning.of(phrase).equals(meant));
      return phrases.isEmpty() ? Optional.empty() : likeliest(phrases, frames);
    }

    private Optional<BestPath> likeliest(
        Set<List<String>> phrases, List<TiedMixtures.Frame> frames) {
      return constrained(WordGraph.ofPhrases(phrases), pronouncer, WIDE_BEAM, MANY_STATES)
          .best(frames)
          .map(BestPath::of);
    }

    private double beam() {
      return Math.exp(settings.beamLogWidth());
    }

    void release() {
      listening.clear();
    }
  }
}
