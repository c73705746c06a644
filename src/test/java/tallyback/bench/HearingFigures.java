package tallyback.bench;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.Function;
import java.util.function.Supplier;
import tallyback.phrase.EntryGrammar;
import tallyback.phrase.Examples;
import tallyback.phrase.WordGraph;
import tallyback.plan.PlanReader;
import tallyback.plan.PlanReading;
import tallyback.speech.CmuLexicon;
import tallyback.speech.Doubt;
import tallyback.speech.Hearing;
import tallyback.speech.Judgement;
import tallyback.speech.ListeningMode;
import tallyback.speech.Meaning;
import tallyback.speech.Recogniser;
import tallyback.speech.sphinx.SphinxRecognisers;

/**
 * How well entries are heard, in one configuration, the default one: clean synthetic voices that
 * nothing was tuned on, voice by voice, and recordings that hold no entry.
 *
 * <p>Arguments: how many phrases per voice, the folder for spoken phrases, the folder for the
 * tables, and any number of folders of recordings without an entry.
 */
public final class HearingFigures {

  private HearingFigures() {}

  /** Runs it on the grammar of the demo plan. */
  public static void main(String[] args) throws IOException, InterruptedException {
    PlanReading plan = PlanReader.read(Path.of("demo-data/plan.yaml"));
    EntryGrammar grammar = EntryGrammar.of(plan.plan().orElseThrow());
    run(grammar.entries(), random -> examples(grammar, random), grammar::sense, args);
  }

  private static Supplier<List<String>> examples(EntryGrammar grammar, Random random) {
    Examples examples = new Examples(grammar, random);
    return examples::next;
  }

  private static List<Voices> voices() {
    return List.of(System.getProperty("voices", "SLT,KED,ESPEAK_WOMAN").split(",")).stream()
        .map(Voices::valueOf)
        .toList();
  }

  /**
   * Runs it on any grammar.
   *
   * @param grammar what may be said
   * @param phrases makes phrases to be spoken
   * @param meaning which phrases amount to the same
   */
  static void run(
      WordGraph grammar,
      Function<Random, Supplier<List<String>>> phrases,
      Meaning meaning,
      String[] args)
      throws IOException, InterruptedException {
    int perVoice = Integer.parseInt(args[0]);
    Path spoken = Path.of(args[1]);
    Path tables = Path.of(args[2]);
    System.out.println(grammar);
    try (Recogniser recogniser =
        SphinxRecognisers.open(
            Map.of(ListeningMode.ENTRIES, grammar),
            CmuLexicon.load(),
            meaning,
            Settings.fromProperties())) {
      Observations all = new Observations();
      for (Voices voice : voices()) {
        Observations observations = new Observations();
        Supplier<List<String>> source = phrases.apply(new Random(voice.name().hashCode()));
        for (int i = 0; i < perVoice; i++) {
          List<String> phrase = source.get();
          observations.hear(
              recogniser,
              ListeningMode.ENTRIES,
              voice.name(),
              String.join(" ", phrase),
              voice.speak(phrase, spoken));
        }
        print(voice.name(), observations, meaning);
        observations.write(tables.resolve("report-" + voice.name() + ".tsv"), meaning);
        all.all().addAll(observations.all());
      }
      System.out.printf(
          "all voices: CPU time %.4f of the length of the sound%n", all.cpuPerSecondOfSound());
      background(recogniser, List.of(args).subList(3, args.length), tables, meaning);
    }
  }

  private static void background(
      Recogniser recogniser, List<String> folders, Path tables, Meaning meaning)
      throws IOException {
    Observations background = new Observations();
    for (String folder : folders) {
      for (Path file : TuningData.wavFiles(Path.of(folder))) {
        background.hear(
            recogniser,
            ListeningMode.ENTRIES,
            "background",
            file.getFileName().toString(),
            TuningData.read(file));
      }
    }
    long noted =
        background.all().stream().filter(o -> judge(o.hearing()) == Judgement.NOTE).count();
    long asked = background.all().stream().filter(o -> judge(o.hearing()) == Judgement.ASK).count();
    long n = background.all().size();
    System.out.println("no entry: noted " + new Share(noted, n) + ", asked " + new Share(asked, n));
    background.write(tables.resolve("report-background.tsv"), meaning);
  }

  private static Judgement judge(Hearing hearing) {
    return Doubt.defaults().judge(hearing);
  }

  static void print(String name, Observations observations, Meaning meaning) {
    long n = observations.all().size();
    long exact = observations.all().stream().filter(o -> Observations.isRight(o, meaning)).count();
    long notedRight = count(observations, Judgement.NOTE, true, meaning);
    long notedWrong = count(observations, Judgement.NOTE, false, meaning);
    long askedRight = count(observations, Judgement.ASK, true, meaning);
    long askedWrong = count(observations, Judgement.ASK, false, meaning);
    long rejected =
        observations.all().stream().filter(o -> judge(o.hearing()) == Judgement.REJECT).count();
    System.out.println(name + ": best reading exact " + new Share(exact, n));
    System.out.println(
        "  noted right " + new Share(notedRight, n) + "; noted wrong " + new Share(notedWrong, n));
    System.out.println(
        "  asked, best reading right "
            + new Share(askedRight, n)
            + "; wrong "
            + new Share(askedWrong, n)
            + "; rejected "
            + new Share(rejected, n));
  }

  private static long count(
      Observations observations, Judgement judgement, boolean right, Meaning meaning) {
    return observations.all().stream()
        .filter(o -> judge(o.hearing()) == judgement && Observations.isRight(o, meaning) == right)
        .count();
  }
}
