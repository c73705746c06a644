package tallyback.reconcile;

import java.math.BigDecimal;
import java.util.List;
import tallyback.books.Posting;
import tallyback.model.Account;
import tallyback.model.Rational;
import tallyback.plan.Plan.FluidSystem;
import tallyback.reconcile.EarlierFill.ToppedUp;
import tallyback.trade.ControlCharts;
import tallyback.trade.ControlCharts.Individuals;
import tallyback.trade.Uncertainty;

/**
 * What is topped up from job to job. From five earlier jobs on it is charted; with fewer only the
 * difference to the last one is told.
 */
final class HistoryRules implements Rule {

  private static final String[] CAUSES = {
    "fluid-excess",
    "fluid-short",
    "drain-low",
    "more-out-than-holds",
    "amount-unsaid",
    "unit-unsaid",
    "amount-unusable"
  };

  private static final Kind UNUSUAL =
      Kind.check("topped-up-unusual", Kind.HAND_OVER).following(CAUSES).whileUnfinished();
  private static final Kind DRIFTING =
      Kind.check("topped-up-drifting", Kind.HAND_OVER)
          .following(with("topped-up-unusual", CAUSES))
          .whileUnfinished();
  private static final Kind MORE = Kind.note("topped-up-more").following(CAUSES).whileUnfinished();

  /** How many earlier jobs a chart needs. */
  private static final int ENOUGH = 5;

  /** Weight of the newest and widths of the limits, as in the e-Handbook's example. */
  private static final double WEIGHT = 0.3;

  private static final double WIDTHS = 3;

  /** Slack and limit of the cumulative sum in sigma: the usual half and five. */
  private static final double SLACK = 0.5;

  private static final double LIMIT = 5;

  private static String[] with(String first, String... others) {
    String[] all = new String[others.length + 1];
    all[0] = first;
    System.arraycopy(others, 0, all, 1, others.length);
    return all;
  }

  @Override
  public List<Kind> kinds() {
    return List.of(UNUSUAL, DRIFTING, MORE);
  }

  @Override
  public void judge(JobView job, Drafts found) {
    for (FluidSystem system : job.plan().systems()) {
      List<ToppedUp> past = EarlierFill.ofSystem(job.past(), system.id());
      if (!past.isEmpty() && job.account(system).mentioned()) {
        FluidSums sums = job.sums(system);
        if (!sums.someAmountUnsaid() && !sums.reads().isEmpty()) {
          new Series(job, system, past, sums).judge(found);
        }
      }
    }
  }

  /** What was topped up of one system, job after job, this one last. Litres. */
  private static final class Series {

    private final JobView job;
    private final FluidSystem system;
    private final List<ToppedUp> past;
    private final FluidSums sums;
    private final double[] before;
    private final double now;
    private final double expanded;

    Series(JobView job, FluidSystem system, List<ToppedUp> past, FluidSums sums) {
      this.job = job;
      this.system = system;
      this.past = past;
      this.sums = sums;
      this.before =
          past.stream().mapToDouble(each -> EarlierFill.litres(each.amount()).toDouble()).toArray();
      this.now = -sums.shortage().value().toDouble();
      this.expanded = sums.shortage().uncertainty().toDouble();
    }

    void judge(Drafts found) {
      if (past.size() < ENOUGH) {
        moreThanLastTime(found);
        return;
      }
      unusual(found);
      drifting(found);
    }

    private Draft start(Kind kind, Drafts found) {
      return found
          .add(kind, system.id(), system.label())
          .with("now", FindingText.toppedUp(signed(now)))
          .with("jobs", past.size())
          .seenIn(
              job.account(system).postings().stream()
                  .filter(each -> each.from() == Account.SYSTEM || each.to() == Account.SYSTEM)
                  .map(Posting::said)
                  .toList());
    }

    private void moreThanLastTime(Drafts found) {
      ToppedUp last = past.get(past.size() - 1);
      double lastLitres = EarlierFill.litres(last.amount()).toDouble();
      double uncertainty =
          Uncertainty.quadrature(expanded, EarlierFill.litres(last.uncertainty()).toDouble());
      if (now - lastLitres > uncertainty) {
        start(MORE, found)
            .with("last", FindingText.toppedUp(signed(lastLitres)))
            .with("more", size(now - lastLitres))
            .with("uncertainty", size(uncertainty));
      }
    }

    private void unusual(Drafts found) {
      double middle = ControlCharts.median(before);
      if (now - middle > expanded && ControlCharts.modifiedZ(now, before) > ControlCharts.OUTLIER) {
        start(UNUSUAL, found)
            .with("middle", FindingText.toppedUp(signed(middle)))
            .with("more", size(now - middle))
            .with("uncertainty", size(expanded))
            .with("spread", size(ControlCharts.medianAbsoluteDeviation(before)));
      }
    }

    private void drifting(Drafts found) {
      double[] first = java.util.Arrays.copyOf(before, ENOUGH);
      double[] since = java.util.Arrays.copyOfRange(before, ENOUGH, before.length + 1);
      since[since.length - 1] = now;
      Individuals chart = ControlCharts.individuals(first);
      // Never finer than the jugs: a lucky run of equal readings is no spread.
      double sigma = Math.max(chart.sigma(), expanded / Uncertainty.COVERAGE_FACTOR);
      if (sigma == 0) {
        return;
      }
      List<Double> averages = ControlCharts.movingAverages(since, chart.mean(), WEIGHT);
      double average = averages.get(averages.size() - 1);
      double reach = ControlCharts.reachOfMovingAverage(sigma, WEIGHT, WIDTHS);
      List<ControlCharts.Sums> cumulative =
          ControlCharts.cumulativeSums(since, chart.mean(), SLACK * sigma, 0);
      double sum = cumulative.get(cumulative.size() - 1).high();
      if (average - chart.mean() > reach || sum > LIMIT * sigma) {
        start(DRIFTING, found)
            .with("mean", FindingText.toppedUp(signed(chart.mean())))
            .with("average", FindingText.toppedUp(signed(average)))
            .with("reach", size(reach))
            .with("sum", size(sum))
            .with("limit", size(LIMIT * sigma));
      }
    }

    private Rational signed(double litres) {
      return Rational.of(BigDecimal.valueOf(litres).setScale(6, java.math.RoundingMode.HALF_UP));
    }

    private String size(double litres) {
      return sums.litres(signed(litres));
    }
  }
}
