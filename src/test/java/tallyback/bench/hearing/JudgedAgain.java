package tallyback.bench.hearing;

import java.io.IOException;
import java.util.List;
import java.util.Locale;
import java.util.TreeSet;
import java.util.function.Function;
import tallyback.speech.ByTrust;

/**
 * Judges the kept hearings of runs once more, by the limits as they are now: {@code
 * -Dbench.main=JudgedAgain -Dbench.speech=OUT1,OUT2}. So a limit can be tried without hearing
 * again.
 */
public final class JudgedAgain {

  private JudgedAgain() {}

  /** Prints a table, by ratio and by set. */
  public static void main(String[] args) throws IOException {
    try {
      System.out.print(
          table(
              ThresholdCurve.readNewest(BenchSettings.of(HearingBench.properties()).speech()),
              ByTrust.defaults()));
    } catch (IllegalArgumentException e) {
      System.err.println(e.getMessage());
      System.exit(2);
    }
  }

  /** Counts and, per cent with 95 % Wilson intervals, what would be noted right and wrong. */
  static String table(List<Heard> heard, ByTrust judge) {
    StringBuilder text =
        new StringBuilder(
            """
            | ratio, set | n | best right | noted right | noted wrong | judged otherwise |
            | --- | --- | --- | --- | --- | --- |
            """);
    addRows(text, heard, judge, each -> each.snr() + ", all");
    addRows(text, heard, judge, each -> each.snr() + ", " + each.set());
    return text.toString();
  }

  private static void addRows(
      StringBuilder text, List<Heard> heard, ByTrust judge, Function<Heard, String> name) {
    for (String row : new TreeSet<>(heard.stream().map(name).toList())) {
      List<Heard> here = heard.stream().filter(each -> name.apply(each).equals(row)).toList();
      List<Heard> clear = here.stream().filter(each -> isClear(each, judge)).toList();
      int right = (int) clear.stream().filter(JudgedAgain::isRight).count();
      text.append(
          String.format(
              Locale.ROOT,
              "| %s | %d | %s | %s | %d = %s | %d |%n",
              row,
              here.size(),
              new Share((int) here.stream().filter(JudgedAgain::isRight).count(), here.size())
                  .percent(),
              new Share(right, here.size()).percent(),
              clear.size() - right,
              new Share(clear.size() - right, here.size()).percent(),
              here.stream().filter(each -> isClear(each, judge) != wasClear(each)).count()));
    }
  }

  private static boolean isRight(Heard heard) {
    return heard.rightAt() == 0;
  }

  private static boolean isClear(Heard heard, ByTrust judge) {
    return wasClear(heard.judged(judge));
  }

  private static boolean wasClear(Heard heard) {
    return heard.outcome() == Outcome.EXACT || heard.outcome() == Outcome.NOTED_WRONG;
  }
}
