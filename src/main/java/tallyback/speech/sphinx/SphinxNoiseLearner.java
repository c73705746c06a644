package tallyback.speech.sphinx;

import edu.cmu.sphinx.decoder.search.Token;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import tallyback.audio.Clip;
import tallyback.audio.LevelMeter;
import tallyback.audio.NoiseMix;
import tallyback.phrase.Lexicon;
import tallyback.phrase.WordGraph;
import tallyback.speech.ListeningMode;
import tallyback.speech.ListeningSettings;
import tallyback.speech.Meaning;
import tallyback.speech.RecogniserSettings;
import tallyback.speech.adapt.Lesson;
import tallyback.speech.adapt.NoiseLearner;
import tallyback.speech.adapt.NoiseModel;

/**
 * Learns a noise by putting it on known speech, in a model of its own.
 *
 * <p>Which senone a frame belongs to is found in the clean recording, where it is certain; what the
 * Gaussians of that senone look like is taken from the noisy one, as {@link NoiseMatch} and {@link
 * CleanSpeech} make it. So the {@link Regression} learns what these two get wrong in this noise.
 *
 * <p>Thread rule: one owner.
 */
final class SphinxNoiseLearner implements NoiseLearner {

  /** Each so many'th recording is held back for the check. */
  private static final int HELD_BACK = 5;

  /** Of the noise so much, from its end, is kept for the check. */
  private static final double CHECKED_SHARE = 0.3;

  /** So many frames' worth of belief that theory is right. */
  private static final double BELIEVED = 300;

  private static final double LEAST_SHARE = 0.01;

  /** What is far ahead is safe, however far. */
  private static final double MOST_LEAD = 100;

  /** Few phrases are searched: no path need be given up early. */
  private static final double WIDE_BEAM = 1e-80;

  private static final int MANY_STATES = 20_000;

  private final List<Lesson> known;
  private final WordGraph grammar;
  private final Meaning meaning;
  private final SoundAlike sounds;
  private final PhoneModels models;
  private final Pronouncer pronouncer;
  private final RecogniserSettings settings;
  private final TiedMixtures mixtures;
  private final Features features;
  private final NoiseMatch noise;
  private final NoisyFrames frames;

  /** By the number of the recording: empty where its words don't fit it. */
  private final Map<Integer, Optional<Aligned>> alignments = new HashMap<>();

  private SphinxNoiseLearner(
      List<Lesson> known, WordGraph grammar, Lexicon lexicon, Meaning meaning) {
    this.known = List.copyOf(known);
    this.grammar = grammar;
    this.meaning = meaning;
    sounds = new SoundAlike(lexicon);
    models = PhoneModels.load();
    pronouncer = new Pronouncer(lexicon, models);
    settings = ListeningSettings.defaults().of(ListeningMode.ENTRIES);
    mixtures = models.mixtures();
    features = new Features(models);
    Filler filler =
        new Filler(models, LibraryMath.fromNaturalLog(settings.phoneInsertionLogProbability()));
    noise = new NoiseMatch(mixtures, filler, models.cepstrum(), models.pauseCodebook());
    frames = new NoisyFrames(features, noise);
  }

  static NoiseLearner open(
      List<Lesson> known, WordGraph grammar, Lexicon lexicon, Meaning meaning) {
    TreeSet<String> words = new TreeSet<>();
    known.forEach(speech -> words.addAll(speech.words()));
    Pronouncer.requireKnown(lexicon, words);
    return new SphinxNoiseLearner(known, grammar, lexicon, meaning);
  }

  @Override
  public Optional<NoiseModel> learn(Clip heard, double snrDb, Pace pace)
      throws InterruptedException {
    if (isSilent(heard)) {
      return Optional.empty();
    }
    int split = (int) (heard.length() * (1 - CHECKED_SHARE));
    short[] samples = heard.samples();
    Clip first = new Clip(Arrays.copyOf(samples, split), 0);
    Clip last = new Clip(Arrays.copyOfRange(samples, split, samples.length), 0);
    noise.use(List.of());
    Course course = new Course(mixtures.streams());
    for (int i = 0; i < known.size(); i++) {
      if (i % HELD_BACK != 0) {
        Optional<Aligned> clean = alignment(i);
        pace.rest();
        if (clean.isPresent()) {
          course.add(clean.get(), mixed(known.get(i), first, snrDb, i));
          pace.rest();
        }
      }
    }
    if (course.clips == 0) {
      return Optional.empty();
    }
    NoiseTransform learned = course.learned();
    NoiseModel.Check check = check(learned, last, snrDb, pace);
    return Optional.of(learned.checked(check));
  }

  private static boolean isSilent(Clip heard) {
    return heard.length() == 0 || LevelMeter.measure(heard).noiseDbfs() == Double.NEGATIVE_INFINITY;
  }

  @Override
  public boolean isLike(NoiseModel learned, Clip heard, double snrDb) {
    if (isSilent(heard)) {
      return false;
    }
    noise.use(List.of());
    Clip noisy = mixed(known.get(0), heard, snrDb, 0);
    frames.sharpened(noisy);
    return noise.isMatched()
        && learned instanceof NoiseTransform transform
        && transform.isNear(noise.noiseOverSpeech());
  }

  private static Clip mixed(Lesson speech, Clip noise, double snrDb, int seed) {
    Clip clean = speech.clip();
    return NoiseMix.mix(clean, NoiseMix.stretch(noise, clean.length(), new Random(seed)), snrDb);
  }

  /** What is gathered from clip after clip. */
  private final class Course {
    private final List<Regression> ofPauses = new ArrayList<>();
    private final List<Regression> ofPhones = new ArrayList<>();
    private final double[] noiseOverSpeech = new double[models.cepstrum().filters()];
    private final int pauses = models.pauseCodebook();
    private final int[] best = new int[TiedMixtures.BEST];
    private final double[] parts = new double[TiedMixtures.BEST];
    private final double[] mean;
    private final double[] variance;
    private final double[] beside;
    private int clips;

    Course(int streams) {
      int size = models.cepstrum().coefficients();
      mean = new double[size];
      variance = new double[size];
      beside = new double[size];
      for (int stream = 0; stream < streams; stream++) {
        ofPauses.add(new Regression(size));
        ofPhones.add(new Regression(size));
      }
    }

    void add(Aligned clean, Clip noisy) {
      List<TiedMixtures.Frame> heard = frames.sharpened(noisy);
      if (!noise.isMatched()) {
        return;
      }
      clips++;
      double[] ratio = noise.noiseOverSpeech();
      for (int filter = 0; filter < ratio.length; filter++) {
        noiseOverSpeech[filter] += ratio[filter];
      }
      for (int t = 0; t < clean.senones.length; t++) {
        for (int stream = 0; stream < ofPhones.size(); stream++) {
          add(clean.features[t], heard.get(t), clean.senones[t], stream);
        }
      }
    }

    private void add(float[] clean, TiedMixtures.Frame frame, int senone, int stream) {
      mixtures.share(frame, senone, stream, best, parts);
      Regression regression =
          (mixtures.codebookOf(senone) == pauses ? ofPauses : ofPhones).get(stream);
      int from = stream * mean.length;
      for (int i = 0; i < best.length; i++) {
        if (parts[i] > LEAST_SHARE) {
          mixtures.read(stream, best[i], mean, variance);
          for (int k = 0; k < beside.length; k++) {
            beside[k] = clean[from + k] - mean[k];
          }
          mixtures.readMoved(stream, best[i], mean, variance);
          regression.add(mean, variance, frame.features(), from, parts[i], beside);
        }
      }
    }

    NoiseTransform learned() {
      double[] ratio = Arrays.stream(noiseOverSpeech).map(sum -> sum / clips).toArray();
      return new NoiseTransform(
          ofPauses.stream().map(each -> each.solve(BELIEVED)).toList(),
          ofPhones.stream().map(each -> each.solve(BELIEVED)).toList(),
          ratio,
          new NoiseModel.Check(0, 0, 0, 0, 0));
    }
  }

  /** The features of a clean recording, and which senone each frame belongs to. */
  private static final class Aligned {
    private final float[][] features;
    private final int[] senones;

    Aligned(List<TiedMixtures.Frame> frames, int[] senones) {
      features = frames.stream().map(TiedMixtures.Frame::features).toArray(float[][]::new);
      this.senones = senones;
    }
  }

  /** Found once for all noises. */
  private Optional<Aligned> alignment(int number) {
    Optional<Aligned> found = alignments.get(number);
    if (found == null) {
      found = align(known.get(number));
      alignments.put(number, found);
    }
    return found;
  }

  private Optional<Aligned> align(Lesson speech) {
    noise.undo();
    List<TiedMixtures.Frame> clean = features.of(speech.clip());
    if (clean.size() < NoisyFrames.FEWEST) {
      return Optional.empty();
    }
    return best(Set.of(speech.words()), clean)
        .map(BestPath::senones)
        .filter(senones -> senones.length == clean.size())
        .map(senones -> new Aligned(clean, senones));
  }

  private Optional<Token> best(Set<List<String>> phrases, List<TiedMixtures.Frame> heard) {
    float quiet = LibraryMath.fromNaturalLog(settings.wordInsertionLogProbability(false));
    float inNoise = LibraryMath.fromNaturalLog(settings.wordInsertionLogProbability(true));
    EntryGraph graph =
        new EntryGraph(
            WordGraph.ofPhrases(phrases),
            pronouncer,
            models,
            () -> noise.isMatched() ? inNoise : quiet,
            LibraryMath.fromNaturalLog(settings.silenceInsertionLogProbability()));
    return new Search(graph, WIDE_BEAM, MANY_STATES).best(heard);
  }

  private NoiseModel.Check check(NoiseTransform learned, Clip noiseHeld, double snrDb, Pace pace)
      throws InterruptedException {
    int clips = 0;
    int[] right = new int[2];
    double[] lead = new double[2];
    for (int i = 0; i < known.size(); i += HELD_BACK) {
      Lesson speech = known.get(i);
      Set<List<String>> rivals = rivals(speech.words());
      if (rivals.isEmpty()) {
        continue;
      }
      Clip noisy = mixed(speech, noiseHeld, snrDb, i);
      clips++;
      for (int with = 0; with < right.length; with++) {
        noise.use(with == 1 ? List.of(learned) : List.of());
        double ahead = lead(speech.words(), rivals, noisy);
        right[with] += ahead > 0 ? 1 : 0;
        lead[with] += ahead;
        pace.rest();
      }
    }
    noise.use(List.of());
    int checked = Math.max(1, clips);
    return new NoiseModel.Check(clips, right[0], right[1], lead[0] / checked, lead[1] / checked);
  }

  private Set<List<String>> rivals(List<String> words) {
    Set<List<String>> rivals = new HashSet<>();
    Rivals.of(words, grammar, sounds).forEach(rivals::addAll);
    Object meant = meaning.of(words);
    rivals.removeIf(rival -> meaning.of(rival).equals(meant));
    return rivals;
  }

  /** How much likelier the known words are than the likeliest of their rivals. */
  private double lead(List<String> words, Set<List<String>> rivals, Clip noisy) {
    List<TiedMixtures.Frame> heard = frames.sharpened(noisy);
    double ofWords = score(Set.of(words), heard);
    return ofWords == Double.NEGATIVE_INFINITY
        ? -MOST_LEAD
        : Math.min(MOST_LEAD, ofWords - score(rivals, heard));
  }

  private double score(Set<List<String>> phrases, List<TiedMixtures.Frame> heard) {
    return best(phrases, heard)
        .map(token -> LibraryMath.toNaturalLog(token.getScore()))
        .orElse(Double.NEGATIVE_INFINITY);
  }
}
