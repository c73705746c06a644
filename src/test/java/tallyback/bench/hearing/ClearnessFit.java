package tallyback.bench.hearing;

import de.bwaldvogel.liblinear.Feature;
import de.bwaldvogel.liblinear.FeatureNode;
import de.bwaldvogel.liblinear.Linear;
import de.bwaldvogel.liblinear.Model;
import de.bwaldvogel.liblinear.Parameter;
import de.bwaldvogel.liblinear.Problem;
import de.bwaldvogel.liblinear.SolverType;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.function.Predicate;
import tallyback.audio.Clip;
import tallyback.audio.LevelMeter;
import tallyback.audio.LevelReport;
import tallyback.audio.SpeechBands;
import tallyback.speech.Clearness;

/**
 * What of a clip, apart from its words, tells whether the best reading is right: the sound of kept
 * hearings is made once more, each clip the same as it was heard, and measured. Then by each of
 * several figures, alone and together, it is learned which hearings were right (logistic regression
 * by liblinear, as in {@link TrustFit}), each person's voices judged by what was learned from the
 * others. And how far {@link Clearness}, as it is now, can be believed for these hearings, and what
 * it would cost and avoid to refuse what is less clear than this or that, by ratio and by noise.
 *
 * <p>Command: {@code mvn -q -Pbench process-test-classes -Dbench.main=ClearnessFit
 * -Dbench.speech=OUT[,OUT] -Dbench.noise=FOLDER -Dbench.noises=tuning|report -Dbench.seed=N}, each
 * OUT the {@code bench.out} of a run with voices, of this seed and these noises. To learn from, the
 * tuning voices in the tuning noises; to judge by, the others. In {@code bench.out} a picture,
 * {@code clearness.svg}.
 */
public final class ClearnessFit {

  private static final double COST = 2;
  private static final double BASE = 10;
  private static final double[] BINS = {0, 0.4, 0.5, 0.6, 0.7, 0.8, 0.85, 0.9, 0.95, 1.01};
  static final double[] LIMITS = {0.3, 0.4, 0.5, 0.55, 0.6, 0.65, 0.7, 0.75, 0.8};

  /** More speech to noise than this makes no difference any more. */
  private static final double ENOUGH_DB = 25;

  private ClearnessFit() {}

  /**
   * A hearing and what was measured in its sound.
   *
   * @param heard the hearing
   * @param level how loud it is
   * @param bands how loud in each band
   */
  record Measured(Heard heard, LevelReport level, SpeechBands bands) {

    boolean isRight() {
      return heard.rightAt() == 0;
    }

    double clearness() {
      return Clearness.of(bands);
    }
  }

  /** A figure of a clip that might tell. */
  private record Figure(String name, Function<Measured, List<Double>> of) {}

  private static final List<Figure> FIGURES =
      List.of(
          new Figure("speech to noise", each -> List.of(snr(each))),
          new Figure("level of the noise", each -> List.of(each.level().noiseDbfs())),
          new Figure("level of the speech", each -> List.of(each.level().activeDbfs())),
          new Figure("speech to noise, length", each -> List.of(snr(each), length(each))),
          new Figure("speech to noise, noise in the gaps", each -> List.of(snr(each), gaps(each))),
          new Figure(
              "prominence, as far as it makes a difference",
              each -> List.of(Math.min(Clearness.MOST_DB, each.bands().prominenceDb()))),
          new Figure("prominence by bands", each -> List.of(each.bands().prominenceDb())),
          new Figure(
              "prominence, length", each -> List.of(each.bands().prominenceDb(), length(each))),
          new Figure(
              "prominence, speech to noise, length, gaps",
              each -> List.of(each.bands().prominenceDb(), snr(each), length(each), gaps(each))));

  private static double snr(Measured each) {
    return Math.min(ENOUGH_DB, each.level().snrDb());
  }

  private static double length(Measured each) {
    return Math.log(each.heard().soundMs() / 1000);
  }

  private static double gaps(Measured each) {
    return each.level().isNoiseInGaps() ? 1 : 0;
  }

  /** Runs it. */
  public static void main(String[] args) throws IOException, InterruptedException {
    try {
      BenchSettings settings = BenchSettings.of(HearingBench.properties());
      List<Measured> measured = measure(settings);
      System.out.print(figures(measured));
      System.out.print(believed(measured));
      System.out.print(refused(measured));
      Path picture = settings.out().resolve("clearness.svg");
      Files.createDirectories(settings.out());
      Files.writeString(picture, ClearnessPicture.draw(measured));
      System.err.println("picture: " + picture.toAbsolutePath());
    } catch (IllegalArgumentException e) {
      System.err.println(e.getMessage());
      System.exit(2);
    }
  }

  private static List<Measured> measure(BenchSettings settings)
      throws IOException, InterruptedException {
    Map<String, Noise> noises = new HashMap<>();
    Path folder = settings.noise();
    if (folder != null) {
      Noise.of(folder, settings.noises()).forEach(each -> noises.put(each.name(), each));
    }
    List<Measured> measured = new ArrayList<>();
    for (Heard heard : ThresholdCurve.readNewest(settings.speech())) {
      Clip sound = sound(heard, noises, settings);
      LevelReport level = LevelMeter.measure(sound);
      if (!(Math.abs(level.snrDb() - heard.measuredSnrDb()) <= 0.1)) {
        throw new IllegalArgumentException(
            heard.key().replace('\t', ' ')
                + ": expected the sound of that run, found another; name its seed and its noises");
      }
      measured.add(new Measured(heard, level, SpeechBands.of(sound)));
    }
    return measured;
  }

  private static Clip sound(Heard heard, Map<String, Noise> noises, BenchSettings settings)
      throws IOException, InterruptedException {
    Clip clean =
        Voices.valueOf(heard.set()).speak(List.of(heard.said().split(" ", -1)), settings.spoken());
    if (heard.snr().equals("clean")) {
      return clean;
    }
    Noise noise = noises.get(heard.noise());
    if (noise == null) {
      throw new IllegalArgumentException("bench.noise: expected " + heard.noise() + " in it");
    }
    return Mixer.mix(
        clean,
        noise,
        Double.parseDouble(heard.snr().replace(" dB", "")),
        HearingBench.seed(heard.set(), heard.utterance(), heard.noise(), settings.seed()));
  }

  // ---- which figure tells

  private static String figures(List<Measured> all) {
    StringBuilder text =
        new StringBuilder(
            all.size()
                + " hearings. Each person's voices judged by what was learned from the others:\n\n"
                + "| figure | area under the curve | log loss |\n| --- | --- | --- |\n");
    for (Figure figure : FIGURES) {
      Map<Measured, Double> judged = judged(all, figure);
      text.append(
          String.format(
              Locale.ROOT, "| %s | %.3f | %.4f |%n", figure.name(), area(judged), loss(judged)));
    }
    text.append("\nLearned from all: log odds of being right\n");
    for (Figure figure : FIGURES) {
      text.append(figure.name()).append(':');
      for (double weight : learn(all, figure)) {
        text.append(String.format(Locale.ROOT, " %.3f", weight));
      }
      text.append('\n');
    }
    return text.toString();
  }

  private static Map<Measured, Double> judged(List<Measured> all, Figure figure) {
    Map<Measured, Double> judged = new LinkedHashMap<>();
    TreeSet<String> people = new TreeSet<>(all.stream().map(ClearnessFit::person).toList());
    for (String person : people) {
      Predicate<Measured> his = each -> person(each).equals(person);
      List<Measured> others = all.stream().filter(his.negate()).toList();
      double[] weights = learn(others.isEmpty() ? all : others, figure);
      all.stream().filter(his).forEach(each -> judged.put(each, odds(weights, figure, each)));
    }
    return judged;
  }

  private static String person(Measured measured) {
    return Voices.person(measured.heard().set());
  }

  /** The base, then a weight for each number of the figure. */
  private static double[] learn(List<Measured> from, Figure figure) {
    int n = figure.of().apply(from.get(0)).size();
    Problem problem = new Problem();
    problem.l = from.size();
    problem.n = n + 1;
    problem.x = new Feature[from.size()][];
    problem.y = new double[from.size()];
    for (int row = 0; row < from.size(); row++) {
      List<Double> numbers = figure.of().apply(from.get(row));
      Feature[] features = new Feature[n + 1];
      for (int i = 0; i < n; i++) {
        features[i] = new FeatureNode(i + 1, numbers.get(i));
      }
      features[n] = new FeatureNode(n + 1, BASE);
      problem.x[row] = features;
      problem.y[row] = from.get(row).isRight() ? 1 : 0;
    }
    Linear.disableDebugOutput();
    Model model = Linear.train(problem, new Parameter(SolverType.L2R_LR, COST, 1e-4));
    double direction = model.getLabels()[0] == 1 ? 1 : -1;
    double[] weights = new double[n + 1];
    weights[0] = BASE * direction * model.getFeatureWeights()[n];
    for (int i = 0; i < n; i++) {
      weights[i + 1] = direction * model.getFeatureWeights()[i];
    }
    return weights;
  }

  private static double odds(double[] weights, Figure figure, Measured each) {
    double odds = weights[0];
    List<Double> numbers = figure.of().apply(each);
    for (int i = 0; i < numbers.size(); i++) {
      odds += weights[i + 1] * numbers.get(i);
    }
    return odds;
  }

  /** How often a right one is given better odds than a wrong one. */
  private static double area(Map<Measured, Double> judged) {
    List<Map.Entry<Measured, Double>> ranked = new ArrayList<>(judged.entrySet());
    ranked.sort(Comparator.comparingDouble(Map.Entry::getValue));
    double wrongBelow = 0;
    double pairs = 0;
    long right = 0;
    for (Map.Entry<Measured, Double> each : ranked) {
      if (each.getKey().isRight()) {
        pairs += wrongBelow;
        right++;
      } else {
        wrongBelow++;
      }
    }
    return pairs / (right * wrongBelow);
  }

  private static double loss(Map<Measured, Double> judged) {
    double sum = 0;
    for (Map.Entry<Measured, Double> each : judged.entrySet()) {
      double odds = each.getKey().isRight() ? each.getValue() : -each.getValue();
      sum += Math.log1p(Math.exp(-odds));
    }
    return sum / judged.size();
  }

  // ---- how it is now

  private static String believed(List<Measured> all) {
    StringBuilder text =
        new StringBuilder("\n| clearness from | n | mean | right |\n| --- | --- | --- | --- |\n");
    for (int bin = 0; bin + 1 < BINS.length; bin++) {
      List<Measured> here = between(all, BINS[bin], BINS[bin + 1]);
      if (!here.isEmpty()) {
        text.append(
            String.format(
                Locale.ROOT,
                "| %.2f | %d | %.3f | %s |%n",
                BINS[bin],
                here.size(),
                here.stream().mapToDouble(Measured::clearness).average().orElseThrow(),
                new Share(count(here, Measured::isRight), here.size()).percent()));
      }
    }
    return text.toString();
  }

  static List<Measured> between(List<Measured> all, double from, double to) {
    return all.stream().filter(each -> each.clearness() >= from && each.clearness() < to).toList();
  }

  static long count(Collection<Measured> of, Predicate<Measured> which) {
    return of.stream().filter(which).count();
  }

  static long count(Collection<Measured> of, Outcome outcome) {
    return count(of, each -> each.heard().outcome() == outcome);
  }

  private static String refused(List<Measured> all) {
    StringBuilder text = new StringBuilder();
    for (double limit : LIMITS) {
      text.append(
          String.format(
              Locale.ROOT,
              "%nRefused below %.2f%n"
                  + "| | n | refused | of those noted right | noted wrong | asked, right offered |"
                  + " asked in vain | rejected | taken: noted right | noted wrong | asked in vain |%n"
                  + "| --- |%s%n",
              limit,
              " --- |".repeat(10)));
      rows(text, all, limit, each -> "all");
      rows(text, all, limit, each -> String.format(Locale.ROOT, "%8s", each.heard().snr()));
      rows(text, all, limit, each -> each.heard().noise());
    }
    return text.toString();
  }

  private static void rows(
      StringBuilder text, List<Measured> all, double limit, Function<Measured, String> name) {
    for (String row : new TreeSet<>(all.stream().map(name).toList())) {
      List<Measured> here = all.stream().filter(each -> name.apply(each).equals(row)).toList();
      List<Measured> refused = between(here, 0, limit);
      List<Measured> taken = between(here, limit, 2);
      text.append(
          String.format(
              Locale.ROOT,
              "| %s | %d | %.1f %% | %d | %d | %d | %d | %d | %d | %d | %d |%n",
              row.strip(),
              here.size(),
              100 * new Share(refused.size(), here.size()).value(),
              count(refused, Outcome.EXACT),
              count(refused, Outcome.NOTED_WRONG),
              count(refused, Outcome.ASKED_RIGHT),
              count(refused, Outcome.ASKED_WRONG),
              count(refused, Outcome.REJECTED),
              count(taken, Outcome.EXACT),
              count(taken, Outcome.NOTED_WRONG),
              count(taken, Outcome.ASKED_WRONG)));
    }
  }
}
