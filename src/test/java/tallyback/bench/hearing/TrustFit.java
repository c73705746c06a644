package tallyback.bench.hearing;

import de.bwaldvogel.liblinear.Feature;
import de.bwaldvogel.liblinear.FeatureNode;
import de.bwaldvogel.liblinear.Linear;
import de.bwaldvogel.liblinear.Model;
import de.bwaldvogel.liblinear.Parameter;
import de.bwaldvogel.liblinear.Problem;
import de.bwaldvogel.liblinear.SolverType;
import java.io.IOException;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import tallyback.speech.Evidence;
import tallyback.speech.Sign;
import tallyback.speech.Trust;

/**
 * Learns the weights of {@link Trust} from hearings of the tuning voices: L2-regularised logistic
 * regression by liblinear (R.-E. Fan, K.-W. Chang, C.-J. Hsieh, X.-R. Wang, C.-J. Lin,
 * <cite>LIBLINEAR: a library for large linear classification</cite>, Journal of Machine Learning
 * Research 9, 2008). Hearings in noise count a third: there are few phrases, each many times.
 *
 * <p>Command: {@code mvn -q -Pbench process-test-classes -Dbench.main=TrustFit
 * -Dbench.speech=DIR[,DIR]}, each the {@code bench.out} of a run of the bench. Prints the weights
 * and, each voice judged by what was learned from the others, how reliable the probabilities are.
 */
public final class TrustFit {

  private static final double COST = 2;

  /** So large that keeping weights small does not keep the base small. */
  private static final double BASE = 10;

  private static final double[] BINS = {0, 0.2, 0.5, 0.7, 0.8, 0.9, 0.94, 0.97, 0.98, 0.99, 1.01};
  private static final double[] LIMITS = {0.85, 0.9, 0.92, 0.94, 0.96, 0.98};

  private TrustFit() {}

  /** Runs it. */
  public static void main(String[] args) throws IOException {
    try {
      List<Heard> all =
          ThresholdCurve.readNewest(BenchSettings.of(HearingBench.properties()).speech());
      System.out.print(report(all.stream().filter(each -> !each.readings().isEmpty()).toList()));
    } catch (IllegalArgumentException e) {
      System.err.println(e.getMessage());
      System.exit(2);
    }
  }

  private static String report(List<Heard> heard) {
    Trust all = learn(heard);
    StringBuilder text = new StringBuilder();
    text.append(String.format(Locale.ROOT, "base %.2f%n", all.base()));
    all.weights()
        .forEach(
            (sign, weight) -> text.append(String.format(Locale.ROOT, "%s %.2f%n", sign, weight)));
    Map<String, Trust> without = new java.util.TreeMap<>();
    for (String person : new TreeSet<>(heard.stream().map(TrustFit::person).toList())) {
      List<Heard> others = heard.stream().filter(each -> !person(each).equals(person)).toList();
      without.put(person, others.isEmpty() ? all : learn(others));
    }
    text.append("\nEach person's voices judged by the others\n");
    text.append(tables(heard, each -> trust(without, each).in(each.evidence())));
    text.append("\nAll of them judged by all\n");
    text.append(tables(heard, each -> all.in(each.evidence())));
    return text.toString();
  }

  private static Trust trust(Map<String, Trust> without, Heard heard) {
    Trust trust = without.get(person(heard));
    if (trust == null) {
      throw new IllegalStateException("no such voice: " + heard.set());
    }
    return trust;
  }

  private static String person(Heard heard) {
    return Voices.person(heard.set());
  }

  private static String tables(List<Heard> heard, ToDoubleFunction<Heard> trust) {
    StringBuilder text =
        new StringBuilder("| trust from | n | mean | right |\n| --- | --- | --- | --- |\n");
    for (int bin = 0; bin + 1 < BINS.length; bin++) {
      double from = BINS[bin];
      double to = BINS[bin + 1];
      List<Heard> here =
          heard.stream()
              .filter(each -> trust.applyAsDouble(each) >= from && trust.applyAsDouble(each) < to)
              .toList();
      if (!here.isEmpty()) {
        text.append(
            String.format(
                Locale.ROOT,
                "| %.2f | %d | %.3f | %s |%n",
                from,
                here.size(),
                here.stream().mapToDouble(trust).average().orElseThrow(),
                new Share(right(here), here.size()).percent()));
      }
    }
    text.append("\n| set, ratio | n | best right |");
    for (double limit : LIMITS) {
      text.append(String.format(Locale.ROOT, " right / wrong from %.2f |", limit));
    }
    text.append("\n| --- |").append(" --- |".repeat(LIMITS.length + 2)).append('\n');
    for (String row : new TreeSet<>(heard.stream().map(TrustFit::row).toList())) {
      List<Heard> here = heard.stream().filter(each -> row(each).equals(row)).toList();
      text.append(
          String.format(
              Locale.ROOT, "| %s | %d | %.1f |", row, here.size(), percent(right(here), here)));
      for (double limit : LIMITS) {
        List<Heard> noted =
            here.stream().filter(each -> trust.applyAsDouble(each) >= limit).toList();
        text.append(
            String.format(
                Locale.ROOT,
                " %.1f / %d |",
                percent(right(noted), here),
                noted.size() - right(noted)));
      }
      text.append('\n');
    }
    return text.toString();
  }

  private static String row(Heard heard) {
    return heard.set() + ", " + heard.snr();
  }

  private static double percent(long count, List<Heard> of) {
    return 100.0 * count / of.size();
  }

  private static long right(List<Heard> heard) {
    return heard.stream().filter(each -> each.rightAt() == 0).count();
  }

  static Trust learn(List<Heard> heard) {
    Sign[] signs = Sign.values();
    List<Heard> clean = heard.stream().filter(each -> each.snr().equals("clean")).toList();
    List<Heard> noisy = heard.stream().filter(each -> !each.snr().equals("clean")).toList();
    Problem problem = new Problem();
    // The library weighs classes, not rows: so each row of the quiet stands there three times.
    List<Heard> rows = Stream.of(clean, clean, clean, noisy).flatMap(List::stream).toList();
    problem.l = rows.size();
    problem.n = signs.length + 1;
    problem.x = new Feature[rows.size()][];
    problem.y = new double[rows.size()];
    for (int row = 0; row < rows.size(); row++) {
      Evidence evidence = rows.get(row).evidence();
      Feature[] features = new Feature[signs.length + 1];
      for (int sign = 0; sign < signs.length; sign++) {
        features[sign] = new FeatureNode(sign + 1, signs[sign].in(evidence));
      }
      features[signs.length] = new FeatureNode(signs.length + 1, BASE);
      problem.x[row] = features;
      problem.y[row] = rows.get(row).rightAt() == 0 ? 1 : 0;
    }
    Linear.disableDebugOutput();
    Model model = Linear.train(problem, new Parameter(SolverType.L2R_LR, COST, 1e-4));
    double direction = model.getLabels()[0] == 1 ? 1 : -1;
    Map<Sign, Double> weights = new EnumMap<>(Sign.class);
    for (int sign = 0; sign < signs.length; sign++) {
      weights.put(signs[sign], direction * model.getFeatureWeights()[sign]);
    }
    return new Trust(BASE * direction * model.getFeatureWeights()[signs.length], weights);
  }
}
