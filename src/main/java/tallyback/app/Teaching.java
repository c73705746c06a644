package tallyback.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tallyback.audio.AudioRefused;
import tallyback.audio.Clip;
import tallyback.audio.LevelMeter;
import tallyback.audio.LevelReport;
import tallyback.speech.Hearing;
import tallyback.speech.Judgement;
import tallyback.speech.ListeningMode;
import tallyback.speech.ListeningSettings;
import tallyback.speech.Reading;
import tallyback.speech.adapt.Lesson;
import tallyback.speech.adapt.Measured;
import tallyback.speech.adapt.TaughtVoice;
import tallyback.speech.adapt.TeachableRecogniser;
import tallyback.speech.adapt.VoiceProfile;
import tallyback.speech.sphinx.SphinxRecognisers;

/**
 * Teaching one voice: takes what it repeats, line by line, keeps the sound at once so that it may
 * be broken off and gone on with, and at the end learns from it, if that makes hearing better.
 *
 * <p>What is better is measured on lines that were held back: the lines are dealt into four parts,
 * and each part is heard with what was learned of the three others.
 *
 * <p>One thread, the recogniser's.
 */
public final class Teaching implements AutoCloseable {

  /** With fewer lines neither can anything be learned nor measured. */
  static final int FEWEST_LINES = 10;

  private static final int PARTS = 4;

  /**
   * Words that are not what was said fit far worse: of 19 lines in the voice that is heard worst
   * the right ones fitted down to -56, others up to -184.
   */
  private static final double LEAST_FIT = -110;

  /** A word that is not there at all fits worse than this. */
  private static final double LEAST_WORD_FIT = -330;

  /** What is learned in noise is the noise. */
  private static final double LEAST_SNR_DB = 18;

  /** So much of a clip at either end holds no speech in places: what a cutter leaves there. */
  private static final int AROUND = Clip.SAMPLE_RATE_HZ * 3 / 10;

  private static final int AROUND_PIECE = Clip.SAMPLE_RATE_HZ / 20;

  private static final double FULL_SCALE_DB = 20 * Math.log10(32_768);

  private final VoiceShelf shelf;
  private final String name;
  private final LoadedPlan plan;
  private final InstantSource clock;
  private final TeachableRecogniser recogniser;
  private boolean forgetFirst;

  private Teaching(
      VoiceShelf shelf,
      String name,
      LoadedPlan plan,
      boolean anew,
      InstantSource clock,
      TeachableRecogniser recogniser) {
    this.shelf = shelf;
    forgetFirst = anew;
    this.name = name;
    this.plan = plan;
    this.clock = clock;
    this.recogniser = recogniser;
  }

  /** What became of a repetition. */
  public enum Taken {
    /** It is kept. */
    UNDERSTOOD,
    /** Something else was said, or it was broken off. */
    NOT_UNDERSTOOD,
    /** There is too much noise to learn from it. */
    TOO_NOISY
  }

  /**
   * A line to be repeated.
   *
   * @param number from 1
   * @param words its words
   */
  public record Line(int number, List<String> words) {

    /** Copies the words. */
    public Line {
      words = List.copyOf(words);
    }

    /** The line as text. */
    public String text() {
      return String.join(" ", words);
    }
  }

  /**
   * What teaching came to.
   *
   * @param lessons how many recordings were learned from
   * @param before how the held-back lines were heard without
   * @param after how with
   * @param kept whether it is better, and so is kept
   */
  public record Outcome(int lessons, Measured before, Measured after, boolean kept) {}

  /**
   * Begins, or goes on with a voice whose teaching was broken off.
   *
   * @param name a name as {@link VoiceShelf#name} returns it
   * @param named the plan that the lines are phrases of; null for the demo's, whose lines come with
   *     the program
   * @param anew whether what is kept of the voice is forgotten as soon as there is something new
   */
  public static Teaching open(
      VoiceShelf shelf,
      String name,
      @Nullable LoadedPlan named,
      boolean anew,
      InstantSource clock) {
    LoadedPlan plan = named == null ? TeachingLines.plan() : named;
    return new Teaching(
        shelf,
        name,
        plan,
        anew,
        clock,
        SphinxRecognisers.open(
            Map.of(ListeningMode.ENTRIES, plan.grammar().entries()),
            plan.lexicon(),
            plan.grammar()::sense,
            ListeningSettings.defaults()));
  }

  /** All lines. */
  public static int count() {
    return TeachingLines.all().size();
  }

  /** The lines that were not recorded yet; none when all were. */
  public static List<Line> left(VoiceShelf shelf, String name) {
    Set<List<String>> said = new HashSet<>();
    shelf.recorded(name).forEach(each -> said.add(each.words()));
    return all().stream().filter(line -> !said.contains(line.words())).toList();
  }

  /** All lines, to be repeated once more. */
  public static List<Line> all() {
    List<List<String>> lines = TeachingLines.all();
    List<Line> all = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      all.add(new Line(i + 1, lines.get(i)));
    }
    return List.copyOf(all);
  }

  /** Takes a repetition; one that is understood is on disk when this returns. */
  public Taken take(Line line, Clip clip) {
    Taken taken = judged(new Lesson(clip, line.words()));
    if (taken == Taken.UNDERSTOOD) {
      record(line.number(), new Lesson(clip, line.words()));
    }
    return taken;
  }

  private void record(int line, Lesson lesson) {
    if (forgetFirst) {
      shelf.forget(name);
      forgetFirst = false;
    }
    shelf.record(name, line, lesson.words(), lesson.clip());
  }

  private Taken judged(Lesson lesson) {
    if (snrDb(lesson.clip()) < LEAST_SNR_DB) {
      return Taken.TOO_NOISY;
    }
    Optional<Reading> followed = recogniser.follow(lesson);
    return followed
            .filter(reading -> reading.fit() >= LEAST_FIT)
            .filter(reading -> reading.worstTellingWordFit() >= LEAST_WORD_FIT)
            .isPresent()
        ? Taken.UNDERSTOOD
        : Taken.NOT_UNDERSTOOD;
  }

  /**
   * How far the speech stands above what is around it: words that follow one another without a gap
   * hide no noise.
   */
  private static double snrDb(Clip clip) {
    LevelReport level = LevelMeter.measure(clip);
    double around = Double.POSITIVE_INFINITY;
    for (int from = 0; from + AROUND_PIECE <= clip.length(); from += AROUND_PIECE) {
      if (from < AROUND || from + AROUND_PIECE > clip.length() - AROUND) {
        double power = 0;
        for (int i = from; i < from + AROUND_PIECE; i++) {
          power += (double) clip.sample(i) * clip.sample(i) / AROUND_PIECE;
        }
        around = Math.min(around, power);
      }
    }
    double aroundDb = 10 * Math.log10(Math.max(around, 1)) - FULL_SCALE_DB;
    return Math.max(level.snrDb(), level.activeDbfs() - aroundDb);
  }

  /**
   * Takes the recordings of a folder instead of repetitions.
   *
   * @param folder with WAV files and {@code transcripts.tsv}: file, speaker, words
   * @return one line for each that was left out, with the reason
   * @throws WrongUse if there is nothing in it to learn from; nothing is kept then
   */
  public List<String> takeFrom(Path folder) throws AudioRefused {
    if (!Files.isDirectory(folder)) {
      throw new WrongUse("--from " + folder + ": there is no such folder; name another");
    }
    List<VoiceShelf.Recorded> recorded = VoiceShelf.recordedIn(folder);
    if (recorded.isEmpty()) {
      throw new WrongUse(
          "--from "
              + folder
              + ": nothing to learn from; it needs WAV files, and transcripts.tsv that says of each"
              + " file, speaker and words between tabs");
    }
    requireKnown(folder, recorded);
    List<String> leftOut = new ArrayList<>();
    List<Lesson> good = new ArrayList<>();
    for (VoiceShelf.Recorded each : recorded) {
      Lesson lesson = lesson(each);
      Taken taken = judged(lesson);
      if (taken == Taken.UNDERSTOOD) {
        good.add(lesson);
      } else {
        leftOut.add(
            each.file()
                + (taken == Taken.TOO_NOISY
                    ? ": left out, too noisy to learn from"
                    : ": left out, it does not sound like \"" + String.join(" ", each.words()))
                + (taken == Taken.TOO_NOISY ? "" : "\""));
      }
    }
    if (good.size() < FEWEST_LINES) {
      List<String> told = new ArrayList<>(leftOut);
      told.add(
          "--from "
              + folder
              + ": expected at least "
              + FEWEST_LINES
              + " recordings to learn from, found "
              + good.size()
              + "; add more");
      throw new WrongUse(told);
    }
    int number = 0;
    for (Lesson lesson : good) {
      number++;
      record(number, lesson);
    }
    return leftOut;
  }

  private void requireKnown(Path folder, List<VoiceShelf.Recorded> recorded) {
    List<String> unknown =
        recorded.stream()
            .flatMap(each -> each.words().stream())
            .distinct()
            .filter(word -> !plan.lexicon().knows(word))
            .sorted()
            .toList();
    if (!unknown.isEmpty()) {
      throw new WrongUse(
          folder.resolve("transcripts.tsv")
              + ": expected words with a known pronunciation, found "
              + String.join(", ", unknown)
              + "; write them in plain English words, numbers too");
    }
  }

  private static Lesson lesson(VoiceShelf.Recorded recorded) throws AudioRefused {
    try {
      return recorded.lesson();
    } catch (AudioRefused e) {
      throw e;
    } catch (IOException e) {
      throw new MachineFailed(
          recorded.file() + ": can't be read (" + e.getMessage() + "); check the disk", e);
    }
  }

  /**
   * Learns from all that is recorded of the voice, and keeps it if it is better than without.
   *
   * @throws WrongUse if too little is recorded
   */
  public Outcome finish() throws AudioRefused {
    List<Lesson> lessons = new ArrayList<>();
    for (VoiceShelf.Recorded each : shelf.recorded(name)) {
      lessons.add(lesson(each));
    }
    List<Lesson> measurable =
        lessons.stream()
            .filter(lesson -> plan.grammar().entries().accepts(lesson.words()))
            .toList();
    if (measurable.size() < FEWEST_LINES) {
      throw new WrongUse(
          "voice "
              + name
              + ": expected at least "
              + FEWEST_LINES
              + " recorded lines that are phrases of the plan, found "
              + measurable.size()
              + "; say more of them, or name the plan with --plan");
    }
    Tally before = new Tally();
    Tally after = new Tally();
    for (int part = 0; part < PARTS; part++) {
      Set<List<String>> heldBack = part(measurable, part);
      List<Lesson> others =
          lessons.stream().filter(lesson -> !heldBack.contains(lesson.words())).toList();
      VoiceProfile learned = recogniser.learn(others);
      for (Lesson lesson : measurable) {
        if (heldBack.contains(lesson.words())) {
          recogniser.expect(null);
          hear(lesson, before);
          recogniser.expect(learned);
          hear(lesson, after);
        }
      }
      recogniser.expect(null);
    }
    Measured without = before.measured();
    Measured with = after.measured();
    boolean better = with.isBetterThan(without);
    if (better) {
      VoiceProfile profile = recogniser.learn(lessons);
      shelf.keep(name, new TaughtVoice(clock.instant(), without, with, profile));
    }
    return new Outcome(lessons.size(), without, with, better);
  }

  /** The lines of a part: a line that was said twice is held back as a whole. */
  private static Set<List<String>> part(List<Lesson> lessons, int part) {
    List<List<String>> distinct = lessons.stream().map(Lesson::words).distinct().toList();
    Set<List<String>> some = new HashSet<>();
    for (int i = part; i < distinct.size(); i += PARTS) {
      some.add(distinct.get(i));
    }
    return some;
  }

  private void hear(Lesson lesson, Tally tally) {
    Hearing hearing = recogniser.hear(lesson.clip(), ListeningMode.ENTRIES);
    Judgement judgement = ListeningSettings.defaults().judge(ListeningMode.ENTRIES).judge(hearing);
    Object said = plan.grammar().sense(lesson.words());
    boolean right =
        !hearing.isRejected()
            && plan.grammar().sense(hearing.readings().get(0).texts()).equals(said);
    boolean sure = judgement == Judgement.NOTE;
    double fit = recogniser.follow(lesson).map(Reading::fit).orElse(LEAST_FIT);
    tally.add(right, sure, Math.max(fit, 10 * LEAST_FIT));
  }

  /** Counts while lines are heard. */
  private static final class Tally {
    private int lines;
    private int noted;
    private int rightOnes;
    private int wrong;
    private double fits;

    void add(boolean right, boolean sure, double fit) {
      lines++;
      noted += right && sure ? 1 : 0;
      rightOnes += right ? 1 : 0;
      wrong += !right && sure ? 1 : 0;
      fits += fit;
    }

    Measured measured() {
      return new Measured(lines, noted, rightOnes, wrong, fits / lines);
    }
  }

  @Override
  public void close() {
    recogniser.close();
  }
}
