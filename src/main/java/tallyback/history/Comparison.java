package tallyback.history;

import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import tallyback.model.Amount;
import tallyback.model.Entry;
import tallyback.model.Finding;
import tallyback.model.Rational;
import tallyback.model.Statement.Measure;
import tallyback.model.Statement.Measured;
import tallyback.reconcile.MovedFluid;
import tallyback.reconcile.MovedFluid.Litres;
import tallyback.reconcile.Outcome.StepLine;
import tallyback.reconcile.Outcome.TightnessLine;
import tallyback.trade.Uncertainty;

/**
 * Two jobs side by side. Of jobs of one plan things are held against each other by their ids in it;
 * of different plans by their names, and only what both plans name. Immutable.
 *
 * <p>The difference of two amounts that came out, or went in, may be off by the root of the sum of
 * squares of how far each may be off (JCGM 100:2008, 5.1.2): the jugs are taken as different ones,
 * which is never too small. What is missing is a difference itself, in which the error of one jug
 * may count for one job and against the other: there it is the plain sum.
 *
 * @param one the first
 * @param other the second
 * @param samePlan true when both are jobs of one plan, by its name
 * @param steps steps that both plans have
 * @param fluids systems that both plans have, of which something was told in one at least
 * @param torques fastener groups with a torque that both plans have
 * @param readings what was measured in one at least
 * @param findings what was found, first in one alone, then in both; by weight in each
 * @param renewed parts renewed in one at least
 */
public record Comparison(
    ToldJob one,
    ToldJob other,
    boolean samePlan,
    List<Step> steps,
    List<Fluid> fluids,
    List<Torque> torques,
    List<Reading> readings,
    List<Found> findings,
    List<Renewed> renewed) {

  /** Copies the lists. */
  public Comparison {
    steps = List.copyOf(steps);
    fluids = List.copyOf(fluids);
    torques = List.copyOf(torques);
    readings = List.copyOf(readings);
    findings = List.copyOf(findings);
    renewed = List.copyOf(renewed);
  }

  /**
   * A step; times are working times, null where it wasn't told from start to end.
   *
   * @param label how people call it
   * @param one in the first job
   * @param other in the second
   */
  public record Step(String label, @Nullable Duration one, @Nullable Duration other) {

    /** How much longer it took in the second; null when that can't be told. */
    public @Nullable Duration longer() {
      return one == null || other == null ? null : other.minus(one);
    }
  }

  /** Which amount of a fluid system. */
  public enum Side {
    /** Came out, whichever way. */
    OUT,
    /** Went in. */
    IN,
    /** More out than in. */
    MISSING
  }

  /** Whether two amounts differ. */
  public enum Tells {
    /** By more than the jugs can be off. */
    DIFFERS,
    /** By less: that is no difference. */
    WITHIN,
    /** One of them wasn't told in full. */
    UNTOLD
  }

  /**
   * An amount of a fluid system.
   *
   * @param label how people call the system
   * @param side which amount
   * @param one in the first job, or null when nothing was told
   * @param other in the second, likewise
   * @param difference second less first, with how far that may be off; null when it can't be told
   * @param tells whether they differ
   */
  public record Fluid(
      String label,
      Side side,
      @Nullable Litres one,
      @Nullable Litres other,
      @Nullable Litres difference,
      Tells tells) {}

  /**
   * A fastener group.
   *
   * @param label how people call it
   * @param one how it stands in the first job
   * @param other in the second
   */
  public record Torque(String label, TightnessLine one, TightnessLine other) {}

  /**
   * Something measured, the last time in each job; null where it wasn't.
   *
   * @param measure what was measured
   * @param subject name of what it was measured of; empty when nobody said
   * @param one in the first job
   * @param other in the second
   */
  public record Reading(
      Measure measure, String subject, @Nullable Measured one, @Nullable Measured other) {}

  /** In which of the two something is. */
  public enum In {
    /** In both. */
    BOTH,
    /** In the first alone. */
    ONE,
    /** In the second alone. */
    OTHER
  }

  /**
   * A finding; what follows from it stands under its own job's.
   *
   * @param in where it was found
   * @param one in the first job, or null
   * @param other in the second, or null
   */
  public record Found(In in, @Nullable Finding one, @Nullable Finding other) {

    /** One of them. */
    public Finding any() {
      if (one != null) {
        return one;
      }
      return java.util.Objects.requireNonNull(other, "it was found somewhere");
    }
  }

  /**
   * A part renewed.
   *
   * @param label how people call it
   * @param in in which of the two
   */
  public record Renewed(String label, In in) {}

  /** Compares. */
  public static Comparison of(ToldJob one, ToldJob other) {
    boolean same = one.plan().name().equals(other.plan().name());
    Keys keys = new Keys(same);
    return new Comparison(
        one,
        other,
        same,
        steps(one, other, keys),
        fluids(one, other, keys),
        torques(one, other, keys),
        readings(one, other),
        findings(one, other),
        renewed(one, other, keys));
  }

  /** By what things of two plans are taken for the same. */
  private record Keys(boolean byId) {
    String of(String id, String label) {
      return byId ? id : label.toLowerCase(Locale.ROOT);
    }
  }

  private static <T> Map<String, T> byKey(List<T> all, Function<T, String> key) {
    Map<String, T> map = new LinkedHashMap<>();
    all.forEach(each -> map.putIfAbsent(key.apply(each), each));
    return map;
  }

  private static List<Step> steps(ToldJob one, ToldJob other, Keys keys) {
    Map<String, StepLine> others =
        byKey(other.outcome().steps(), each -> keys.of(each.step(), each.label()));
    List<Step> steps = new ArrayList<>();
    byKey(one.outcome().steps(), each -> keys.of(each.step(), each.label()))
        .forEach(
            (key, step) -> {
              StepLine same = others.get(key);
              if (same != null) {
                steps.add(new Step(step.label(), step.took(), same.took()));
              }
            });
    return steps;
  }

  private static List<Fluid> fluids(ToldJob one, ToldJob other, Keys keys) {
    Map<String, MovedFluid> ones =
        byKey(one.fluids(), each -> keys.of(each.system(), each.label()));
    Map<String, MovedFluid> others =
        byKey(other.fluids(), each -> keys.of(each.system(), each.label()));
    Map<String, String> labels = new LinkedHashMap<>();
    ones.forEach((key, fluid) -> labels.putIfAbsent(key, fluid.label()));
    others.forEach((key, fluid) -> labels.putIfAbsent(key, fluid.label()));
    List<Fluid> fluids = new ArrayList<>();
    labels.forEach(
        (key, label) -> {
          MovedFluid first = ones.get(key);
          MovedFluid second = others.get(key);
          fluids.add(fluid(label, Side.OUT, first, second, MovedFluid::out));
          fluids.add(fluid(label, Side.IN, first, second, MovedFluid::in));
          fluids.add(fluid(label, Side.MISSING, first, second, MovedFluid::missing));
        });
    return fluids;
  }

  private static Fluid fluid(
      String label,
      Side side,
      @Nullable MovedFluid one,
      @Nullable MovedFluid other,
      Function<MovedFluid, Litres> amount) {
    Litres first = one == null ? null : amount.apply(one);
    Litres second = other == null ? null : amount.apply(other);
    if (one == null
        || other == null
        || first == null
        || second == null
        || one.incomplete()
        || other.incomplete()) {
      return new Fluid(label, side, first, second, null, Tells.UNTOLD);
    }
    Rational difference = second.value().minus(first.value());
    Rational mayBeOff =
        side == Side.MISSING
            ? first.mayBeOff().plus(second.mayBeOff())
            : roundedUp(
                Uncertainty.quadrature(first.mayBeOff().toDouble(), second.mayBeOff().toDouble()));
    Tells tells = difference.abs().compareTo(mayBeOff) > 0 ? Tells.DIFFERS : Tells.WITHIN;
    return new Fluid(label, side, first, second, new Litres(difference, mayBeOff, ""), tells);
  }

  /** To a thousandth of a litre, never too small. */
  private static Rational roundedUp(double litres) {
    return Rational.of((long) Math.ceil(litres * 1000), 1000);
  }

  private static List<Torque> torques(ToldJob one, ToldJob other, Keys keys) {
    Map<String, TightnessLine> others =
        byKey(other.outcome().tightness(), each -> keys.of(each.item(), each.label()));
    List<Torque> torques = new ArrayList<>();
    byKey(one.outcome().tightness(), each -> keys.of(each.item(), each.label()))
        .forEach(
            (key, line) -> {
              TightnessLine same = others.get(key);
              if (same != null) {
                torques.add(new Torque(line.label(), line, same));
              }
            });
    return torques;
  }

  private static List<Reading> readings(ToldJob one, ToldJob other) {
    Map<String, Measured> ones = lastReadings(one);
    Map<String, Measured> others = lastReadings(other);
    Map<String, Reading> readings = new LinkedHashMap<>();
    ones.forEach(
        (key, reading) -> readings.put(key, reading(reading, one, reading, others.get(key))));
    others.forEach(
        (key, reading) -> readings.putIfAbsent(key, reading(reading, other, null, reading)));
    return List.copyOf(readings.values());
  }

  private static Reading reading(
      Measured what, ToldJob job, @Nullable Measured one, @Nullable Measured other) {
    return new Reading(what.measure(), subject(what, job), one, other);
  }

  private static String subject(Measured what, ToldJob job) {
    String subject = what.subject();
    return subject == null ? "" : job.plan().label(subject);
  }

  private static Map<String, Measured> lastReadings(ToldJob job) {
    Map<String, Measured> last = new LinkedHashMap<>();
    for (Entry entry : job.outcome().standing()) {
      if (entry.confirmed()
          && entry.statement() instanceof Measured measured
          && (measured.level() != null || usable(measured.amount()))) {
        last.put(measured.measure() + " " + subject(measured, job), measured);
      }
    }
    return last;
  }

  private static boolean usable(@Nullable Amount amount) {
    return amount != null && !amount.unitUnsaid();
  }

  private static List<Found> findings(ToldJob one, ToldJob other) {
    Map<String, Finding> others = byKindAndSubject(other.outcome().findings());
    List<Found> both = new ArrayList<>();
    List<Found> alone = new ArrayList<>();
    byKindAndSubject(one.outcome().findings())
        .forEach(
            (key, finding) -> {
              Finding same = others.remove(key);
              if (same == null) {
                alone.add(new Found(In.ONE, finding, null));
              } else {
                both.add(new Found(In.BOTH, finding, same));
              }
            });
    others.values().forEach(finding -> alone.add(new Found(In.OTHER, null, finding)));
    alone.addAll(both);
    return alone;
  }

  /** Of several of one kind about one thing the first is held against the first, and so on. */
  private static Map<String, Finding> byKindAndSubject(List<Finding> findings) {
    Map<String, Integer> seen = new HashMap<>();
    Map<String, Finding> map = new LinkedHashMap<>();
    for (Finding finding : findings) {
      String key = finding.kind() + " " + finding.subject();
      map.put(key + " " + seen.merge(key, 1, Integer::sum), finding);
    }
    return map;
  }

  private static List<Renewed> renewed(ToldJob one, ToldJob other, Keys keys) {
    Map<String, String> ones = new LinkedHashMap<>();
    one.renewed().forEach((id, label) -> ones.put(keys.of(id, label), label));
    Map<String, String> others = new LinkedHashMap<>();
    other.renewed().forEach((id, label) -> others.put(keys.of(id, label), label));
    List<Renewed> renewed = new ArrayList<>();
    ones.forEach(
        (key, label) ->
            renewed.add(new Renewed(label, others.containsKey(key) ? In.BOTH : In.ONE)));
    others.forEach(
        (key, label) -> {
          if (!ones.containsKey(key)) {
            renewed.add(new Renewed(label, In.OTHER));
          }
        });
    return renewed;
  }
}
