package tallyback.history;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tallyback.books.PlanIndex;
import tallyback.model.Amount;
import tallyback.model.Dimension;
import tallyback.model.Entry;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Measured;
import tallyback.model.Statement.Tightened;
import tallyback.model.Statement.TightnessState;
import tallyback.model.Unit;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.Limit;
import tallyback.plan.Plan.Torque;
import tallyback.reconcile.MovedFluid;
import tallyback.reconcile.MovedFluid.Litres;
import tallyback.trade.ControlCharts;
import tallyback.trade.ControlCharts.Individuals;
import tallyback.trade.Uncertainty;

/**
 * What changes on one machine from job to job. Immutable. Floating point, as for the charts it is
 * made for; nothing is judged by it.
 *
 * @param jobs the jobs, oldest first
 * @param series what was followed, of which something was told at least once
 */
public record Trends(List<ToldJob> jobs, List<Series> series) {

  /** From so many jobs before the newest on there are limits to hold it against. */
  public static final int ENOUGH = 5;

  /** Copies the lists. */
  public Trends {
    jobs = List.copyOf(jobs);
    series = List.copyOf(series);
  }

  /** What is followed. */
  public enum What {
    /** Time worked, in hours. */
    WORKED,
    /** The machine's meter, in hours or as a distance. */
    METER,
    /** How much more of a fluid came out than went in, in litres. */
    MISSING,
    /** How much of it came out, in litres. */
    DRAINED,
    /** A torque found when a fastener was checked. */
    TORQUE_FOUND,
    /** Any other reading. */
    READING
  }

  /**
   * Something followed.
   *
   * @param what what it is
   * @param measure of readings and meters, what was measured; else null
   * @param subject name of what it is about; empty for the whole job
   * @param unit the unit of all values
   * @param points oldest first
   * @param low lowest right value by the newest job's plan, or null
   * @param high highest, or null
   * @param control limits by the jobs before the newest, or null where there are too few
   */
  public record Series(
      What what,
      @Nullable Measure measure,
      String subject,
      Unit unit,
      List<Point> points,
      @Nullable Double low,
      @Nullable Double high,
      @Nullable Control control) {

    /** Copies the list. */
    public Series {
      points = List.copyOf(points);
    }
  }

  /**
   * A value of one job.
   *
   * @param job the job
   * @param at when that was opened
   * @param zone its time zone
   * @param value the value
   * @param mayBeOff how far it may be off (k = 2), or null when that isn't known
   */
  public record Point(
      String job, Instant at, ZoneId zone, double value, @Nullable Double mayBeOff) {}

  /**
   * Limits of a chart of individuals.
   *
   * @param jobs by how many jobs before the newest
   * @param mean their mean
   * @param lower mean less three sigma
   * @param upper mean plus three sigma
   * @param byJugs true when sigma is how well the jugs can tell, because the values lie closer
   */
  public record Control(int jobs, double mean, double lower, double upper, boolean byJugs) {}

  /**
   * Follows.
   *
   * @param jobs jobs on one machine, in any order
   */
  public static Trends of(List<ToldJob> jobs) {
    List<ToldJob> sorted =
        jobs.stream()
            .sorted(Comparator.comparing(ToldJob::openedAt).thenComparing(ToldJob::id))
            .toList();
    Following following = new Following();
    sorted.forEach(following::take);
    return new Trends(sorted, following.series());
  }

  /** By what the values of several jobs are one series. */
  private record Key(What what, @Nullable Measure measure, String subject, Dimension dimension) {}

  /** A series in the making. */
  private static final class Line {
    private final Unit unit;
    private final List<Point> points = new ArrayList<>();
    private @Nullable Double low;
    private @Nullable Double high;

    Line(Unit unit) {
      this.unit = unit;
    }
  }

  private static final class Following {
    private final Map<Key, Line> lines = new LinkedHashMap<>();

    void take(ToldJob job) {
      double worked = job.worked().toSeconds() / 3600.0;
      if (worked > 0) {
        add(new Key(What.WORKED, null, "", Dimension.TIME), Unit.HOUR, job, worked, null);
      }
      for (MovedFluid fluid : job.fluids()) {
        if (!fluid.incomplete()
            && (fluid.out().value().signum() > 0 || fluid.in().value().signum() > 0)) {
          litres(What.MISSING, fluid.label(), job, fluid.missing());
          if (fluid.out().value().signum() > 0) {
            litres(What.DRAINED, fluid.label(), job, fluid.out());
          }
        }
      }
      readings(job);
      torques(job);
    }

    private void litres(What what, String label, ToldJob job, Litres litres) {
      add(
          new Key(what, null, label, Dimension.VOLUME),
          Unit.LITRE,
          job,
          litres.value().toDouble(),
          litres.mayBeOff().toDouble());
    }

    /** The last reading of each thing in a job. */
    private void readings(ToldJob job) {
      Map<Key, Amount> last = new LinkedHashMap<>();
      Map<Key, Measured> told = new LinkedHashMap<>();
      for (Entry entry : job.outcome().standing()) {
        if (!entry.confirmed() || !(entry.statement() instanceof Measured measured)) {
          continue;
        }
        Amount amount = measured.amount();
        if (amount != null && !amount.unitUnsaid()) {
          boolean meter =
              measured.measure() == Measure.HOURS || measured.measure() == Measure.DISTANCE;
          String subject = measured.subject();
          Key key =
              new Key(
                  meter ? What.METER : What.READING,
                  measured.measure(),
                  subject == null ? "" : job.plan().label(subject),
                  amount.unit().dimension());
          last.put(key, amount);
          told.put(key, measured);
        }
      }
      last.forEach(
          (key, amount) -> {
            Line line = add(key, amount.unit(), job, amount, mayBeOff(key, told, amount, job));
            limits(
                line, limit(job.plan(), java.util.Objects.requireNonNull(told.get(key)), amount));
          });
    }

    private static @Nullable Double mayBeOff(
        Key key, Map<Key, Measured> told, Amount amount, ToldJob job) {
      Measured measured = told.get(key);
      String instrument = measured == null ? null : measured.instrument();
      if (instrument == null) {
        return null;
      }
      return job.plan()
          .instrument(instrument)
          .filter(each -> each.unit().dimension() == amount.unit().dimension())
          .map(each -> tolerance(each, amount))
          .orElse(null);
    }

    private static @Nullable Double tolerance(Plan.Instrument instrument, Amount amount) {
      Amount tolerance = instrument.tolerance();
      if (tolerance != null) {
        return tolerance.value().doubleValue()
            * tolerance.unit().factor().toDouble()
            / amount.unit().factor().toDouble();
      }
      return instrument.tolerancePercent() == null
          ? null
          : Double.valueOf(
              Math.abs(amount.value().doubleValue())
                  * instrument.tolerancePercent().doubleValue()
                  / 100);
    }

    private static Optional<Limit> limit(Plan plan, Measured measured, Amount amount) {
      return plan.limits().stream()
          .filter(each -> each.measure() == measured.measure())
          .filter(each -> measured.subject() == null || each.subject().equals(measured.subject()))
          .filter(
              each -> {
                Amount bound = each.from() == null ? each.to() : each.from();
                return bound != null && bound.unit().dimension() == amount.unit().dimension();
              })
          .findFirst();
    }

    private static void limits(Line line, Optional<Limit> limit) {
      line.low = limit.map(Limit::from).map(each -> each.in(line.unit).toDouble()).orElse(null);
      line.high = limit.map(Limit::to).map(each -> each.in(line.unit).toDouble()).orElse(null);
    }

    /** Torques that were found when a fastener was checked. */
    private void torques(ToldJob job) {
      PlanIndex index = new PlanIndex(job.plan());
      Map<Item, Amount> found = new LinkedHashMap<>();
      for (Entry entry : job.outcome().standing()) {
        if (entry.confirmed()
            && entry.statement() instanceof Tightened tightened
            && tightened.state() == TightnessState.CHECKED
            && tightened.torque() != null
            && !tightened.torque().unitUnsaid()) {
          Amount torque = tightened.torque();
          index
              .itemMeant(tightened.item(), tightened.place(), tightened.thing(), null)
              .ifPresent(item -> found.put(item, torque));
        }
      }
      found.forEach(
          (item, amount) -> {
            Key key = new Key(What.TORQUE_FOUND, null, item.label(), amount.unit().dimension());
            Line line = add(key, amount.unit(), job, amount, null);
            Torque torque = item.torque();
            boolean known =
                torque != null && torque.value().unit().dimension() == amount.unit().dimension();
            line.low =
                known && torque != null
                    ? (Double) minus(torque.value(), torque.minus()).in(line.unit).toDouble()
                    : null;
            line.high =
                known && torque != null
                    ? (Double) plus(torque.value(), torque.plus()).in(line.unit).toDouble()
                    : null;
          });
    }

    private static Amount minus(Amount value, Amount less) {
      return new Amount(value.value().subtract(less.value()), value.unit());
    }

    private static Amount plus(Amount value, Amount more) {
      return new Amount(value.value().add(more.value()), value.unit());
    }

    private Line add(Key key, Unit unit, ToldJob job, Amount amount, @Nullable Double mayBeOff) {
      Line line = lines.computeIfAbsent(key, any -> new Line(unit));
      Double off =
          mayBeOff == null
              ? null
              : Double.valueOf(mayBeOff * unit.factor().toDouble() / line.unit.factor().toDouble());
      line.points.add(
          new Point(job.id(), job.openedAt(), job.zone(), amount.in(line.unit).toDouble(), off));
      return line;
    }

    private void add(Key key, Unit unit, ToldJob job, double value, @Nullable Double mayBeOff) {
      lines
          .computeIfAbsent(key, any -> new Line(unit))
          .points
          .add(new Point(job.id(), job.openedAt(), job.zone(), value, mayBeOff));
    }

    List<Series> series() {
      List<Series> all = new ArrayList<>();
      lines.forEach(
          (key, line) ->
              all.add(
                  new Series(
                      key.what(),
                      key.measure(),
                      key.subject(),
                      line.unit,
                      line.points,
                      line.low,
                      line.high,
                      key.what() == What.METER ? null : control(line.points))));
      all.sort(Comparator.comparing(Series::what));
      return all;
    }

    /** A meter goes up by itself, so that it has none. */
    private static @Nullable Control control(List<Point> points) {
      int before = points.size() - 1;
      if (before < ENOUGH) {
        return null;
      }
      double[] values = points.subList(0, before).stream().mapToDouble(Point::value).toArray();
      Individuals chart = ControlCharts.individuals(values);
      double jugs =
          points.stream()
                  .mapToDouble(each -> each.mayBeOff() == null ? 0 : each.mayBeOff())
                  .max()
                  .orElse(0)
              / Uncertainty.COVERAGE_FACTOR;
      double sigma = Math.max(chart.sigma(), jugs);
      double mean = Arrays.stream(values).average().orElse(chart.mean());
      return sigma == 0
          ? null
          : new Control(before, mean, mean - 3 * sigma, mean + 3 * sigma, jugs > chart.sigma());
    }
  }
}
