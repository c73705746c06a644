package tallyback.bench.hearing;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * Which words were taken for which, in runs of the bench over the tuning voices: where {@code
 * SoundAlike} has its list of words that are mistaken although their phones differ. Also how often
 * the right reading was at least among those offered: a confusion that the rivals don't know is
 * noted wrong sooner or later.
 *
 * <p>Command: {@code mvn -q -Pbench process-test-classes -Dbench.main=ConfusionTable
 * -Dbench.speech=DIR[,DIR]}, each the {@code bench.out} of a run. Prints a table, the commonest
 * first.
 */
public final class ConfusionTable {

  private static final String NOTHING = "(nothing)";
  private static final int MOST_ROWS = 60;

  private ConfusionTable() {}

  /** Prints it. */
  public static void main(String[] args) throws IOException {
    try {
      System.out.print(
          of(ThresholdCurve.readNewest(BenchSettings.of(HearingBench.properties()).speech())));
    } catch (IllegalArgumentException e) {
      System.err.println(e.getMessage());
      System.exit(2);
    }
  }

  /** How often a confusion was seen, and how often the right reading was offered then. */
  private record Seen(int times, int offered) {

    Seen and(boolean right) {
      return new Seen(times + 1, right ? offered + 1 : offered);
    }
  }

  /** The table; speech that is no entry has no right words and is left out. */
  static String of(List<Heard> heard) {
    Map<String, Seen> seen = new TreeMap<>();
    int wrong = 0;
    int offered = 0;
    for (Heard each : heard) {
      if (each.said().isEmpty() || each.readings().isEmpty() || each.rightAt() == 0) {
        continue;
      }
      wrong++;
      offered += each.rightAt() > 0 ? 1 : 0;
      List<String> said = List.of(each.said().split(" ", -1));
      List<String> read = List.of(each.readings().get(0).words().split(" ", -1));
      for (String confusion : confusions(said, read)) {
        Seen before = seen.getOrDefault(confusion, new Seen(0, 0));
        seen.put(confusion, before.and(each.rightAt() > 0));
      }
    }
    StringBuilder text = new StringBuilder();
    text.append(
        String.format(
            Locale.ROOT,
            "best reading wrong: %d, the right one offered besides in %d%n%n",
            wrong,
            offered));
    text.append("| said | heard | times | right one offered |\n| --- | --- | --- | --- |\n");
    seen.entrySet().stream()
        .sorted(
            Map.Entry.<String, Seen>comparingByValue(Comparator.comparing(Seen::times)).reversed())
        .limit(MOST_ROWS)
        .forEach(
            each ->
                text.append(
                    String.format(
                        Locale.ROOT,
                        "| %s | %d | %d |%n",
                        each.getKey(),
                        each.getValue().times(),
                        each.getValue().offered())));
    return text.toString();
  }

  /**
   * What stands where two rows of words differ: the stretches between the words that both have in
   * the same order (the longest common subsequence).
   *
   * @return {@code said | heard}, each the words of a stretch, or that there is nothing
   */
  static List<String> confusions(List<String> said, List<String> read) {
    int[][] common = new int[said.size() + 1][read.size() + 1];
    for (int i = said.size() - 1; i >= 0; i--) {
      for (int k = read.size() - 1; k >= 0; k--) {
        common[i][k] =
            said.get(i).equals(read.get(k))
                ? common[i + 1][k + 1] + 1
                : Math.max(common[i + 1][k], common[i][k + 1]);
      }
    }
    List<String> confusions = new ArrayList<>();
    int fromSaid = 0;
    int fromRead = 0;
    int i = 0;
    int k = 0;
    while (i < said.size() || k < read.size()) {
      boolean same = i < said.size() && k < read.size() && said.get(i).equals(read.get(k));
      if (same) {
        add(confusions, said.subList(fromSaid, i), read.subList(fromRead, k));
        fromSaid = ++i;
        fromRead = ++k;
      } else if (k == read.size() || (i < said.size() && common[i + 1][k] >= common[i][k + 1])) {
        i++;
      } else {
        k++;
      }
    }
    add(confusions, said.subList(fromSaid, i), read.subList(fromRead, k));
    return confusions;
  }

  private static void add(List<String> confusions, List<String> said, List<String> read) {
    if (!said.isEmpty() || !read.isEmpty()) {
      confusions.add(words(said) + " | " + words(read));
    }
  }

  private static String words(List<String> words) {
    return words.isEmpty() ? NOTHING : String.join(" ", words);
  }
}
