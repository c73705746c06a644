package tallyback.bench.hearing;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.function.Supplier;

/**
 * Utterances that are reported together.
 *
 * @param name its name in every table
 * @param utterances what is said
 * @param more what is said in a noise, by its name: voices speak other phrases in each, so that a
 *     hard one does not count once for every noise; of recordings there are no others
 */
record SpeechSet(String name, List<Utterance> utterances, Function<String, List<Utterance>> more) {

  /** So many draws for each phrase, before there are no others. */
  private static final int MOST_TRIES = 20;

  /** How the set of what the grammar does not hold ends. */
  static final String NOT_IN_THE_GRAMMAR = " (not in the grammar)";

  SpeechSet {
    utterances = List.copyOf(utterances);
  }

  /** A set that is the same in every noise. */
  SpeechSet(String name, List<Utterance> utterances) {
    this(name, utterances, noise -> utterances);
  }

  /** The same with fewer utterances in each noise: there are many noises. */
  SpeechSet atMostInNoise(int most) {
    return new SpeechSet(
        name, utterances, noise -> more.apply(noise).stream().limit(most).toList());
  }

  /**
   * Phrases of a language spoken by a free voice.
   *
   * @param voice the voice
   * @param language with phrases to draw
   * @param n how many
   * @param seed another one draws other phrases
   * @param spoken the folder that keeps what was spoken
   */
  static SpeechSet spoken(Voices voice, Language language, int n, long seed, Path spoken) {
    Function<Random, Supplier<List<String>>> phrases = language.phrases();
    if (phrases == null) {
      throw new IllegalArgumentException("voices need a plan to draw phrases from, found JSGF");
    }
    Function<String, List<Utterance>> draw =
        noise ->
            spoken(
                voice,
                phrases.apply(new Random(voice.name().hashCode() + seed + noise.hashCode())),
                n,
                spoken);
    return new SpeechSet(voice.name(), draw.apply(""), draw);
  }

  private static List<Utterance> spoken(
      Voices voice, Supplier<List<String>> source, int n, Path spoken) {
    // Each phrase once: the short ones without a number in them would come again and again.
    Set<List<String>> phrases = new LinkedHashSet<>();
    for (int tries = 0; phrases.size() < n && tries < MOST_TRIES * n; tries++) {
      phrases.add(source.get());
    }
    List<Utterance> utterances = new ArrayList<>();
    int i = 0;
    for (List<String> phrase : phrases) {
      utterances.add(
          new Utterance(
              String.format(Locale.ROOT, "%05d", i++),
              voice.name(),
              phrase,
              () -> voice.speak(phrase, spoken)));
    }
    return utterances;
  }

  /**
   * Recordings of people: with {@code transcripts.tsv} (file, speaker, words, a line of headings
   * above or not) a set of what the grammar holds and one of what it doesn't; without it all of
   * them are taken for speech that is no entry.
   *
   * @param folder the folder
   * @param language what the words must be phrases of
   * @param n how many of each set at most, drawn with the seed
   * @param without speakers to leave out
   */
  static List<SpeechSet> recorded(
      Path folder, Language language, int n, long seed, Set<String> without) throws IOException {
    String name = folder.toAbsolutePath().normalize().getFileName().toString();
    Path transcripts = folder.resolve("transcripts.tsv");
    if (!Files.exists(transcripts)) {
      List<Utterance> none = new ArrayList<>();
      for (Path file : Recordings.in(folder)) {
        none.add(recording(folder, folder.relativize(file).toString(), "", List.of()));
      }
      return List.of(new SpeechSet(name, drawn(none, n, seed)));
    }
    Map<Boolean, List<Utterance>> said = new TreeMap<>(Comparator.reverseOrder());
    List<String> lines = Files.readAllLines(transcripts);
    for (int number = 0; number < lines.size(); number++) {
      String[] field = lines.get(number).split("\t", -1);
      boolean headings = number == 0 && !field[0].endsWith(".wav");
      if (headings || lines.get(number).isBlank()) {
        continue;
      }
      if (field.length < 3) {
        throw new IllegalArgumentException(
            transcripts + ":" + (number + 1) + ": expected file, speaker, words between tabs");
      }
      List<String> words = List.of(field[2].strip().toLowerCase(Locale.ROOT).split("\\s+", -1));
      boolean sayable = language.graph().accepts(words);
      if (!without.contains(field[1])) {
        said.computeIfAbsent(sayable, each -> new ArrayList<>())
            .add(recording(folder, field[0], field[1], sayable ? words : List.of()));
      }
    }
    List<SpeechSet> sets = new ArrayList<>();
    said.forEach(
        (sayable, utterances) ->
            sets.add(
                new SpeechSet(
                    sayable ? name : name + NOT_IN_THE_GRAMMAR, drawn(utterances, n, seed))));
    return sets;
  }

  private static Utterance recording(Path folder, String file, String speaker, List<String> words) {
    return new Utterance(file, speaker, words, () -> Recordings.read(folder.resolve(file)));
  }

  private static List<Utterance> drawn(List<Utterance> all, int n, long seed) {
    List<Utterance> drawn = new ArrayList<>(all);
    Collections.shuffle(drawn, new Random(seed));
    return drawn.subList(0, Math.min(n, drawn.size()));
  }
}
