package tallyback.bench.hearing;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import tallyback.app.BundledSpeech;
import tallyback.audio.AudioRefused;
import tallyback.audio.Clip;
import tallyback.speech.CmuLexicon;
import tallyback.speech.ListeningSettings;
import tallyback.speech.Recogniser;
import tallyback.speech.RecogniserSettings;
import tallyback.speech.UnknownWords;
import tallyback.speech.adapt.NoiseLearner;
import tallyback.speech.adapt.NoiseMatching;
import tallyback.speech.adapt.NoiseModel;
import tallyback.speech.sphinx.SphinxRecognisers;

/**
 * How well speech is heard: sets of speech x noises x ratios of speech to noise, in one
 * configuration, the default one.
 *
 * <p>Command: {@code mvn -q -Pbench process-test-classes} with any of
 *
 * <ul>
 *   <li>{@code -Dbench.speech=DIR[,DIR]}: recordings, 16-bit WAV, with {@code transcripts.tsv}
 *       (file, speaker, words, below a line of headings); without it they are taken for speech that
 *       is no entry. Unset: phrases of the plan spoken by voices
 *   <li>{@code -Dbench.voices=report|tuning|NAME,...}: which voices (flite, espeak-ng, festival)
 *   <li>{@code -Dbench.grammar=FILE}: a JSGF file, whose words are compared, or a plan, whose
 *       entries are; unset: the demo plan
 *   <li>{@code -Dbench.noise=DIR}: noises; {@code -Dbench.noises=all|tuning|report}: all or every
 *       other in alphabetical order
 *   <li>{@code -Dbench.shop=new|unlearned|learned}: whether the first half of each noise is learned
 *       before, see {@link BenchSettings.Shop}
 *   <li>{@code -Dbench.snr=clean,20,15,10,5}: ratios in dB
 *   <li>{@code -Dbench.taught=yes}: each voice is taught before it is heard, by the lines of {@code
 *       teach}; a speaker of recordings by his or her other utterances
 *   <li>{@code -Dbench.damage=all} or some of {@link Damage}, in small letters: each is a row like
 *       a noise, its name in {@code noise}, {@code snrDb} null
 *   <li>{@code -Dbench.treat=NAME}: what is done to the sound before, see {@link Treatment}
 *   <li>{@code -Dbench.n=300}, {@code -Dbench.inNoise=14}, {@code -Dbench.seed=0}, {@code
 *       -Dbench.without=SPEAKER,...}, {@code -Dbench.mode=entries|answers}, {@code
 *       -Dbench.out=target/bench}, {@code -Dbench.picture=FILE}
 *   <li>{@code -Dbench.second=PROGRAM}: a second recogniser, see {@link BesideFirst}; {@code
 *       -Dbench.secondModel=alike|other}
 * </ul>
 *
 * <p>On standard output one JSON object for each cell: set, noise, snrDb (null: clean), n, and how
 * many of them were exact (noted without asking), askedRight (asked, the right reading among those
 * offered), askedWrong, notedWrong and rejected, which add up to n; timeRatio is processor time
 * over length. Of speech that is no entry, rejected is right. In the folder {@code bench.out}:
 * every hearing, {@code bench.md} and {@code bench.tsv} with 95 % intervals, and the picture {@code
 * bench.svg}.
 *
 * <p>Broken off and begun again, it goes on where it was, unless grammar, settings or hearing
 * itself have changed.
 */
public final class HearingBench {

  static final int WARM_UP_CLIPS = 8;

  /** As many as the program takes. */
  private static final int LESSONS = NoiseMatching.LESSONS;

  private final BenchSettings settings;
  private final Language language;
  private final Opener opener;
  private final Consumer<String> progress;

  /** Opens the recogniser to be measured. */
  @FunctionalInterface
  interface Opener {
    Recogniser open(Language language, BenchSettings settings);
  }

  HearingBench(
      BenchSettings settings, Language language, Opener opener, Consumer<String> progress) {
    this.settings = settings;
    this.language = language;
    this.opener = opener;
    this.progress = progress;
  }

  /** Runs it. */
  public static void main(String[] args) throws IOException, InterruptedException {
    try {
      BenchSettings settings = BenchSettings.of(properties());
      HearingBench bench =
          new HearingBench(
              settings, Language.read(settings.grammar()), HearingBench::open, System.err::println);
      List<Cell> cells = bench.run(cell -> System.out.println(cell.json()));
      Tables.of(cells).write(settings.out());
      Files.createDirectories(settings.picture().toAbsolutePath().getParent());
      Files.writeString(settings.picture(), Curves.draw(cells));
      System.err.println(
          "tables: " + settings.out().toAbsolutePath() + "; picture: " + settings.picture());
    } catch (IllegalArgumentException | AudioRefused e) {
      System.err.println(e.getMessage());
      System.exit(2);
    }
  }

  static Map<String, String> properties() {
    return System.getProperties().stringPropertyNames().stream()
        .collect(Collectors.toMap(name -> name, System::getProperty));
  }

  private static Recogniser open(Language language, BenchSettings settings) {
    return open(language, settings, Settings.fromProperties(settings.mode()));
  }

  /** The program's own recogniser; words nobody can pronounce are refused by name. */
  static Recogniser open(
      Language language, BenchSettings settings, RecogniserSettings recogniserSettings) {
    try {
      return SphinxRecognisers.open(
          Map.of(settings.mode(), language.graph()),
          CmuLexicon.load(),
          language.meaning(),
          recogniserSettings);
    } catch (UnknownWords e) {
      throw new IllegalArgumentException(
          settings.grammar()
              + ": expected words with a known pronunciation, found "
              + String.join(", ", e.words())
              + "; use others, or add them to grammars/pronunciations.dict",
          e);
    }
  }

  /**
   * Hears what was not heard yet.
   *
   * @param each told about each cell as soon as it is whole
   * @return all cells
   */
  List<Cell> run(Consumer<Cell> each) throws IOException, InterruptedException {
    List<Noise> noises = noises();
    List<SpeechSet> sets = settings.sets(language);
    List<Cell> cells = new ArrayList<>();
    try (HeardFile file =
            HeardFile.open(settings.out().resolve("heard-" + fingerprint() + ".tsv"));
        LateEar ear = new LateEar();
        BesideFirst second = BesideFirst.open(settings, language, fingerprint())) {
      for (SpeechSet set : sets) {
        Teacher teacher = settings.taught() ? new Teacher(set, settings) : null;
        for (Row row : rows(set, noises, sets)) {
          cells.add(cell(file, ear, second, row, teacher, each));
        }
      }
      second.writeTable(progress);
    }
    return cells;
  }

  private List<Noise> noises() throws IOException {
    Path folder = settings.noise();
    return folder == null ? List.of() : Noise.of(folder, settings.noises());
  }

  private String fingerprint() throws IOException {
    Fingerprint fingerprint = new Fingerprint();
    for (Path folder : settings.folders()) {
      for (Path file : Recordings.in(folder)) {
        fingerprint.add(file.getFileName()).add(Files.size(file));
      }
    }
    return fingerprint
        .add(language.graph())
        .add(language.graph().words())
        .add(Files.readString(settings.grammar()))
        .add(Settings.fromProperties(settings.mode()))
        .add(ListeningSettings.defaults().leastOfOneWord())
        .add(ListeningSettings.defaults().leastOfMoreWords())
        .add(ListeningSettings.defaults().judge(settings.mode()))
        .add(settings.mode())
        .add(settings.shop())
        .add(settings.treatment())
        .add(settings.seed())
        .add(settings.damages().stream().map(Damage::words).toList())
        .add(Heard.FIELDS)
        .add(settings.taught() ? Teacher.lines() : List.of())
        .name();
  }

  /** A set of speech in one state of its sound. */
  private record Row(
      SpeechSet set, String noise, @Nullable Clip toLearn, Snr snr, Sounding sounding) {}

  /** Makes an utterance sound as the row says. */
  @FunctionalInterface
  private interface Sounding {
    Utterance of(Utterance clean);
  }

  private List<Row> rows(SpeechSet set, List<Noise> noises, List<SpeechSet> sets) {
    List<Row> rows = new ArrayList<>();
    for (Snr snr : settings.snrs()) {
      if (snr.isClean()) {
        rows.add(new Row(set, Cell.NO_NOISE, null, snr, clean -> clean));
      } else {
        for (Noise noise : noises) {
          Noise heard = settings.shop() == BenchSettings.Shop.NEW ? noise : noise.secondHalf();
          Clip toLearn = settings.shop() == BenchSettings.Shop.LEARNED ? noise.half(false) : null;
          rows.add(
              new Row(set, noise.name(), toLearn, snr, clean -> noisy(set, clean, heard, snr)));
        }
      }
    }
    for (Damage damage : settings.damages()) {
      rows.add(
          new Row(
              set, damage.label(), null, Snr.CLEAN, clean -> damaged(set, clean, damage, sets)));
    }
    return rows;
  }

  private Cell cell(
      HeardFile file,
      LateEar ear,
      BesideFirst second,
      Row row,
      @Nullable Teacher teacher,
      Consumer<Cell> each)
      throws IOException, InterruptedException {
    SpeechSet set = row.set();
    List<Heard> heard = new ArrayList<>();
    List<Utterance> utterances =
        row.snr().isClean() ? set.utterances() : set.more().apply(row.noise());
    for (Utterance clean : utterances) {
      Heard known = file.find(set.name(), row.noise(), row.snr().toString(), clean.id());
      if (known == null) {
        Utterance utterance = row.sounding().of(clean);
        Clip clip = settings.treatment().of(utterance.sound().get());
        Ear opened = ear.open(clip, row);
        if (teacher != null) {
          teacher.teach(opened, clean);
        }
        known = opened.hear(set, row.noise(), row.snr(), utterance, clip);
        file.add(known);
      }
      heard.add(known);
      second.hear(known, () -> row.sounding().of(clean).sound().get());
    }
    Cell cell = Cell.of(set.name(), row.noise(), row.snr(), heard);
    progress.accept(
        String.format(
            "%s, %s, %s: exact %s, noted wrong %s",
            set.name(),
            row.noise(),
            row.snr(),
            cell.share(Outcome.EXACT),
            cell.share(Outcome.NOTED_WRONG)));
    each.accept(cell);
    return cell;
  }

  private Utterance noisy(SpeechSet set, Utterance clean, Noise noise, Snr snr) {
    long seed = seed(set, clean, noise.name());
    return clean.sounding(
        () -> {
          try {
            return Mixer.mix(clean.sound().get(), noise, snr.db(), seed);
          } catch (IllegalArgumentException e) {
            throw new IllegalArgumentException(
                set.name() + ", " + clean.id() + ": " + e.getMessage(), e);
          }
        });
  }

  private Utterance damaged(SpeechSet set, Utterance clean, Damage damage, List<SpeechSet> sets) {
    Random random = new Random(seed(set, clean, damage.label()));
    Utterance second = second(clean, sets, random);
    Utterance damaged =
        clean.sounding(() -> damage.of(clean.sound().get(), second.sound().get(), random));
    return damage.leavesAnEntry() ? damaged : damaged.withoutEntry();
  }

  /** Something else said by another speaker, or, if there is none, by the same. */
  private static Utterance second(Utterance first, List<SpeechSet> sets, Random random) {
    List<Utterance> others =
        sets.stream()
            .flatMap(set -> set.utterances().stream())
            .filter(each -> !each.speaker().equals(first.speaker()))
            .toList();
    List<Utterance> all =
        others.isEmpty()
            ? sets.stream().flatMap(set -> set.utterances().stream()).toList()
            : others;
    return all.get(random.nextInt(all.size()));
  }

  private long seed(SpeechSet set, Utterance utterance, String noise) {
    return seed(set.name(), utterance.id(), noise, settings.seed());
  }

  /** What the stretch of noise is drawn with, by names, so that the same clip can be made again. */
  static long seed(String set, String utterance, String noise, long seed) {
    return (set + "\t" + utterance + "\t" + noise).hashCode() + seed;
  }

  /** An ear that is opened only if there is something left to hear. */
  private final class LateEar implements AutoCloseable {
    private @Nullable Ear ear;
    private @Nullable NoiseLearner learner;
    private @Nullable Row inUse;

    Ear open(Clip clip, Row row) throws InterruptedException {
      Ear opened = open(clip);
      if (!row.equals(inUse)) {
        inUse = row;
        opened.use(learned(row));
      }
      return opened;
    }

    private List<NoiseModel> learned(Row row) throws InterruptedException {
      Clip noise = row.toLearn();
      if (noise == null) {
        return List.of();
      }
      NoiseLearner known = learner;
      if (known == null) {
        known =
            SphinxRecognisers.learner(
                BundledSpeech.read(CmuLexicon.load(), LESSONS),
                language.graph(),
                CmuLexicon.load(),
                language.meaning());
        learner = known;
      }
      List<NoiseModel> found =
          known.learn(noise, row.snr().db(), () -> {}).stream()
              .peek(model -> progress.accept(row.noise() + ", " + row.snr() + ": " + model.check()))
              .filter(model -> model.check().isBetter())
              .toList();
      return found;
    }

    private Ear open(Clip clip) {
      Ear opened = ear;
      if (opened == null) {
        opened = new Ear(opener.open(language, settings), settings.mode(), language.meaning());
        ear = opened;
        for (int i = 0; i < WARM_UP_CLIPS; i++) {
          opened.warmUp(clip);
        }
      }
      return opened;
    }

    @Override
    public void close() {
      if (ear != null) {
        ear.close();
      }
    }
  }
}
